/* What a child that works does. */
#define _DEFAULT_SOURCE
#include "http/work_child.h"

#include <errno.h>
#include <math.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <unistd.h>

#include "desk/can_take.h"
#include "desk/folder_lock.h"
#include "desk/folder_stamp.h"
#include "desk/years.h"
#include "http/frame.h"
#include "json/can.h"
#include "json/work.h"

enum { READ_BYTES = 16 * 1024, TELL_SHARES = 100 };

static volatile sig_atomic_t stop_asked;

static void ask_stop(int number)
{
    (void)number;
    stop_asked = 1;
}

typedef struct Worker {
    const char *dir;
    int32_t today;
    int in;
    int out;
    Arena arena;
    char *bytes; /* read from in, and not yet taken */
    size_t length;
    int told; /* share of the progress last told; -1: none */
    WorkQuestion question;
    PlanYearAsk ask; /* of a plan */
    PlanYear *year;  /* a plan that may be accepted; NULL: none */
    uint64_t tables; /* the mark of the tables that it was made from */
} Worker;

/* ---- Messages -------------------------------------------------------------
 */

static Err write_all(int out, const FramePart *message)
{
    size_t at = 0;
    while (at < message->length) {
        ssize_t put = write(out, message->bytes + at, message->length - at);
        if (put < 0 && errno != EINTR) {
            return err_make(ERR_IO, "nobody listens: %s", strerror(errno));
        }
        at += put > 0 ? (size_t)put : 0;
    }
    return ERR_NONE;
}

static FramePart part_of(const char *text)
{
    return (FramePart){text, strlen(text)};
}

static Err write_out(const Worker *worker, const char *what, const char *one,
                     const char *two)
{
    CLEANUP(arena_release) Arena arena = {0};
    Frame frame = {.parts = {part_of(what), part_of(one), part_of(two)},
                   .count = 3};
    FramePart message = frame_write(&frame, &arena);
    return write_all(worker->out, &message);
}

static Err say_error(const Worker *worker, const Err *err)
{
    CLEANUP(arena_release) Arena arena = {0};
    return write_out(worker, WORK_SAYS_ERROR,
                     arena_text(&arena, "%d", (int)err->kind), err->text);
}

/* Waits for a message; count 0 at the end of the input. */
static Err hear(Worker *worker, Frame *out)
{
    for (;;) {
        size_t used = 0;
        TRY(frame_read(worker->bytes, worker->length, out, &used));
        if (used > 0) {
            worker->bytes += used;
            worker->length -= used;
            return ERR_NONE;
        }
        worker->bytes =
            arena_grow(&worker->arena, worker->bytes, worker->length,
                       worker->length + READ_BYTES, 1);
        ssize_t got =
            read(worker->in, worker->bytes + worker->length, READ_BYTES);
        if (got == 0) {
            *out = (Frame){.count = 0};
            return ERR_NONE;
        }
        if (got < 0 && errno != EINTR) {
            return err_make(ERR_IO, "no question: %s", strerror(errno));
        }
        worker->length += got > 0 ? (size_t)got : 0;
    }
}

static void tell(Worker *worker, double done_frac, double value)
{
    CLEANUP(arena_release) Arena arena = {0};
    int share = (int)(done_frac * TELL_SHARES);
    if (done_frac >= 0.0 && share == worker->told) {
        return;
    }
    worker->told = share;
    Err err = write_out(
        worker, WORK_SAYS_PROGRESS, arena_text(&arena, "%.6g", done_frac),
        isfinite(value) ? arena_text(&arena, "%.15g", value) : "");
    if (err.kind != ERR_OK) {
        stop_asked = 1; /* nobody listens any more */
    }
}

static void on_plan(void *context, double done_frac, double value)
{
    tell(context, done_frac, value);
}

static void on_years(void *context, int64_t done, int64_t all)
{
    tell(context, (double)done / (double)all, NAN);
}

/* ---- Work -----------------------------------------------------------------
 */

static PlanYearAsk plan_ask(Worker *worker)
{
    const WorkQuestion *question = &worker->question;
    return (PlanYearAsk){.dir = worker->dir,
                         .weeks = question->weeks,
                         .seed = question->seed,
                         .moves = question->moves,
                         .keep_weeks = question->keep_weeks,
                         .today = worker->today,
                         .is_from_plan = question->keep_weeks > 0,
                         .is_anew = question->is_anew,
                         .is_fish_frozen = question->is_fish_frozen,
                         .stop = &stop_asked,
                         .progress = on_plan,
                         .progress_context = worker};
}

