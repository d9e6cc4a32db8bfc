/* Work by children of their own while the server goes on. */
#define _GNU_SOURCE
#include "http/works.h"

#include <errno.h>
#include <inttypes.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <unistd.h>

#include "http/frame.h"
#include "http/launch.h"
#include "http/work_child.h"

enum { READ_BYTES = 64 * 1024, DAY_TEXT = 16 };

void works_open(Works *works, const char *dir, int32_t today)
{
    *works = (Works){.dir = dir, .today = today};
}

static void end_child(Work *work)
{
    if (work->pid) {
        launch_end(work->pid);
        close(work->in);
        close(work->out);
        work->pid = 0;
    }
}

static void tell_accepted(Work *work, const Err *err)
{
    WorkAccepted *accepted = work->accepted;
    work->accepted = NULL;
    if (accepted) {
        accepted(work->context, err);
    }
}

static void drop(Work *work)
{
    end_child(work);
    Err err = err_make(ERR_STOPPED, "Leat is closing");
    tell_accepted(work, &err);
    arena_release(&work->arena);
    *work = (Work){.phase = WORK_FREE};
}

void works_close(Works *works)
{
    for (int i = 0; i < WORKS_MOST; i++) {
        drop(&works->of[i]);
    }
}

static bool is_running(const Work *work)
{
    return work->phase == WORK_RUNNING || work->phase == WORK_STOPPING;
}

static bool has_ended(const Work *work)
{
    return work->phase == WORK_DONE || work->phase == WORK_FAILED ||
           work->phase == WORK_ACCEPTED;
}

/* A free place, else that of the work that ended longest ago; NULL: none. */
static Work *place_for(Works *works)
{
    Work *found = NULL;
    int running = 0;
    for (int i = 0; i < WORKS_MOST; i++) {
        Work *work = &works->of[i];
        running += is_running(work) ? 1 : 0;
        bool is_better =
            work->phase == WORK_FREE ||
            (has_ended(work) && (!found || work->ended_ms < found->ended_ms));
        if (is_better && !(found && found->phase == WORK_FREE)) {
            found = work;
        }
    }
    return running < WORKS_RUNNING ? found : NULL;
}

static Work *find(const Works *works, const char *id)
{
    for (int i = 0; i < WORKS_MOST; i++) {
        const Work *work = &works->of[i];
        if (work->phase != WORK_FREE && strcmp(work->id, id) == 0) {
            return (Work *)work;
        }
    }
    return NULL;
}

static Err not_there(const char *id)
{
    return err_make(ERR_NOT_FOUND, "there is no work %.40s any more", id);
}

static void put_message(Work *work, const char *bytes, size_t length)
{
    Frame frame = {.parts = {{bytes, length}}, .count = 1};
    FramePart message = frame_write(&frame, &work->arena);
    work->message = message.bytes;
    work->message_length = message.length;
}

Err works_begin(Works *works, WorkKind kind, const char *body, size_t length,
                Arena *arena, const char **out_id)
{
    uint64_t random = 0;
    Work *work = place_for(works);
    if (!work) {
        return err_make(ERR_BUSY,
                        "%d are being worked out already; stop one, or wait",
                        WORKS_RUNNING);
    }
    if (getrandom(&random, sizeof random, 0) != (ssize_t)sizeof random) {
        return err_make(ERR_IO, "the machine gives no random numbers");
    }
    drop(work);
    char today[DAY_TEXT];
    (void)snprintf(today, sizeof today, "%" PRId32, works->today);
    char *const words[] = {"leat", "work", "--", (char *)works->dir,
                           today,  NULL};
    Launched child;
    TRY(launch_leat(words, LAUNCH_WORKS, &child));
    *work = (Work){.phase = WORK_RUNNING,
                   .kind = kind,
                   .pid = child.pid,
                   .in = child.in,
                   .out = child.out,
                   .value = NAN};
    (void)snprintf(work->id, sizeof work->id, "%016" PRIx64, random);
    put_message(work, body, length);
    *out_id = arena_copy_text(arena, work->id);
    return ERR_NONE;
}

/* ---- How far it is --------------------------------------------------------
 */

static WorkState state_of(const Work *work)
{
    static const char *const WORDS[] = {
        [WORK_FREE] = "",
        [WORK_RUNNING] = "running",
        [WORK_STOPPING] = "stopping",
        [WORK_DONE] = "done",
        [WORK_FAILED] = "failed",
        [WORK_ACCEPTING] = "accepting",
        [WORK_ACCEPTED] = "accepted",
    };
    return (WorkState){.id = work->id,
                       .kind = work->kind,
                       .state = WORDS[work->phase],
                       .done_frac = work->done_frac,
                       .value = work->value,
                       .answer = work->answer,
                       .error =
                           work->phase == WORK_FAILED ? &work->error : NULL};
}

Err works_state(const Works *works, const char *id, Arena *arena,
                const char **out)
{
    if (id) {
        const Work *work = find(works, id);
        if (!work) {
            return not_there(id);
        }
        WorkState state = state_of(work);
        *out = json_work_state(&state, arena);
        return ERR_NONE;
    }
    WorkState states[WORKS_MOST];
    int count = 0;
    for (int i = 0; i < WORKS_MOST; i++) {
        if (works->of[i].phase != WORK_FREE) {
            states[count++] = state_of(&works->of[i]);
        }
    }
    *out = json_work_list(states, count, arena);
    return ERR_NONE;
}

