/* Do the fish carry the beds? */
#include "desk/carry.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "desk/farm_today.h"
#include "desk/typical.h"
#include "work/foresight.h"

enum { DAY_HOURS = 24 };

static Err find_loop(const Farm *farm, const char *id, int *out)
{
    *out = -1;
    for (int i = 0; id && i < farm->loops_count; i++) {
        if (strcmp(farm->loops[i].id, id) == 0) {
            *out = i;
        }
    }
    return id && *out < 0
               ? err_make(ERR_NOT_FOUND, "the farm has no loop \"%.60s\"", id)
               : ERR_NONE;
}

static void tell(CarryAnswer *answer, const char *text)
{
    if (answer->notice_count < CARRY_NOTICES_MOST) {
        answer->notices[answer->notice_count++] = text;
    }
}

static Err run_days(const HourAsk *ask, int days, Arena *arena, HourDays *out)
{
    HourFarm *hours = NULL;
    HourState *state = NULL;
    TRY(hour_farm_make(ask, arena, &hours));
    TRY(hour_state_make(hours, arena, &state));
    HourWeather *weather = ARENA_ARRAY(arena, HourWeather, days * DAY_HOURS);
    hour_typical_weather(hours, 0, days * DAY_HOURS, weather);
    hour_days_make(hours, days, arena, out);
    hour_run(hours, state, weather, out);
    return ERR_NONE;
}

Err carry_answer(const CarryQuestion *question, Arena *arena, CarryAnswer *out)
{
    CarryAnswer answer = {0};
    FarmToday today;
    Typical typical;
    TRY(farm_today_read(question->dir, DATE_ALWAYS, arena, &today));
    const Farm *farm = today.farm;
    TRY(find_loop(farm, question->loop, &answer.loop));
    if (farm->loops_count < 1) {
        return err_make(ERR_INPUT, "the farm has no loop of water");
    }
    TRY(typical_make(farm, arena, &typical));
    int32_t from = week_of(farm->farm->records_from);
    ForesightAsk foresight_ask = {.farm = farm,
                                  .book = typical.book,
                                  .climate = typical.climate,
                                  .first_week = from,
                                  .weeks = question->weeks,
                                  .sale_g = NAN,
                                  .way = FORESIGHT_ALL};
    Foresight foresight;
    TRY(foresight_make(&foresight_ask, arena, &foresight));
    HourAsk ask = {farm, typical.book, typical.climate, from,
                   hour_usual_care()};
    ask.care.gives_iron = question->has_iron;
    HourDays days;
    TRY(run_days(&ask, question->weeks * CARRY_WEEK_D, arena, &days));
    CarryAsk carry = {
        farm, &days,           foresight.plants.want_kg,
        from, question->weeks, typical.book->waters->enough_frac.value};
    carry_make(&carry, arena, &answer.carry);
    answer.farm_name = *farm->farm->name ? farm->farm->name : farm->farm->id;
    if (farm->plan_count < 1) {
        tell(&answer, "No plan is accepted: nothing new is set, stocked or "
                      "sold, so beds empty and fish grow on.");
    }
    tell(&answer, "The typical year, by the hour. Most of its figures about "
                  "gravel, roots and solids are judged: take amounts as half "
                  "to double.");
    *out = answer;
    return ERR_NONE;
}
