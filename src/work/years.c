/* One of the years that could be, on this farm. */
#include "work/years.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "nature/fish/limits.h"
#include "nature/fish/species.h"
#include "nature/sun/solar.h"
#include "sim/fish_case.h"
#include "work/years_parts.h"

const YearsSeries YEARS_SERIES_TABLE[YEARS_SERIES_COUNT] = {
#define YEARS_ROW(name, key, of, fold, codes, from, step, exact, meaning)      \
    [name] = {key, of, fold, {codes, from, step, exact}, meaning},
    YEARS_SERIES(YEARS_ROW)
#undef YEARS_ROW
};

const YearsBreak YEARS_BREAK_TABLE[YEARS_BREAK_COUNT] = {
#define YEARS_ROW(name, key, of) [name] = {key, of},
    YEARS_BREAKS(YEARS_ROW)
#undef YEARS_ROW
};

int years_rows(const Farm *farm, YearsOf of)
{
    switch (of) {
    case OF_FARM:
        return 1;
    case OF_WAYS:
        return farm->ways_count;
    case OF_ORDERS:
        return farm->orders_count;
    case OF_LOOPS:
        return farm->loops_count;
    case OF_TANKS:
        return farm->tanks_count;
    case OF_TUNNELS:
        return farm->tunnels_count;
    case OF_ELEMENTS:
        return farm->loops_count * HOUR_ELEMENTS;
    }
    return 0;
}

YearsShape years_shape(const Farm *farm, int weeks)
{
    YearsShape shape = {.weeks = weeks};
    int at = 0;
    size_t counts = 0;
    for (int s = 0; s < YEARS_SERIES_COUNT; s++) {
        int cells = years_rows(farm, YEARS_SERIES_TABLE[s].of) * (weeks + 1);
        shape.series_at[s] = at;
        shape.series_counts[s] = counts;
        at += cells;
        counts += (size_t)cells * (size_t)YEARS_SERIES_TABLE[s].scale.codes;
    }
    for (int b = 0; b < YEARS_BREAK_COUNT; b++) {
        int rows = years_rows(farm, YEARS_BREAK_TABLE[b].of);
        shape.break_at[b] = at;
        shape.break_counts[b] = counts;
        at += rows;
        counts += (size_t)(rows * (weeks + 1));
    }
    shape.code_count = at;
    shape.counts_count = counts;
    return shape;
}

void years_put(YearsFarm *years, int series, int row, int week, double value)
{
    const YearsShape *shape = &years->shape;
    assert(isfinite(value));
    years->out[shape->series_at[series] + row * (shape->weeks + 1) + week] =
        spread_code(&YEARS_SERIES_TABLE[series].scale, value);
}

void years_break(YearsFarm *years, int kind, int row, int week)
{
    uint16_t *at = &years->out[years->shape.break_at[kind] + row];
    *at = *at ? *at : (uint16_t)(week + 1);
}

/* ---- Opening --------------------------------------------------------------
 */

/* What is in the store is given as usual. */
static bool has_iron(const Farm *farm, const Book *book)
{
    for (int i = 0; i < farm->bases_count; i++) {
        const BookBase *base = book_base(book, farm->bases[i].kind);
        if (base && base->fe_frac.value > 0.0) {
            return true;
        }
    }
    return false;
}

static Err make_hours(YearsFarm *years, Arena *arena)
{
    const YearsAsk *ask = &years->ask;
    HourAsk hours = {ask->farm, ask->book, ask->climate, ask->first_week,
                     hour_usual_care()};
    hours.care.gives_salts = true;
    hours.care.gives_iron = has_iron(ask->farm, ask->book);
    TRY(hour_farm_make(&hours, arena, &years->hours));
    TRY(hour_state_make(years->hours, arena, &years->first));
    TRY(hour_state_make(years->hours, arena, &years->state));
    hour_days_make(years->hours, YEARS_WEEK_D, arena, &years->days);
    years->days.plants_at_end = true;
    return weather_make(ask->farm, ask->book, arena, &years->weather);
}

