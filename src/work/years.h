/* One of the years that could be, on this farm with its accepted plan: what
 * each week of it brings, as codes that can be counted.
 *
 * A year's weather (in the coming days as the farm's forecast has it), and what
 * germination, losses, growth, yield, appetite and
 * feed conversion turn out to be, are fixed by seed and year (sim/weather.h,
 * sim/luck.h); the coupled hour runs through it (sim/hour.h), plants are picked
 * as they come (sim/picks.h) and orders are served: firm ones first, then
 * promised ones, each in the order of their table and up to what the plan keeps
 * of it, then the rest, from what was picked in the week, what the store kept,
 * and fish that the plan sells.
 *
 * Year k is the same whatever other years are run and where: docs/years.md. */
#ifndef LEAT_WORK_YEARS_H
#define LEAT_WORK_YEARS_H

#include "base/spread.h"
#include "sim/hour.h"
#include "sim/weather_log.h"

enum {
    YEARS_WEEKS_MOST = 104,
    YEARS_WEEK_D = 7,
    /* In place of a year's number: typical weather, every figure at its value.
     */
    YEARS_TYPICAL = -1,
};

/* What a series is of. */
typedef enum YearsOf {
    OF_FARM,
    OF_WAYS,
    OF_ORDERS,
    OF_LOOPS,
    OF_TANKS,
    OF_TUNNELS,
    OF_ELEMENTS, /* of loops: loop * HOUR_ELEMENTS + element */
} YearsOf;

/* How a year's weeks become one number. */
typedef enum YearsFold { FOLD_SUM, FOLD_LEAST, FOLD_MOST, FOLD_MEAN } YearsFold;

/* The lists are laid out by hand. */
/* clang-format off */

/* Series: enum, key in JSON, of what, fold, scale (codes, from, step, exact; step
 * 0 doubling),
 * meaning of a week's value. */
#define YEARS_SERIES(S)                                                        \
    S(YEARS_PICKED, "picked", OF_WAYS, FOLD_SUM, 1024, 0, 0, 0, "units picked")         \
    S(YEARS_KEPT, "kept_frac", OF_ORDERS, FOLD_MEAN, 21, 0, 0.05, 1,                 \
      "share of what is ordered that can be delivered")                        \
    S(YEARS_READY, "fish_ready", OF_FARM, FOLD_MOST, 1024, 0, 0, 0,                     \
      "fish over the sale weight on the Sunday")                               \
    S(YEARS_DEAD, "fish_dead", OF_FARM, FOLD_SUM, 1024, 0, 0, 0, "fish that die")       \
    S(YEARS_FEED, "feed_kg", OF_LOOPS, FOLD_SUM, 1024, 0, 0, 0, "feed given")           \
    S(YEARS_TAN, "tan_mg_l", OF_LOOPS, FOLD_MOST, 1024, 0, 0, 0,                        \
      "ammonia nitrogen of the sump, the most of its hours")                   \
    S(YEARS_NITRATE, "nitrate_mg_l", OF_LOOPS, FOLD_MOST, 1024, 0, 0, 0,                \
      "nitrate nitrogen of the sump, mean")                                    \
    S(YEARS_PH, "ph", OF_LOOPS, FOLD_LEAST, 1024, 2, 0.01, 0,                           \
      "pH of the sump, the least of its hours")                                \
    S(YEARS_WATER, "water_degc", OF_LOOPS, FOLD_MEAN, 1000, -5, 0.05, 0,                \
      "water of the sump, mean")                                               \
    S(YEARS_HEATER, "water_heater_kwh", OF_LOOPS, FOLD_SUM, 1024, 0, 0, 0,              \
      "heat given to the water")                                               \
    S(YEARS_GROWN, "growth_frac", OF_LOOPS, FOLD_MEAN, 201, 0, 0.005, 1,               \
      "growth of the plants over what warmth and light allow")                 \
    S(YEARS_OXYGEN, "oxygen_least_mg_l", OF_TANKS, FOLD_LEAST, 1000, 0, 0.02, 0,        \
      "oxygen, the least of its hours")                                        \
    S(YEARS_OXYGEN_HOUR, "oxygen_least_hour", OF_TANKS, FOLD_MEAN, 24, 0, 1, 1,       \
      "the hour of the day in which that was, 0 to 23 by the sun")             \
    S(YEARS_NH3, "nh3_mg_l", OF_TANKS, FOLD_MOST, 1024, 0, 0, 0,                        \
      "un-ionised ammonia nitrogen, the most of its hours")                    \
    S(YEARS_TANK_LEAST, "tank_least_degc", OF_TANKS, FOLD_LEAST, 1000, -5, 0.05, 0,     \
      "water of the tank, its coldest hour")                                   \
    S(YEARS_TANK_MOST, "tank_most_degc", OF_TANKS, FOLD_MOST, 1000, -5, 0.05, 0,        \
      "water of the tank, its warmest hour")                                   \
    S(YEARS_AIR, "air_degc", OF_TUNNELS, FOLD_MEAN, 1000, -40, 0.1, 0,                  \
      "air inside, mean")                                                      \
    S(YEARS_AIR_LEAST, "air_least_degc", OF_TUNNELS, FOLD_LEAST, 1000, -40, 0.1, 0,     \
      "air inside, the coldest hour")                                          \
    S(YEARS_AIR_MOST, "air_most_degc", OF_TUNNELS, FOLD_MOST, 1000, -40, 0.1, 0,        \
      "air inside, the warmest hour")                                          \
    S(YEARS_WET, "wet_h", OF_TUNNELS, FOLD_SUM, 1024, 0, 0, 0,                          \
      "hours with wet leaves")                                                 \
    S(YEARS_AIR_HEATER, "air_heater_kwh", OF_TUNNELS, FOLD_SUM, 1024, 0, 0, 0,          \
      "heat given to the air")

