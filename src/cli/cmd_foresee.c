/* leat foresee DIR: the weeks to come as the typical year has them. */
#include <inttypes.h>
#include <math.h>
#include <signal.h>
#include <unistd.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/foresee_text.h"
#include "cli/wrap.h"
#include "cli/years_text.h"
#include "desk/foresee.h"
#include "desk/years.h"
#include "json/foresee.h"

static void print_head(const ForeseeAnswer *answer, FILE *out)
{
    const Foresight *foresight = &answer->foresight;
    const FarmSite *site = &foresight->farm->farm[0];
    char week[FORESEE_DAY_SIZE];
    char day[DATE_TEXT_SIZE];
    foresee_print_week(foresight, 0, week);
    date_format(foresight->first_week, day);
    fprintf(out, "%s: foreseen from %s (Monday %s), %d %s\n",
            *site->name ? site->name : site->id, week, day, foresight->weeks,
            foresight->weeks == 1 ? "week" : "weeks");
    for (int i = 0; i < answer->notice_count; i++) {
        wrap_print(answer->notices[i], &(Wrap){.columns = 80}, out);
    }
    fputs("The typical year. low-middle-high: one time in ten lower, one in "
          "ten higher.\n",
          out);
}

static void print_all(const ForeseeAnswer *answer, bool is_all, Arena *arena,
                      FILE *out)
{
    const Foresight *foresight = &answer->foresight;
    foresee_print_first(foresight, arena, out);
    for (int loop = 0; loop < foresight->farm->loops_count; loop++) {
        foresee_print_loop(foresight, loop, out);
    }
    foresee_print_tanks(foresight, FORESIGHT_ALL, arena, out);
    foresee_print_batches(foresight, FORESIGHT_ALL, out);
    foresee_print_picks(foresight, FORESIGHT_ALL, arena, out);
    foresee_print_stages(foresight, FORESIGHT_ALL, is_all, arena, out);
    foresee_print_year(foresight, out);
}

static void print_answer(const ForeseeAnswer *answer, bool is_all, Arena *arena,
                         FILE *out)
{
    const Foresight *foresight = &answer->foresight;
    print_head(answer, out);
    if (answer->loop != FORESIGHT_ALL) {
        foresee_print_loop(foresight, answer->loop, out);
        foresee_print_tanks(foresight, answer->loop, arena, out);
    }
    if (answer->tank != FORESIGHT_ALL) {
        foresee_print_tank(foresight, answer->tank, arena, out);
        foresee_print_batches(foresight, answer->tank, out);
    }
    if (answer->way != FORESIGHT_ALL) {
        foresee_print_way_days(foresight, arena, out);
        foresee_print_picks(foresight, answer->way, arena, out);
        foresee_print_stages(foresight, answer->way, true, arena, out);
    }
    if (answer->loop == FORESIGHT_ALL && answer->tank == FORESIGHT_ALL &&
        answer->way == FORESIGHT_ALL) {
        print_all(answer, is_all, arena, out);
    }
}

static Err fish_weight(const Arguments *arguments, double *out)
{
    const char *text = arguments_fact(arguments, "over_g");
    *out = NAN;
    if (!text) {
        return ERR_NONE;
    }
    double weight_g = 0.0;
    Err err = text_to_f64(text, &weight_g);
    if (err.kind != ERR_OK || !(weight_g > 0.0)) {
        return err_make(ERR_USAGE, "over_g=%.60s: a weight in grams over 0",
                        text);
    }
    *out = weight_g;
    return ERR_NONE;
}

/* ---- Many possible years ---------------------------------------------------
 */

static volatile sig_atomic_t stop_asked;

static void ask_stop(int number)
{
    (void)number;
    stop_asked = 1;
}

/* One line on a terminal, written over. */
static void show_progress(void *context, int64_t done, int64_t all)
{
    FILE *terminal = context;
    fprintf(terminal, "\r%" PRId64 " of %" PRId64 " years   ", done, all);
    if (done == all) {
        fputc('\n', terminal);
    }
    fflush(terminal);
}