Err years_open(const YearsAsk *ask, Arena *arena, YearsFarm **out)
{
    if (ask->weeks < 1 || ask->weeks > YEARS_WEEKS_MOST) {
        return err_make(ERR_RANGE, "1 to %d weeks can be foreseen, not %d",
                        YEARS_WEEKS_MOST, ask->weeks);
    }
    YearsFarm *years = ARENA_NEW(arena, YearsFarm);
    const Farm *farm = ask->farm;
    years->ask = *ask;
    years->shape = years_shape(farm, ask->weeks);
    weather_forecast_of_farm(farm, &years->forecast);
    TRY(make_hours(years, arena));
    years->year = ARENA_ARRAY(arena, HourWeather, ask->weeks * WEEK_H);
    years->place_weeks = ARENA_ARRAY(arena, PlaceWeek, farm->tunnels_count + 1);
    years->fish_luck =
        ARENA_ARRAY(arena, HourFishLuck, hour_species_count(years->hours));
    years->tank_was = ARENA_ARRAY(arena, double, farm->tanks_count);
    years->picked = ARENA_ARRAY(arena, double, farm->ways_count);
    TRY(years_plants_open(years, arena));
    years_orders_open(years, arena);
    *out = years;
    return ERR_NONE;
}

/* ---- A year's beginning ----------------------------------------------------
 */

static void draw_weather(YearsFarm *years, int64_t year)
{
    const YearsAsk *ask = &years->ask;
    int days = ask->weeks * YEARS_WEEK_D;
    if (years->is_typical) {
        hour_typical_weather(years->hours, 0, days * DAY_H, years->year);
    } else {
        WeatherAsk weather = {ask->seed, (uint32_t)year, ask->first_week, days};
        weather_draw(years->weather, &weather, years->year);
    }
    WeatherHours hours = {years->year, ask->first_week, days,
                          ask->farm->farm->latitude_deg};
    (void)weather_forecast_apply(years->weather, &years->forecast, &hours);
    years->log_hours = ask->log ? weather_log_apply(ask->log, &hours) : 0;
}

double years_worst_residual_frac(const YearsFarm *years)
{
    return years->days.worst_residual_frac;
}

int64_t years_log_hours(const YearsFarm *years)
{
    return years->log_hours;
}

/* The published tables of feed by temperature lie apart as far as one in ten
 * does; an appetite and a conversion of the farm's own have their own spread.
 */
static void draw_fish(YearsFarm *years)
{
    static const double ONE_IN_TEN = 1.2816;
    const LuckYear *luck = &years->luck;
    for (int i = 0; i < hour_species_count(years->hours); i++) {
        HourFishLuck *to = &years->fish_luck[i];
        *to = (HourFishLuck){0.0, 1.0, 1.0};
        if (years->is_typical) {
            continue;
        }
        const FishSpecies *species = hour_species(years->hours, i);
        Figure appetite = fish_case_appetite(years->ask.farm, species->name);
        Figure efficiency = {.value = species->efficiency,
                             .low = species->efficiency_end[0],
                             .high = species->efficiency_end[1]};
        double z = luck_normal(luck, LUCK_WARMTH, species->name);
        if (appetite.origin != FIGURE_YOURS) {
            to->warmth = z / ONE_IN_TEN;
        } else {
            to->appetite = luck_figure(&appetite, z) / appetite.value;
        }
        z = luck_normal(luck, LUCK_CONVERSION, species->name);
        to->efficiency = luck_figure(&efficiency, z) / efficiency.value;
    }
}

static void begin(YearsFarm *years, int64_t year, uint16_t *out)
{
    years->out = out;
    years->is_typical = year == YEARS_TYPICAL;
    years->luck = (LuckYear){years->ask.seed, (uint32_t)year};
    memset(out, 0, (size_t)years->shape.code_count * sizeof *out);
    hour_state_copy(years->hours, years->first, years->state);
    draw_weather(years, year);
    draw_fish(years);
    years_plants_begin(years);
    years_orders_begin(years);
    hour_state_luck(years->hours, years->state, years->plants.speed,
                    years->fish_luck);
}

/* ---- A week ----------------------------------------------------------------
 */

static void tell_loop(YearsFarm *years, int loop, int week)
{
    int loops = years->ask.farm->loops_count;
    double feed = 0.0, tan = 0.0, nitrate = 0.0, ph = INFINITY, degc = 0.0;
    double heat = 0.0, uncovered = 0.0;
    for (int d = 0; d < YEARS_WEEK_D; d++) {
        const HourLoopDay *day = &years->days.loops[d * loops + loop];
        feed += day->feed_kg;
        tan = fmax(tan, day->tan_most_g_m3);
        nitrate += day->nitrate_g_m3 / YEARS_WEEK_D;
        ph = fmin(ph, day->ph_least);
        degc += day->temp_degc / YEARS_WEEK_D;
        heat += day->heater_kwh;
        uncovered += day->uncovered_h;
    }
    years_put(years, YEARS_FEED, loop, week, feed);
    years_put(years, YEARS_TAN, loop, week, tan);
    years_put(years, YEARS_NITRATE, loop, week, nitrate);
    years_put(years, YEARS_PH, loop, week, ph);
    years_put(years, YEARS_WATER, loop, week, degc);
    years_put(years, YEARS_HEATER, loop, week, heat);
    if (uncovered > 0.0) {
        years_break(years, BREAK_SUMP, loop, week);
    }
}