/* What can break: enum, key in JSON, of what. The order is that in which two
 * of the same week are told, the gravest first. */
#define YEARS_BREAKS(B)                                                        \
    B(BREAK_OXYGEN, "oxygen", OF_TANKS)                                        \
    B(BREAK_AMMONIA, "ammonia", OF_TANKS)                                      \
    B(BREAK_NITRITE, "nitrite", OF_TANKS)                                      \
    B(BREAK_DEATHS, "deaths", OF_TANKS)                                        \
    B(BREAK_COLD_WATER, "cold water", OF_TANKS)                                \
    B(BREAK_HOT_WATER, "hot water", OF_TANKS)                                  \
    B(BREAK_SUMP, "sump", OF_LOOPS)                                            \
    B(BREAK_FROST, "frost", OF_WAYS)                                           \
    B(BREAK_CHILL, "chill", OF_WAYS)                                           \
    B(BREAK_BOLT, "bolting", OF_WAYS)                                          \
    B(BREAK_NUTRIENT, "nutrient", OF_ELEMENTS)                                 \
    B(BREAK_FIRM, "firm order", OF_ORDERS)                                     \
    B(BREAK_PROMISE, "promised order", OF_ORDERS)

/* clang-format on */

typedef enum YearsSeriesId {
#define YEARS_ID(name, ...) name,
    YEARS_SERIES(YEARS_ID)
#undef YEARS_ID
        YEARS_SERIES_COUNT
} YearsSeriesId;

typedef enum YearsBreakId {
#define YEARS_ID(name, ...) name,
    YEARS_BREAKS(YEARS_ID)
#undef YEARS_ID
        YEARS_BREAK_COUNT
} YearsBreakId;

typedef struct YearsSeries {
    const char *key;
    YearsOf of;
    YearsFold fold;
    SpreadScale scale;
    const char *meaning;
} YearsSeries;
extern const YearsSeries YEARS_SERIES_TABLE[YEARS_SERIES_COUNT];

typedef struct YearsBreak {
    const char *key;
    YearsOf of;
} YearsBreak;
extern const YearsBreak YEARS_BREAK_TABLE[YEARS_BREAK_COUNT];

/* Where each series and break lies among a year's codes. A series of r rows has
 * r * (weeks + 1) codes, row by row, the last of a row for the whole span; a
 * break one code a row: 0 if it does not come, else 1 + its first week. Counts
 * of how often each code came lie in the same order. */
typedef struct YearsShape {
    int weeks;
    int series_at[YEARS_SERIES_COUNT];
    int break_at[YEARS_BREAK_COUNT];
    int code_count;
    size_t series_counts[YEARS_SERIES_COUNT];
    size_t break_counts[YEARS_BREAK_COUNT];
    size_t counts_count;
} YearsShape;
int years_rows(const Farm *farm, YearsOf of);
YearsShape years_shape(const Farm *farm, int weeks);

typedef struct YearsAsk {
    const Farm *farm;           /* Borrowed, as all of these. */
    const Book *book;           /* with the farm's own figures in it */
    const ClimateYear *climate; /* typical */
    const WeatherLog *log;      /* laid over the weather of every year; NULL */
    int32_t first_week;         /* Monday */
    int weeks;                  /* 1..YEARS_WEEKS_MOST */
    double sale_g;              /* fish are ready from here */
    uint64_t seed;
} YearsAsk;

typedef struct YearsFarm YearsFarm;

/* Everything in the arena. ERR_RANGE: weeks; else as hour_farm_make and
 * weather_make. */
NODISCARD Err years_open(const YearsAsk *ask, Arena *arena, YearsFarm **out);

/* Runs year k (0 or more) or YEARS_TYPICAL; out has years_shape's code_count
 * codes. Allocates nothing. */
void years_run(YearsFarm *years, int64_t year, uint16_t *out);

/* The worst of the hours' ledgers of all years run so far, over what moved: see
 * hour_ledger_residual_frac. */
double years_worst_residual_frac(const YearsFarm *years);

/* Hours of the span that the log told, of the last year run. */
int64_t years_log_hours(const YearsFarm *years);

/* What an order is due in a week of the span and what the plan keeps of it;
 * units. An outlet is due nothing. */
typedef struct YearsDue {
    double wanted;
    double planned;
} YearsDue;
YearsDue years_due(const YearsFarm *years, int order, int week);

/* What the plan of the typical year counts on of a way: the share of the mean
 * that firm orders may take (plant_counted_frac). */
double years_plan_counted_frac(const YearsFarm *years, int way);

#endif
