/* Do the fish carry the beds? */
#include "desk/carry.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "desk/farm_today.h"
#include "desk/typical.h"
#include "farm/cell.h"
#include "nature/air/vapour.h"
#include "sim/weather_forecast.h"
#include "work/foresight.h"

enum { DAY_HOURS = 24, SPELL_MOST_D = 60 };
static const double SPELL_MOST_K = 15.0;

static Err find_loop(const Farm *farm, const char *id, int *out)
{
    *out = id ? cell_row_of(farm, TABLE_loops, id) : -1;
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

CarryQuestion carry_usual_question(const char *dir)
{
    return (CarryQuestion){.dir = dir,
                           .weeks = CARRY_WEEKS_USUAL,
                           .spell_k = NAN,
                           .spell_days = CARRY_WEEK_D,
                           .spell_from = DATE_ALWAYS};
}

/* The days that are asked about, typical and with other weather. */
typedef struct Runs {
    const CarryQuestion *question;
    const HourAsk *ask;
    int days;
    Arena *arena;
    HourFarm *hours;
    HourWeather *weather;
    HourDays usual, spelled;
    CarrySpell spell;
} Runs;

static Err run_days(const Runs *runs, HourDays *out)
{
    HourState *state = NULL;
    TRY(hour_state_make(runs->hours, runs->arena, &state));
    hour_days_make(runs->hours, runs->days, runs->arena, out);
    hour_run(runs->hours, state, runs->weather, out);
    return ERR_NONE;
}

/* The coldest or hottest days outside of those weeks. */
static int32_t extreme_day(const Runs *runs, const CarrySpell *spell)
{
    double sign = spell->warmer_k < 0.0 ? -1.0 : 1.0;
    double best = -INFINITY;
    int32_t at = runs->ask->from_day;
    for (int day = 0; day + spell->days <= runs->days; day++) {
        double sum = 0.0;
        for (int hour = 0; hour < spell->days * DAY_HOURS; hour++) {
            sum += sign * runs->weather[day * DAY_HOURS + hour].outside_degc;
        }
        if (sum > best + 1e-9) {
            best = sum;
            at = runs->ask->from_day + day;
        }
    }
    return at;
}

/* So much warmer, as damp as before as far as the air can hold it. */
static void warm_hours(Runs *runs)
{
    int first = runs->spell.from_day - runs->ask->from_day;
    for (int i = 0; i < runs->spell.days * DAY_HOURS; i++) {
        HourWeather *now = &runs->weather[first * DAY_HOURS + i];
        double full_kpa = air_saturation_kpa(now->outside_degc);
        double rh_frac = fmin(now->vapour_kpa / full_kpa, 1.0);
        now->outside_degc += runs->spell.warmer_k;
        now->vapour_kpa = rh_frac * air_saturation_kpa(now->outside_degc);
    }
}

/* The forecast over the weather; its days that lie in the weeks are the
 * spell. */
static Err tell_forecast(Runs *runs)
{
    const Farm *farm = runs->ask->farm;
    WeatherForecast told;
    weather_forecast_of_farm(farm, &told);
    WeatherMaker *maker = NULL;
    int32_t from = runs->ask->from_day;
    int32_t first = DATE_NEVER, last = DATE_ALWAYS;
    for (int i = 0; i < told.count; i++) {
        int32_t day = told.days[i].date;
        if (day >= from && day < from + runs->days) {
            first = day < first ? day : first;
            last = day > last ? day : last;
        }
    }
    if (first == DATE_NEVER) {
        return ERR_NONE;
    }
    TRY(weather_make(farm, runs->ask->book, runs->arena, &maker));
    runs->spell =
        (CarrySpell){first, last - first + 1, 0.0, .is_forecast = true};
    double before = 0.0, after = 0.0;
    HourWeather *at = runs->weather + (ptrdiff_t)(first - from) * DAY_HOURS;
    int count = runs->spell.days * DAY_HOURS;
    for (int i = 0; i < count; i++) {
        before += at[i].outside_degc / count;
    }
    WeatherHours over = {runs->weather, from, runs->days,
                         farm->farm->latitude_deg};
    (void)weather_forecast_apply(maker, &told, &over);
    for (int i = 0; i < count; i++) {
        after += at[i].outside_degc / count;
    }
    runs->spell.warmer_k = after - before;
    return ERR_NONE;
}

static Err tell_spell(Runs *runs)
{
    const CarryQuestion *question = runs->question;
    if (isnan(question->spell_k) || question->spell_days == 0) {
        return tell_forecast(runs);
    }
    runs->spell = (CarrySpell){question->spell_from, question->spell_days,
                               question->spell_k, false};
    if (runs->spell.days < 1 || runs->spell.days > SPELL_MOST_D ||
        runs->spell.days > runs->days) {
        return err_make(ERR_RANGE,
                        "a spell of %d days: 1 to 60, and no longer "
                        "than the weeks",
                        runs->spell.days);
    }
    if (!(fabs(runs->spell.warmer_k) <= SPELL_MOST_K)) {
        return err_make(ERR_RANGE, "a spell of %g K: -15 to 15",
                        runs->spell.warmer_k);
    }
    if (runs->spell.from_day == DATE_ALWAYS) {
        runs->spell.from_day = extreme_day(runs, &runs->spell);
    }
    int32_t from = runs->ask->from_day;
    if (runs->spell.from_day < from ||
        runs->spell.from_day + runs->spell.days > from + runs->days) {
        char text[DATE_TEXT_SIZE];
        date_format(runs->spell.from_day, text);
        return err_make(ERR_RANGE, "a spell from %s lies outside the weeks",
                        text);
    }
    warm_hours(runs);
    return ERR_NONE;
}

static Err run_both(Runs *runs)
{
    TRY(hour_farm_make(runs->ask, runs->arena, &runs->hours));
    runs->weather =
        ARENA_ARRAY(runs->arena, HourWeather, runs->days * DAY_HOURS);
    hour_typical_weather(runs->hours, 0, runs->days * DAY_HOURS, runs->weather);
    TRY(run_days(runs, &runs->usual));
    TRY(tell_spell(runs));
    return runs->spell.days > 0 ? run_days(runs, &runs->spelled) : ERR_NONE;
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
    Runs runs = {.question = question,
                 .ask = &ask,
                 .days = question->weeks * CARRY_WEEK_D,
                 .arena = arena};
    TRY(run_both(&runs));
    CarryAsk carry = {.farm = farm,
                      .days = &runs.usual,
                      .want_kg = foresight.plants.want_kg,
                      .first_week = from,
                      .weeks = question->weeks,
                      .enough_frac = typical.book->waters->enough_frac.value,
                      .book = typical.book,
                      .hours = runs.hours,
                      .spelled = &runs.spelled,
                      .spell = runs.spell};
    TRY(carry_make(&carry, arena, &answer.carry));
    answer.farm_name = *farm->farm->name ? farm->farm->name : farm->farm->id;
    if (farm->plan_count < 1) {
        tell(&answer,
             say(arena, "No plan is accepted: nothing new is set, stocked or "
                        "sold, so beds empty and fish grow on."));
    }
    tell(&answer,
         say(arena, "The typical year, by the hour. Most of its figures about "
                    "gravel, roots and solids are judged: take amounts as half "
                    "to double."));
    *out = answer;
    return ERR_NONE;
}
