/* When to open the tunnels on a day. */
#include "desk/vent.h"

#include "base/date.h"
#include "base/tongue.h"
#include "desk/clock.h"
#include "desk/farm_today.h"
#include "desk/typical.h"
#include "desk/week_choice.h"

enum { YEAR_WEEKS = 52, REACH_D = 2 * 366 };

static void tell(VentAnswer *answer, const char *text)
{
    if (text && answer->notice_count < VENT_NOTICES_MOST) {
        answer->notices[answer->notice_count++] = text;
    }
}

static Err check(const Farm *farm, int32_t day)
{
    int32_t first = week_of(farm->farm->records_from);
    if (farm->tunnels_count < 1) {
        return err_make(ERR_INPUT, "the farm has no tunnel to open");
    }
    if (day < first || day > first + REACH_D) {
        char text[DATE_TEXT_SIZE], from[DATE_TEXT_SIZE];
        date_format(day, text);
        date_format(first, from);
        return err_make(ERR_RANGE,
                        "%s: days from %s, the week of the farm's tables, to "
                        "two years later can be told",
                        text, from);
    }
    return ERR_NONE;
}

static const char *basis(const VentDay *day, Arena *arena)
{
    if (day->is_forecast) {
        return day->forecast_days == PRESSURE_DAYS
                   ? say(arena, "Weather: the forecast of the farm's table.")
                   : arena_say(arena,
                               "Weather: the forecast of the farm's table "
                               "for %d of the 7 days, else the typical "
                               "year's.",
                               day->forecast_days);
    }
    return say(arena,
               "Weather: the typical day of the season; with a forecast.csv in "
               "the folder that day's own. Real days are brighter or duller.");
}

Err vent_answer(const VentQuestion *question, Arena *arena, VentAnswer *out)
{
    VentAnswer answer = {0};
    FarmToday today;
    TRY(farm_today_read(question->dir, question->day, arena, &today));
    const Farm *farm = today.farm;
    WeekChoice choice =
        week_choose(farm, question->day, week_of(farm->farm->records_from),
                    YEAR_WEEKS, "the year after the farm's tables", arena);
    tell(&answer, choice.notice);
    TRY(check(farm, choice.day));
    Typical typical;
    TRY(typical_make(farm, arena, &typical));
    VentAsk ask = {.farm = farm,
                   .book = typical.book,
                   .climate = typical.climate,
                   .day = choice.day,
                   .clock_ahead_h =
                       clock_ahead_of_sun_h(farm->farm, choice.day),
                   .workings = question->workings};
    TRY(vent_day_make(&ask, arena, &answer.day));
    tell(&answer, basis(&answer.day, arena));
    answer.farm_name = *farm->farm->name ? farm->farm->name : farm->farm->id;
    *out = answer;
    return ERR_NONE;
}