Err works_stop(Works *works, const char *id)
{
    Work *work = find(works, id);
    if (!work) {
        return not_there(id);
    }
    if (work->phase == WORK_RUNNING) {
        kill(work->pid, SIGINT);
        work->phase = WORK_STOPPING;
    }
    return ERR_NONE;
}

Err works_accept(Works *works, const char *id, WorkAccepted *accepted,
                 void *context)
{
    Work *work = find(works, id);
    if (!work) {
        return not_there(id);
    }
    if (work->kind != WORK_PLAN || work->phase != WORK_DONE || !work->pid) {
        return err_make(ERR_CONFLICT, "that is no plan that could be accepted");
    }
    work->phase = WORK_ACCEPTING;
    work->accepted = accepted;
    work->context = context;
    put_message(work, WORK_ASKS_ACCEPT, strlen(WORK_ASKS_ACCEPT));
    return ERR_NONE;
}

/* ---- What the children say ------------------------------------------------
 */

static void fail(Work *work, const Err *err, int64_t now_ms)
{
    bool was_accepting = work->phase == WORK_ACCEPTING;
    work->error = *err;
    work->phase = was_accepting ? WORK_DONE : WORK_FAILED;
    work->ended_ms = now_ms;
    tell_accepted(work, err);
}

static Err error_of(const Frame *frame)
{
    int kind = (int)strtol(frame->parts[1].bytes, NULL, 10);
    bool is_kind = kind > ERR_OK && kind <= ERR_DEFECT;
    return err_make(is_kind ? (ErrKind)kind : ERR_DEFECT, "%s",
                    frame->parts[2].bytes);
}

static void take(Work *work, const Frame *frame, int64_t now_ms)
{
    enum { PARTS = 3 };
    if (frame->count != PARTS) {
        return;
    }
    const char *what = frame->parts[0].bytes;
    if (strcmp(what, WORK_SAYS_PROGRESS) == 0) {
        const char *value = frame->parts[2].bytes;
        work->done_frac = strtod(frame->parts[1].bytes, NULL);
        work->value = *value ? strtod(value, NULL) : work->value;
    } else if (strcmp(what, WORK_SAYS_ANSWER) == 0) {
        work->answer = arena_copy_bytes(&work->arena, frame->parts[1].bytes,
                                        frame->parts[1].length);
        work->phase = WORK_DONE;
        work->done_frac = 1.0;
        work->ended_ms = now_ms;
    } else if (strcmp(what, WORK_SAYS_ERROR) == 0) {
        Err err = error_of(frame);
        fail(work, &err, now_ms);
    } else if (strcmp(what, WORK_SAYS_ACCEPTED) == 0) {
        work->phase = WORK_ACCEPTED;
        tell_accepted(work, &ERR_NONE);
    }
}

/* Reads what there is; false once the child has closed its output. */
static bool drain(Work *work)
{
    for (;;) {
        if (work->length + READ_BYTES > work->room) {
            size_t room = 2 * work->room + READ_BYTES;
            work->bytes =
                arena_grow(&work->arena, work->bytes, work->length, room, 1);
            work->room = room;
        }
        ssize_t got = read(work->out, work->bytes + work->length, READ_BYTES);
        if (got == 0 || work->length > (size_t)FRAME_MAX_MB << 20) {
            return false;
        }
        if (got < 0 && errno != EINTR) {
            return errno == EAGAIN;
        }
        work->length += got > 0 ? (size_t)got : 0;
    }
}

static Err take_all(Work *work, int64_t now_ms)
{
    for (;;) {
        Frame frame;
        size_t used = 0;
        TRY(frame_read(work->bytes, work->length, &frame, &used));
        if (used == 0) {
            return ERR_NONE;
        }
        take(work, &frame, now_ms);
        memmove(work->bytes, work->bytes + used, work->length - used);
        work->length -= used;
    }
}

static void feed(Work *work)
{
    while (work->message_length > 0) {
        ssize_t put = write(work->in, work->message, work->message_length);
        if (put < 0 && errno != EINTR) {
            return;
        }
        work->message += put > 0 ? put : 0;
        work->message_length -= put > 0 ? (size_t)put : 0;
    }
}

static void serve(Work *work, int64_t now_ms)
{
    feed(work);
    bool is_open = drain(work);
    Err err = take_all(work, now_ms);
    if (err.kind == ERR_OK && is_open) {
        return;
    }
    if (err.kind == ERR_OK) {
        err = err_make(ERR_DEFECT, "it could not be worked out");
    }
    end_child(work);
    if (is_running(work) || work->phase == WORK_ACCEPTING) {
        fail(work, &err, now_ms);
    }
}

int works_polls(const Works *works, struct pollfd *out)
{
    int count = 0;
    for (int i = 0; i < WORKS_MOST; i++) {
        const Work *work = &works->of[i];
        if (work->pid) {
            out[count++] = (struct pollfd){.fd = work->out, .events = POLLIN};
            out[count++] =
                (struct pollfd){.fd = work->message_length > 0 ? work->in : -1,
                                .events = POLLOUT};
        }
    }
    return count;
}

void works_step(Works *works, int64_t now_ms)
{
    for (int i = 0; i < WORKS_MOST; i++) {
        Work *work = &works->of[i];
        if (work->pid) {
            serve(work, now_ms);
        }
        if (has_ended(work) && now_ms - work->ended_ms > WORK_KEPT_MS) {
            drop(work);
        }
    }
}
