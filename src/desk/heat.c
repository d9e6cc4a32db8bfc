/* What warmth costs and brings. */
#include "desk/heat.h"

#include <math.h>

#include "base/date.h"
#include "desk/farm_today.h"
#include "desk/typical.h"
#include "desk/week_choice.h"
#include "work/foresight.h"

enum { YEAR_WEEKS = 52, LEAST_WEEKS = 4, SPELL_MOST_D = 60 };

HeatQuestion heat_usual_question(const char *dir)
{
    return (HeatQuestion){.dir = dir,
                          .day = DATE_ALWAYS,
                          .weeks = HEAT_WEEKS_USUAL,
                          .floors_degc = {16, 18, 20, 22},
                          .floor_count = 4,
                          .spell_from = DATE_ALWAYS,
                          .spell_days = 14,
                          .spell_k = 6};
}

static Err check(const HeatQuestion *question)
{
    if (question->weeks < LEAST_WEEKS ||
        question->weeks > FORESIGHT_WEEKS_MOST) {
        return err_make(ERR_RANGE, "%d weeks: 4 to 104 can be looked at",
                        question->weeks);
    }
    for (int i = 0; i < question->floor_count; i++) {
        double floor = question->floors_degc[i];
        if (!(floor >= 5.0 && floor <= 32.0)) {
            return err_make(ERR_RANGE, "a water floor of %g degC: 5 to 32",
                            floor);
        }
    }
    if (question->spell_days < 1 || question->spell_days > SPELL_MOST_D) {
        return err_make(ERR_RANGE, "a hot spell of %d days: 1 to 60",
                        question->spell_days);
    }
    if (!(question->spell_k >= 0.5 && question->spell_k <= 15.0)) {
        return err_make(ERR_RANGE, "a hot spell of %g K: 0.5 to 15",
                        question->spell_k);
    }
    return ERR_NONE;
}

static void tell(HeatAnswer *answer, const char *text)
{
    if (text && answer->notice_count < HEAT_NOTICES_MOST) {
        answer->notices[answer->notice_count++] = text;
    }
}

static Err run_floors(const HeatQuestion *question, const HeatAsk *ask,
                      Arena *arena, HeatAnswer *answer)
{
    TRY(heat_floor_run(ask, NAN, arena, &answer->floors[0]));
    for (int i = 0; i < question->floor_count; i++) {
        Err err = heat_floor_run(ask, question->floors_degc[i], arena,
                                 &answer->floors[i + 1]);
        if (err.kind == ERR_INPUT) {
            tell(answer, arena_text(arena, "%s.", err.text));
            return ERR_NONE;
        }
        TRY(err);
    }
    answer->floor_count = question->floor_count + 1;
    return ERR_NONE;
}

Err heat_answer(const HeatQuestion *question, Arena *arena, HeatAnswer *out)
{
    HeatAnswer answer = {0};
    TRY(check(question));
    FarmToday today;
    TRY(farm_today_read(question->dir, question->day, arena, &today));
    answer.farm = today.farm;
    Typical typical;
    TRY(typical_make(answer.farm, arena, &typical));
    WeekChoice choice =
        week_choose(answer.farm, question->day,
                    week_of(answer.farm->farm->records_from), YEAR_WEEKS,
                    "the year after the farm's "
                    "tables",
                    arena);
    tell(&answer, choice.notice);
    answer.first_week = choice.week;
    answer.weeks = question->weeks;
    if (answer.farm->plan_count < 1) {
        tell(&answer, "No plan is accepted: nothing new is set, stocked or "
                      "sold.");
    }
    HeatAsk ask = {answer.farm, typical.book, typical.climate, choice.week,
                   question->weeks};
    TRY(run_floors(question, &ask, arena, &answer));
    HeatSpell spell = {.from_day = question->spell_from,
                       .days = question->spell_days,
                       .warmer_k = question->spell_k};
    bool is_told = !question->has_spell && heat_forecast_spell(&ask, &spell);
    if (!is_told && spell.from_day == DATE_ALWAYS) {
        spell.from_day = heat_hottest_day(&ask, spell.days);
    }
    TRY(heat_plants_run(&ask, &spell, arena, &answer.plants));
    *out = answer;
    return ERR_NONE;
}
