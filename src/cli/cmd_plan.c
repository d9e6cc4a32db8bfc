/* leat plan DIR: the plan of the year, its promises and its ceiling. */
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "cli/commands.h"
#include "cli/plan_text.h"
#include "desk/folder_lock.h"
#include "desk/plan_mps.h"

static volatile sig_atomic_t stop_asked;

static void ask_stop(int number)
{
    (void)number;
    stop_asked = 1;
}

/* One line on a terminal, written over. */
static void show_progress(void *context, double done_frac, double value)
{
    FILE *terminal = context;
    if (done_frac < 0.0) {
        fprintf(terminal, "\rworking out the ceiling, now %.0f   ", value);
    } else {
        fprintf(terminal, "\rsearching %3.0f %%   best %.0f   ",
                100.0 * done_frac, value);
    }
    fflush(terminal);
}

static Err read_ask(const Arguments *arguments, PlanYearAsk *out)
{
    PlanYearAsk ask = {.dir = arguments_word(arguments, 0),
                       .today = DATE_ALWAYS,
                       .stop = &stop_asked};
    int64_t weeks = 52;
    int64_t keep_weeks = 0;
    ask.seed = 1;
    TRY(arguments_integer(arguments, "weeks", 4, 104, &weeks));
    TRY(arguments_integer(arguments, "seed", 0, INT32_MAX, &ask.seed));
    TRY(arguments_integer(arguments, "moves", 1, INT64_MAX, &ask.moves));
    TRY(arguments_integer(arguments, "keep-weeks", 0, weeks - 1, &keep_weeks));
    TRY(arguments_day(arguments, "today", &ask.today));
    ask.weeks = (int)weeks;
    ask.keep_weeks = (int)keep_weeks;
    ask.is_from_plan = keep_weeks > 0;
    ask.is_anew = arguments_has(arguments, "anew");
    if (ask.is_anew && ask.is_from_plan) {
        return err_make(ERR_USAGE, "--anew plans from nothing; it does not go "
                                   "with --keep-weeks");
    }
    ask.is_fish_frozen = arguments_has(arguments, "freeze-fish");
    if (isatty(STDERR_FILENO) && !arguments_has(arguments, "json")) {
        ask.progress = show_progress;
        ask.progress_context = stderr;
    }
    *out = ask;
    return ERR_NONE;
}

static Err answer_json(const PlanYearAsk *ask, PlanYear *year,
                       bool wants_ceiling, Arena *arena, FILE *out)
{
    if (wants_ceiling) {
        TRY(plan_year_ceiling(ask, arena, year));
    }
    fputs(plan_year_json(year, arena), out);
    return ERR_NONE;
}

static Err answer_text(const PlanYearAsk *ask, PlanYear *year,
                       bool wants_ceiling, Arena *arena, FILE *out)
{
    if (ask->progress) {
        fputc('\n', stderr);
    }
    plan_text_print(year, out);
    fflush(out);
    if (year->was_stopped) {
        fputs("\nStopped: this is the best plan found so far; nothing was "
              "stored and the ceiling was not worked out.\n",
              out);
    } else if (wants_ceiling) {
        TRY(plan_year_ceiling(ask, arena, year));
        if (ask->progress) {
            fputc('\n', stderr);
        }
        plan_text_ceiling(year, out);
    }
    return ERR_NONE;
}

Err cmd_plan(const Arguments *arguments, FILE *out)
{
    PlanYearAsk ask;
    TRY(read_ask(arguments, &ask));
    if (arguments_has(arguments, "show") &&
        arguments_has(arguments, "accept")) {
        return err_make(ERR_USAGE, "--show shows what is accepted already; it "
                                   "does not go with --accept");
    }
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    if (arguments_has(arguments, "accept")) {
        TRY(folder_lock_open(ask.dir, &lock));
    }
    Arena *arena = arguments->arena;
    PlanYear *year = ARENA_NEW(arena, PlanYear);
    if (!arguments_has(arguments, "show")) {
        struct sigaction on_stop = {.sa_handler = ask_stop};
        sigaction(SIGINT, &on_stop, NULL);
    }
    TRY(plan_year_open(&ask, arena, year));
    if (arguments_has(arguments, "show")) {
        TRY(plan_year_recall(&ask, arena, year));
    } else {
        TRY(plan_year_search(&ask, arena, year));
    }
    const char *mps = arguments_option(arguments, "mps");
    if (mps) {
        TRY(plan_mps_write(year, mps, arena));
    }
    if (arguments_has(arguments, "accept") && !year->was_stopped) {
        TRY(plan_year_accept(&ask, arena, year));
        plan_text_accepted(year, stderr);
    }
    if (arguments_has(arguments, "draft") && year->moves > 0) {
        TRY(plan_year_keep_draft(&ask, arena, year));
    }
    folder_lock_close(&lock);
    bool wants_ceiling = year->moves > 0 && !year->was_stopped &&
                         !arguments_has(arguments, "no-ceiling");
    TRY(arguments_has(arguments, "json")
            ? answer_json(&ask, year, wants_ceiling, arena, out)
            : answer_text(&ask, year, wants_ceiling, arena, out));
    return year->was_stopped ? err_make(ERR_STOPPED, "stopped") : ERR_NONE;
}