static Err read_years(const Arguments *arguments, YearsQuestion *out)
{
    static const char *const FACTS[] = {"way", "tank", "loop", "over_g"};
    for (size_t i = 0; i < sizeof FACTS / sizeof *FACTS; i++) {
        if (arguments_fact(arguments, FACTS[i])) {
            return err_make(ERR_USAGE,
                            "%s= goes with the typical year; --years tells "
                            "all of the farm",
                            FACTS[i]);
        }
    }
    YearsQuestion question = {.dir = arguments_word(arguments, 0),
                              .day = DATE_ALWAYS,
                              .seed = 1,
                              .stop = &stop_asked};
    int64_t years = 0;
    int64_t weeks = YEARS_WEEKS_USUAL;
    TRY(arguments_integer(arguments, "years", 1, YEARS_MOST, &years));
    TRY(arguments_integer(arguments, "weeks", 1, YEARS_WEEKS_MOST, &weeks));
    TRY(arguments_integer(arguments, "seed", 0, INT32_MAX, &question.seed));
    TRY(arguments_day(arguments, "today", &question.day));
    question.years = (int)years;
    question.weeks = (int)weeks;
    if (isatty(STDERR_FILENO)) {
        question.progress = show_progress;
        question.context = stderr;
    }
    *out = question;
    return ERR_NONE;
}

static Err answer_years(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    YearsQuestion question;
    YearsAnswer answer;
    TRY(read_years(arguments, &question));
    struct sigaction on_stop = {.sa_handler = ask_stop};
    sigaction(SIGINT, &on_stop, NULL);
    TRY(years_answer(&question, arena, &answer));
    if (question.progress && answer.sum.count < answer.asked) {
        fputc('\n', stderr);
    }
    int ways = 0;
    bool is_kept = arguments_has(arguments, "keep");
    if (is_kept && answer.sum.count < answer.asked) {
        return err_make(ERR_STOPPED,
                        "stopped after %" PRId64 " of %" PRId64
                        " years: nothing was kept",
                        answer.sum.count, answer.asked);
    }
    if (is_kept) {
        TRY(years_keep(question.dir, &answer, arena, &ways));
    }
    if (arguments_has(arguments, "json")) {
        fputs(years_answer_json(&answer, arena), out);
        return ERR_NONE;
    }
    years_text_print(&answer, arguments_has(arguments, "all"), arena, out);
    if (is_kept) {
        fprintf(out,
                "\nKept in counted.csv for %d ways: plans made from now on let "
                "firm orders\ncount on no more than that, week by week.\n",
                ways);
    }
    return ERR_NONE;
}

Err cmd_foresee(const Arguments *arguments, FILE *out)
{
    if (arguments_option(arguments, "years")) {
        return answer_years(arguments, out);
    }
    bool is_seed = arguments_option(arguments, "seed");
    if (is_seed || arguments_has(arguments, "keep")) {
        return err_make(ERR_USAGE, "--%s goes with --years",
                        is_seed ? "seed" : "keep");
    }
    Arena *arena = arguments->arena;
    int64_t weeks = FORESEE_WEEKS_USUAL;
    ForeseeQuestion question = {.dir = arguments_word(arguments, 0),
                                .day = DATE_ALWAYS,
                                .way = arguments_fact(arguments, "way"),
                                .tank = arguments_fact(arguments, "tank"),
                                .loop = arguments_fact(arguments, "loop")};
    TRY(arguments_day(arguments, "today", &question.day));
    TRY(arguments_integer(arguments, "weeks", 1, FORESIGHT_WEEKS_MOST, &weeks));
    TRY(fish_weight(arguments, &question.sale_g));
    question.weeks = (int)weeks;
    ForeseeAnswer answer;
    TRY(foresee_answer(&question, arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(foresee_to_json(&answer.foresight, answer.notices,
                              answer.notice_count, arena),
              out);
    } else {
        print_answer(&answer, arguments_has(arguments, "all"), arena, out);
    }
    return ERR_NONE;
}
