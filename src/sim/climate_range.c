/* The typical year's numbers with the book's figures at low and at high. */
#include "sim/climate_range.h"

#include <math.h>
#include <stddef.h>

/* A figure of BookCover (all covers together) or of BookCommon. */
typedef struct Doubt {
    bool is_cover;
    size_t offset;
} Doubt;

static const Doubt DOUBTS[] = {
    {true, offsetof(BookCover, loss_w_m2_k)},
    {true, offsetof(BookCover, diffuse_frac)},
    {true, offsetof(BookCover, infrared_frac)},
    {false, offsetof(BookCommon, tunnel_leaf_frac)},
    {false, offsetof(BookCommon, tunnel_vent_degc)},
    {false, offsetof(BookCommon, tunnel_vent_mild_degc)},
    {false, offsetof(BookCommon, tunnel_vent_pass_frac)},
    {false, offsetof(BookCommon, tunnel_ground_w_m2_k)},
    {false, offsetof(BookCommon, tank_room_w_m2_k)},
};
enum { DOUBT_COUNT = sizeof DOUBTS / sizeof DOUBTS[0] };

static void set_to(Figure *figure, bool is_high)
{
    figure->value = is_high ? figure->high : figure->low;
}

static void move(Book *book, const Doubt *doubt, bool is_high)
{
    if (!doubt->is_cover) {
        char *common = (char *)book->common;
        set_to((Figure *)(void *)(common + doubt->offset), is_high);
        return;
    }
    for (int32_t i = 0; i < book->covers_count; i++) {
        char *cover = (char *)&book->covers[i];
        set_to((Figure *)(void *)(cover + doubt->offset), is_high);
    }
}

static double least_of(const double *days)
{
    double least = days[0];
    for (int day = 1; day < CLIMATE_DAYS; day++) {
        least = fmin(least, days[day]);
    }
    return least;
}

static double most_of(const double *days)
{
    double most = days[0];
    for (int day = 1; day < CLIMATE_DAYS; day++) {
        most = fmax(most, days[day]);
    }
    return most;
}

/* A year's numbers in the order of ClimateRange. */
static void numbers_of(const Farm *farm, const ClimateYear *year, double *out)
{
    *out++ = year->heater_kwh;
    *out++ = year->heater_cost;
    for (int32_t i = 0; i < farm->loops_count; i++) {
        *out++ = least_of(year->loops[i].mean_degc);
        *out++ = most_of(year->loops[i].mean_degc);
    }
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        *out++ = least_of(year->tunnels[i].min_degc);
        *out++ = most_of(year->tunnels[i].max_degc);
    }
}

/* The year's own memory is given back at once. */
static Err year_numbers(const Farm *farm, const Book *book, double *out)
{
    CLEANUP(arena_release) Arena once = {0};
    ClimateYear year;
    TRY(climate_year_run(farm, book, &once, &year));
    numbers_of(farm, &year, out);
    return ERR_NONE;
}

typedef struct Spread {
    double *value;
    double *down; /* sum of squares */
    double *up;
    int count;
} Spread;

/* One figure's two runs; the farther of the two counts on each side. */
static Err add_doubt(const Farm *farm, const Book *book, const Doubt *doubt,
                     Spread *sum)
{
    CLEANUP(arena_release) Arena once = {0};
    double *down = ARENA_ARRAY(&once, double, sum->count);
    double *up = ARENA_ARRAY(&once, double, sum->count);
    double *now = ARENA_ARRAY(&once, double, sum->count);
    for (int side = 0; side < 2; side++) {
        Book moved;
        book_copy(&once, book, &moved);
        move(&moved, doubt, side == 1);
        TRY(year_numbers(farm, &moved, now));
        for (int i = 0; i < sum->count; i++) {
            down[i] = fmax(down[i], sum->value[i] - now[i]);
            up[i] = fmax(up[i], now[i] - sum->value[i]);
        }
    }
    for (int i = 0; i < sum->count; i++) {
        sum->down[i] += down[i] * down[i];
        sum->up[i] += up[i] * up[i];
    }
    return ERR_NONE;
}

static Figure figure_at(const Spread *sum, int at)
{
    return (Figure){.value = sum->value[at],
                    .low = sum->value[at] - sqrt(sum->down[at]),
                    .high = sum->value[at] + sqrt(sum->up[at]),
                    .origin = FIGURE_GUESS,
                    .source = ""};
}

Err climate_range_make(const Farm *farm, const Book *book, Arena *arena,
                       ClimateRange *out)
{
    int32_t loops = farm->loops_count, tunnels = farm->tunnels_count;
    Spread sum = {.count = 2 + 2 * loops + 2 * tunnels};
    sum.value = ARENA_ARRAY(arena, double, sum.count);
    sum.down = ARENA_ARRAY(arena, double, sum.count);
    sum.up = ARENA_ARRAY(arena, double, sum.count);
    TRY(year_numbers(farm, book, sum.value));
    for (int i = 0; i < DOUBT_COUNT; i++) {
        TRY(add_doubt(farm, book, &DOUBTS[i], &sum));
    }
    ClimateRange range = {.heater_kwh = figure_at(&sum, 0),
                          .heater_cost = figure_at(&sum, 1),
                          .water_least_degc = ARENA_ARRAY(arena, Figure, loops),
                          .water_most_degc = ARENA_ARRAY(arena, Figure, loops),
                          .air_least_degc = ARENA_ARRAY(arena, Figure, tunnels),
                          .air_most_degc = ARENA_ARRAY(arena, Figure, tunnels)};
    for (int32_t i = 0; i < loops; i++) {
        range.water_least_degc[i] = figure_at(&sum, 2 + 2 * i);
        range.water_most_degc[i] = figure_at(&sum, 3 + 2 * i);
    }
    for (int32_t i = 0; i < tunnels; i++) {
        range.air_least_degc[i] = figure_at(&sum, 2 + 2 * loops + 2 * i);
        range.air_most_degc[i] = figure_at(&sum, 3 + 2 * loops + 2 * i);
    }
    *out = range;
    return ERR_NONE;
}
