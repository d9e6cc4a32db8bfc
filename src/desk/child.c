/* What a child process does: one question in, progress and one answer out. */
#include "desk/child.h"

#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <unistd.h>

#include "desk/plan_year.h"
#include "desk/years.h"
#include "desk/years_log.h"
#include "json/json_child.h"
#include "json/years.h"
#include "plan/record.h"
#include "plan/search.h"
#include "plan/verify.h"

enum { QUESTION_MAX_BYTES = 256 * 1024 * 1024, READ_STEP_BYTES = 1 << 20 };

static volatile sig_atomic_t stop_asked;

/* What is written when a stop is asked for within a linear solver, which hears
 * nothing until it has solved, and where; -1: it is not at work. */
static const char *stopped_line;
static size_t stopped_length;
static volatile sig_atomic_t stopped_out = -1;

static void ask_stop(int number)
{
    (void)number;
    stop_asked = 1;
    if (stopped_out >= 0) {
        ssize_t written = write(stopped_out, stopped_line, stopped_length);
        _exit(written < 0 ? 1 : 0);
    }
}

static Err read_all(FILE *in, Arena *arena, char **out)
{
    char *text = arena_alloc(arena, READ_STEP_BYTES, 1);
    size_t room = READ_STEP_BYTES;
    size_t length = 0;
    for (;;) {
        length += fread(text + length, 1, room - length - 1, in);
        if (ferror(in)) {
            return err_make(ERR_IO, "the question cannot be read");
        }
        if (length + 1 < room) {
            break;
        }
        if (room >= QUESTION_MAX_BYTES) {
            return err_make(ERR_LIMIT, "a question of more than %d MB",
                            QUESTION_MAX_BYTES >> 20);
        }
        text = arena_grow(arena, text, length, room * 2, 1);
        room *= 2;
    }
    text[length] = '\0';
    *out = text;
    return ERR_NONE;
}

/* The weather's log comes behind the tables, where there is one. */
static FarmBuffer log_of(const ChildQuestion *question)
{
    const FarmBuffer *last = question->table_count > 0
                                 ? &question->tables[question->table_count - 1]
                                 : NULL;
    return last && strcmp(last->file, WEATHER_LOG_FILE) == 0 ? *last
                                                             : (FarmBuffer){0};
}

static Err read_farm(const ChildQuestion *question, Arena *arena,
                     const Farm **out)
{
    FarmRead *read = ARENA_NEW(arena, FarmRead);
    Faults faults;
    faults_init(&faults, arena, 1);
    int count = question->table_count - (log_of(question).bytes ? 1 : 0);
    farm_read(question->tables, count, &faults, read);
    if (faults.count > 0) {
        return err_make(ERR_INPUT, "%s: expected %s",
                        faults.items[0].place.file, faults.items[0].expected);
    }
    *out = &read->farm;
    return ERR_NONE;
}

static Err make_year(const ChildQuestion *question, Arena *arena, PlanYear *out)
{
    const Farm *farm = NULL;
    TRY(read_farm(question, arena, &farm));
    PlanInputs wanted = {.from = question->from,
                         .weeks = question->weeks,
                         .keep_weeks = question->keep_weeks,
                         .is_fish_frozen = question->is_fish_frozen};
    return plan_year_make(farm, &wanted, arena, out);
}

typedef struct Teller {
    FILE *out;
    Arena *arena;
} Teller;

static void tell(const Teller *teller, double done_frac, double value)
{
    CLEANUP(arena_release) Arena arena = {0};
    fprintf(teller->out, "%s\n", json_child_progress(done_frac, value, &arena));
    fflush(teller->out);
}

/* Progress is told about this often. */
enum { TELL_SHARES = 50 };

static void search_on(Search *search, const Teller *teller)
{
    int told = 0;
    while (stop_asked == 0 && search_step(search)) {
        SearchProgress now = search_progress(search);
        double done_frac = (double)now.moves / (double)now.moves_all;
        if ((int)(done_frac * TELL_SHARES) > told) {
            told = (int)(done_frac * TELL_SHARES);
            tell(teller, done_frac, now.best);
        }
    }
}

static Err search(const ChildQuestion *question, PlanYear *year,
                  const Teller *teller, char **out)
{
    PlanSolution before = {0};
    int left_out = 0;
    bool has_plan = question->is_from_plan && year->farm->plan_count > 0;
    if (has_plan) {
        plan_recall(&year->inputs, &year->problem, &year->index, teller->arena,
                    &before, &left_out);
    }
    SearchSetup setup = {.seed = (uint64_t)question->seed,
                         .start = question->start,
                         .moves = question->moves,
                         .from = has_plan ? &before : NULL,
                         .keep_weeks = question->keep_weeks};
    Search *running = search_open(teller->arena, &year->problem, &setup);
    search_on(running, teller);
    PlanSolution solution = {0};
    double faults = 0.0;
    solution.outcome.value =
        search_take(running, teller->arena, &solution, &faults);
    if (faults > 0.0) {
        VerifyReport report;
        plan_verify_choices(&year->problem, &solution, teller->arena, &report);
        return err_make(ERR_CONFLICT,
                        "no plan was found that keeps every limit of the farm; "
                        "the nearest passes %d, one of them: %.120s",
                        report.count, report.count ? report.texts[0] : "");
    }
    *out = json_child_choices(&solution, teller->arena);
    return ERR_NONE;
}