/* Fish that die in a week, as a share, that are more than bad luck; judged. */
static const double MANY_DEAD_FRAC = 0.05;

static void tell_breaks(YearsFarm *years, const HourTankDay *sum, int tank,
                        int week)
{
    const struct {
        double hours;
        int kind;
    } rows[] = {{sum->low_oxygen_h, BREAK_OXYGEN},
                {sum->ammonia_h, BREAK_AMMONIA},
                {sum->nitrite_h, BREAK_NITRITE},
                {sum->cold_h, BREAK_COLD_WATER},
                {sum->hot_h, BREAK_HOT_WATER}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (rows[i].hours > 0.0) {
            years_break(years, rows[i].kind, tank, week);
        }
    }
    double had = years->tank_was[tank] + sum->stocked_count;
    if (sum->dead_count > 1.0 && sum->dead_count > MANY_DEAD_FRAC * had) {
        years_break(years, BREAK_DEATHS, tank, week);
    }
}

/* Returns how many died. */
static double tell_tank(YearsFarm *years, int tank, int week)
{
    int tanks = years->ask.farm->tanks_count;
    HourTankDay sum = {.oxygen_least_g_m3 = INFINITY,
                       .temp_least_degc = INFINITY,
                       .temp_most_degc = -INFINITY};
    for (int d = 0; d < YEARS_WEEK_D; d++) {
        const HourTankDay *day = &years->days.tanks[d * tanks + tank];
        if (day->oxygen_least_g_m3 < sum.oxygen_least_g_m3) {
            sum.oxygen_least_g_m3 = day->oxygen_least_g_m3;
            sum.oxygen_least_hour = day->oxygen_least_hour;
        }
        sum.temp_least_degc = fmin(sum.temp_least_degc, day->temp_least_degc);
        sum.temp_most_degc = fmax(sum.temp_most_degc, day->temp_most_degc);
        sum.nh3_most_g_m3 = fmax(sum.nh3_most_g_m3, day->nh3_most_g_m3);
        sum.dead_count += day->dead_count;
        sum.stocked_count += day->stocked_count;
        sum.low_oxygen_h += day->low_oxygen_h;
        sum.ammonia_h += day->ammonia_h;
        sum.nitrite_h += day->nitrite_h;
        sum.cold_h += day->cold_h;
        sum.hot_h += day->hot_h;
    }
    years_put(years, YEARS_OXYGEN, tank, week, sum.oxygen_least_g_m3);
    years_put(years, YEARS_OXYGEN_HOUR, tank, week, sum.oxygen_least_hour);
    years_put(years, YEARS_NH3, tank, week, sum.nh3_most_g_m3);
    years_put(years, YEARS_TANK_LEAST, tank, week, sum.temp_least_degc);
    years_put(years, YEARS_TANK_MOST, tank, week, sum.temp_most_degc);
    tell_breaks(years, &sum, tank, week);
    years->tank_was[tank] =
        years->days.tanks[(YEARS_WEEK_D - 1) * tanks + tank].count;
    return sum.dead_count;
}

static void tell_tunnel(YearsFarm *years, int t, int week)
{
    int tunnels = years->ask.farm->tunnels_count;
    double mean = 0.0, least = INFINITY, most = -INFINITY;
    double wet = 0.0, heat = 0.0;
    PlaceWeek *place = &years->place_weeks[t];
    for (int d = 0; d < YEARS_WEEK_D; d++) {
        const HourTunnelDay *day = &years->days.tunnels[d * tunnels + t];
        mean += day->air_degc / YEARS_WEEK_D;
        least = fmin(least, day->air_least_degc);
        most = fmax(most, day->air_most_degc);
        wet += day->wet_h;
        heat += day->heater_kwh;
        place->mean_degc[d] = day->air_degc;
        place->least_degc[d] = day->air_least_degc;
        place->dli_mol[d] = day->dli_mol;
    }
    years_put(years, YEARS_AIR, t, week, mean);
    years_put(years, YEARS_AIR_LEAST, t, week, least);
    years_put(years, YEARS_AIR_MOST, t, week, most);
    years_put(years, YEARS_WET, t, week, wet);
    years_put(years, YEARS_AIR_HEATER, t, week, heat);
}

