/* leat foresee DIR: the weeks to come as the typical year has them. */
#include <math.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/foresee_text.h"
#include "cli/wrap.h"
#include "desk/foresee.h"
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

Err cmd_foresee(const Arguments *arguments, FILE *out)
{
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