/* The relaxation's rounds are told with its value so far. Nobody writes while
 * the solver is at work, so that a line is never cut in two. */
static bool go_on(void *self, double value, double ceiling)
{
    (void)ceiling;
    const Teller *teller = self;
    stopped_out = -1;
    tell(teller, 0.0, value);
    stopped_out = fileno(teller->out);
    return stop_asked == 0;
}

static void begin_to_solve(const Teller *teller)
{
    Err stopped = err_make(ERR_STOPPED, "stopped");
    stopped_line = arena_text(teller->arena, "%s\n",
                              json_child_error(&stopped, teller->arena));
    stopped_length = strlen(stopped_line);
    stopped_out = fileno(teller->out);
}

/* A plan that is soon found is a good place for the relaxation to begin: on the
 * demo and a search of these moves it takes half the time. */
static Err begin_plan(const PlanYear *year, Arena *arena, PlanSolution *out)
{
    static const int64_t BEGIN_MOVES = 100000;
    SearchSetup setup = {.seed = 1, .moves = BEGIN_MOVES};
    Search *search = search_open(arena, &year->problem, &setup);
    while (stop_asked == 0 && search_step(search)) {
    }
    double faults = 0.0;
    (void)search_take(search, arena, out, &faults);
    return stop_asked ? err_make(ERR_STOPPED, "stopped") : ERR_NONE;
}

static Err find_ceiling(PlanYear *year, Teller *teller, char **out)
{
    LinearWatch watch = {teller, go_on};
    LinearCeiling found;
    PlanSolution from;
    TRY(begin_plan(year, teller->arena, &from));
    begin_to_solve(teller);
    Err err = stop_asked ? err_make(ERR_STOPPED, "stopped")
                         : linear_ceiling(&year->problem, &from, &watch,
                                          teller->arena, &found);
    stopped_out = -1;
    TRY(err);
    PlanCeiling ceiling;
    plan_scarce(&year->problem, &found, teller->arena, &ceiling);
    *out = json_child_ceiling(&ceiling, teller->arena);
    return ERR_NONE;
}

static void tell_year(void *context, int64_t year, const uint16_t *codes,
                      int code_count)
{
    const Teller *teller = context;
    CLEANUP(arena_release) Arena arena = {0};
    fprintf(teller->out, "%s\n",
            json_years_line(year, codes, code_count, &arena));
    fflush(teller->out);
}

/* Each year is told as soon as it is run. */
static Err run_years(const ChildQuestion *question, Teller *teller, char **out)
{
    const Farm *farm = NULL;
    TRY(read_farm(question, teller->arena, &farm));
    YearsSpan span = {.farm = farm,
                      .log_file = log_of(question),
                      .first_week = question->from,
                      .weeks = question->weeks,
                      .seed = (uint64_t)question->seed,
                      .year = question->year,
                      .years = question->years,
                      .stop = &stop_asked,
                      .tell = tell_year,
                      .context = teller};
    int done = 0;
    TRY(years_run_span(&span, teller->arena, &done));
    *out = arena_text(teller->arena, "{\"years\":%d}", done);
    return ERR_NONE;
}

static Err answer(const char *text, Teller *teller, char **out)
{
    ChildQuestion question;
    TRY(json_child_question_read(text, teller->arena, &question));
    if (question.kind == CHILD_YEARS) {
        return run_years(&question, teller, out);
    }
    PlanYear *year = ARENA_NEW(teller->arena, PlanYear);
    TRY(make_year(&question, teller->arena, year));
    switch (question.kind) {
    case CHILD_SEARCH:
        return search(&question, year, teller, out);
    case CHILD_CEILING:
        return find_ceiling(year, teller, out);
    case CHILD_YEARS:
        break;
    }
    return err_make(ERR_DEFECT, "a question of no kind");
}

Err child_serve(FILE *in, FILE *out)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL); /* then nobody waits for the answer */
    /* The question is read on to its end all the same. */
    struct sigaction on_stop = {.sa_handler = ask_stop, .sa_flags = SA_RESTART};
    sigaction(SIGINT, &on_stop, NULL);
    sigset_t interrupt;
    sigemptyset(&interrupt);
    sigaddset(&interrupt, SIGINT);
    sigprocmask(SIG_UNBLOCK, &interrupt, NULL);
    CLEANUP(arena_release) Arena arena = {0};
    Teller teller = {out, &arena};
    char *text = NULL;
    TRY(read_all(in, &arena, &text));
    char *line = NULL;
    Err err = answer(text, &teller, &line);
    if (err.kind != ERR_OK) {
        line = json_child_error(&err, &arena);
    }
    fprintf(out, "%s\n", line);
    return fflush(out) == 0 ? ERR_NONE
                            : err_make(ERR_IO, "the answer cannot be written");
}