static void see_open(YearsFarm *years, int week)
{
    PlaceWeek *place = &years->place_weeks[years->ask.farm->tunnels_count];
    const HourWeather *hours = years->year + week * WEEK_H;
    for (int d = 0; d < YEARS_WEEK_D; d++) {
        double mean = 0.0, least = INFINITY, sun_mj = 0.0;
        for (int i = d * DAY_H; i < (d + 1) * DAY_H; i++) {
            mean += hours[i].outside_degc / DAY_H;
            least = fmin(least, hours[i].outside_degc);
            sun_mj += (hours[i].direct_w_m2 + hours[i].diffuse_w_m2) * 0.0036;
        }
        place->mean_degc[d] = mean;
        place->least_degc[d] = least;
        place->dli_mol[d] = sun_dli_mol_m2_d(sun_mj);
    }
}

static void run_week(YearsFarm *years, int week)
{
    const Farm *farm = years->ask.farm;
    years->days.ledger = (HourLedger){{0}, {0}, {0}, {0}};
    hour_run(years->hours, years->state, years->year + week * WEEK_H,
             &years->days);
    for (int i = 0; i < farm->loops_count; i++) {
        tell_loop(years, i, week);
    }
    double dead = 0.0;
    for (int i = 0; i < farm->tanks_count; i++) {
        dead += tell_tank(years, i, week);
    }
    for (int i = 0; i < farm->tunnels_count; i++) {
        tell_tunnel(years, i, week);
    }
    see_open(years, week);
    years_put(years, YEARS_DEAD, 0, week, dead);
    years_put(years, YEARS_READY, 0, week,
              hour_fish_over(years->hours, years->state, years->ask.sale_g));
    years_plants_week(years, week);
    years_orders_week(years, week);
}

/* ---- The span --------------------------------------------------------------
 */

static double fold_row(const YearsFarm *years, int series, int row)
{
    const YearsSeries *is = &YEARS_SERIES_TABLE[series];
    int weeks = years->shape.weeks;
    const uint16_t *codes =
        years->out + years->shape.series_at[series] + row * (weeks + 1);
    double sum = 0.0, least = INFINITY, most = -INFINITY;
    for (int w = 0; w < weeks; w++) {
        double value = spread_value(&is->scale, codes[w], 0.5);
        sum += value;
        least = fmin(least, value);
        most = fmax(most, value);
    }
    return is->fold == FOLD_SUM     ? sum
           : is->fold == FOLD_LEAST ? least
           : is->fold == FOLD_MOST  ? most
                                    : sum / weeks;
}

/* The hour in which oxygen was least in the whole span. */
static void fold_hour(YearsFarm *years, int tank)
{
    int weeks = years->shape.weeks;
    int row = tank * (weeks + 1);
    const uint16_t *least = years->out + years->shape.series_at[YEARS_OXYGEN];
    uint16_t *hour = years->out + years->shape.series_at[YEARS_OXYGEN_HOUR];
    int worst = 0;
    for (int w = 1; w < weeks; w++) {
        worst = least[row + w] < least[row + worst] ? w : worst;
    }
    hour[row + weeks] = hour[row + worst];
}

/* Over the weeks in which it is due. */
static void fold_order(YearsFarm *years, int order)
{
    int weeks = years->shape.weeks;
    const SpreadScale *scale = &YEARS_SERIES_TABLE[YEARS_KEPT].scale;
    uint16_t *codes =
        years->out + years->shape.series_at[YEARS_KEPT] + order * (weeks + 1);
    double sum = 0.0;
    int due = 0;
    for (int w = 0; w < weeks; w++) {
        if (years_due(years, order, w).wanted > 0.0) {
            sum += spread_value(scale, codes[w], 0.0);
            due++;
        }
    }
    codes[weeks] = spread_code(scale, due > 0 ? sum / due : 0.0);
}

static void fold(YearsFarm *years)
{
    for (int s = 0; s < YEARS_SERIES_COUNT; s++) {
        int rows = years_rows(years->ask.farm, YEARS_SERIES_TABLE[s].of);
        for (int row = 0; row < rows; row++) {
            years_put(years, s, row, years->shape.weeks,
                      fold_row(years, s, row));
        }
    }
    for (int tank = 0; tank < years->ask.farm->tanks_count; tank++) {
        fold_hour(years, tank);
    }
    for (int order = 0; order < years->ask.farm->orders_count; order++) {
        fold_order(years, order);
    }
}

void years_run(YearsFarm *years, int64_t year, uint16_t *out)
{
    assert(year >= YEARS_TYPICAL && year <= UINT32_MAX);
    begin(years, year, out);
    for (int t = 0; t < years->ask.farm->tanks_count; t++) {
        years->tank_was[t] = hour_tank_count(years->hours, years->first, t);
    }
    for (int week = 0; week < years->shape.weeks; week++) {
        run_week(years, week);
    }
    fold(years);
    years->out = NULL;
}