static Err work_plan(Worker *worker, const char **out)
{
    FolderStamp stamp;
    Arena *arena = &worker->arena;
    worker->ask = plan_ask(worker);
    PlanYear *year = ARENA_NEW(arena, PlanYear);
    TRY(folder_stamp(worker->dir, &stamp));
    TRY(plan_year_open(&worker->ask, arena, year));
    TRY(plan_year_search(&worker->ask, arena, year));
    if (worker->question.wants_ceiling && !year->was_stopped) {
        TRY(plan_year_ceiling(&worker->ask, arena, year));
    }
    *out = plan_year_json(year, arena);
    /* Kept to be compared and changed by hand; where the disk takes nothing it
     * can be looked at and accepted all the same. */
    Err kept = plan_year_keep_draft(&worker->ask, arena, year);
    (void)kept;
    worker->year = year;
    worker->tables = stamp.tables;
    return ERR_NONE;
}

static Err work_can(Worker *worker, const char **out)
{
    const WorkQuestion *question = &worker->question;
    CanAsk ask = {.plan = plan_ask(worker),
                  .product = question->product,
                  .buyer = question->buyer,
                  .quantity = question->quantity,
                  .from = question->from,
                  .until = question->until,
                  .price_e4 = question->price_e4,
                  .wants_ceiling = question->wants_ceiling};
    CanAnswer *answer = ARENA_NEW(&worker->arena, CanAnswer);
    TRY(can_take(&ask, &worker->arena, answer));
    if (stop_asked) {
        return err_make(ERR_STOPPED, "stopped: no answer");
    }
    *out = json_can(&answer->found, answer->after.index.from,
                    answer->before.age, &worker->arena);
    return ERR_NONE;
}

static Err work_years(Worker *worker, const char **out)
{
    Arena *arena = &worker->arena;
    YearsQuestion question = {.dir = worker->dir,
                              .day = worker->today,
                              .weeks = worker->question.weeks,
                              .years = worker->question.years,
                              .seed = worker->question.seed,
                              .progress = on_years,
                              .context = worker,
                              .stop = &stop_asked};
    YearsAnswer answer;
    TRY(years_answer(&question, arena, &answer));
    *out = years_answer_json(&answer, arena);
    return ERR_NONE;
}

static Err work(Worker *worker, const char **out)
{
    switch (worker->question.kind) {
    case WORK_PLAN:
        return work_plan(worker, out);
    case WORK_CAN:
        return work_can(worker, out);
    case WORK_YEARS:
        return work_years(worker, out);
    }
    return err_make(ERR_DEFECT, "work of no kind");
}

/* ---- Accepting ------------------------------------------------------------
 */

static Err accept(Worker *worker)
{
    FolderStamp stamp;
    if (!worker->year) {
        return err_make(ERR_USAGE, "there is no plan to accept");
    }
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    TRY(folder_lock_open(worker->dir, &lock));
    TRY(folder_stamp(worker->dir, &stamp));
    if (stamp.tables != worker->tables) {
        return err_make(ERR_CONFLICT, "the farm's tables were changed since "
                                      "this plan was made; plan again");
    }
    TRY(plan_year_accept(&worker->ask, &worker->arena, worker->year));
    worker->year = NULL; /* once */
    return ERR_NONE;
}

static Err hear_acceptance(Worker *worker)
{
    for (;;) {
        Frame frame;
        TRY(hear(worker, &frame));
        if (frame.count == 0) {
            return ERR_NONE;
        }
        if (strcmp(frame.parts[0].bytes, WORK_ASKS_ACCEPT) != 0) {
            continue;
        }
        Err err = accept(worker);
        TRY(err.kind == ERR_OK ? write_out(worker, WORK_SAYS_ACCEPTED, "", "")
                               : say_error(worker, &err));
    }
}

static Err serve(Worker *worker)
{
    Frame frame;
    const char *answer = "";
    TRY(hear(worker, &frame));
    if (frame.count == 0) {
        return ERR_NONE;
    }
    Err err = json_work_read(frame.parts[0].bytes, frame.parts[0].length,
                             &worker->arena, &worker->question);
    if (err.kind == ERR_OK) {
        err = work(worker, &answer);
    }
    if (err.kind != ERR_OK) {
        return say_error(worker, &err);
    }
    TRY(write_out(worker, WORK_SAYS_ANSWER, answer, ""));
    return worker->question.kind == WORK_PLAN ? hear_acceptance(worker)
                                              : ERR_NONE;
}

Err work_child_serve(const char *dir, int32_t today, int in, int out)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    struct sigaction on_stop = {.sa_handler = ask_stop};
    sigaction(SIGINT, &on_stop, NULL);
    Worker worker = {
        .dir = dir, .today = today, .in = in, .out = out, .told = -1};
    Err err = serve(&worker);
    arena_release(&worker.arena);
    return err;
}
