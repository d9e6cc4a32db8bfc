/* Invented problems: the case, the year, hours. */
#include "plan/generate.h"

#include <assert.h>
#include <math.h>

#include "plan/generate_parts.h"

/* The sine year; week 0 is the first of March. */
static const struct {
    double mean_growth;
    double swing;
    double peak_week;
    double weeks_in_year;
    double first_kind; /* growth in the best kind of bed */
    double kind_step;  /* what each further kind of three loses */
} YEAR = {0.62, 0.38, 21.0, 52.0, 1.05, 0.08};

/* Hands, against what the demand needs. */
static const struct {
    double fixed_share;
    double paid_share;
    double summer_more; /* paid in summer above the mean, as share */
    double extra_share;
    double wage;
    double clean_hours;
    double clean_share;
} HANDS = {0.25, 0.80, 0.25, 0.35, 14.0, 2.5, 0.1};

GenerateCase generate_case(int beds, uint64_t seed)
{
    static const int BEDS_OF_A_LOOP = 48;
    int loops = beds / BEDS_OF_A_LOOP;
    loops = loops < 1 ? 1 : loops > 4 ? 4 : loops;
    return (GenerateCase){.seed = seed,
                          .beds = beds,
                          .kinds = beds >= 96 ? 12 : 6,
                          .sections = 4,
                          .ways = GENERATE_MOST_WAYS,
                          .shapes = 2,
                          .loops = loops,
                          .tanks = 4,
                          .horizon = 52,
                          .tail = 26,
                          .stock_every = 4,
                          .crowding = 1.0,
                          .seedlings = 1};
}

GenerateCase generate_tiny_case(uint64_t seed)
{
    return (GenerateCase){.seed = seed,
                          .beds = 2,
                          .kinds = 2,
                          .sections = 3,
                          .ways = 3,
                          .shapes = 1,
                          .loops = 1,
                          .tanks = 2,
                          .horizon = 10,
                          .tail = 6,
                          .stock_every = 5,
                          .crowding = 1.0,
                          .seedlings = 1};
}

double generate_growth(int week)
{
    double angle =
        2.0 * acos(-1.0) * (week - YEAR.peak_week) / YEAR.weeks_in_year;
    return YEAR.mean_growth + YEAR.swing * cos(angle);
}

double generate_way_growth(const Generator *g, int way, int kind, int week)
{
    double warm = generate_way(way)->warm;
    double year = generate_growth(week);
    if (year <= warm) {
        return 0.0;
    }
    double speed = YEAR.first_kind - YEAR.kind_step * (kind % 3);
    return speed * (year - warm) / (1.0 - warm);
}

double *generate_flat(Generator *g, double value)
{
    double *out = ARENA_ARRAY(g->arena, double, g->weeks);
    for (int t = 0; t < g->weeks; t++) {
        out[t] = value;
    }
    return out;
}

/* Hours a week that a way's demand needs. */
static double way_hours(const Generator *g, int way)
{
    const InventedWay *w = generate_way(way);
    double demand = generate_weekly_demand(g, way);
    double sections = demand / w->yield;
    return demand * w->pick_hours + sections * w->set_hours;
}

void generate_hours(Generator *g)
{
    Problem *out = g->out;
    double need = 0.0;
    for (int w = 0; w < g->farm->ways; w++) {
        need += way_hours(g, w);
    }
    double *paid = generate_flat(g, 0.0);
    for (int t = 0; t < g->weeks; t++) {
        double season = (generate_growth(t) - YEAR.mean_growth) / YEAR.swing;
        paid[t] = floor(need * (HANDS.fixed_share + HANDS.paid_share) *
                            (1.0 + HANDS.summer_more * season) +
                        2.0);
    }
    out->hours_fixed = generate_flat(g, floor(need * HANDS.fixed_share));
    out->hours_paid = paid;
    out->hours_extra = generate_flat(g, ceil(need * HANDS.extra_share) + 2.0);
    out->wage_extra_h = HANDS.wage;
    for (int t = 0; t < g->weeks; t++) {
        out->wages_paid += HANDS.wage * paid[t];
    }
    double *clean = ARENA_ARRAY(g->arena, double, out->kind_count);
    for (int c = 0; c < out->kind_count; c++) {
        clean[c] = HANDS.clean_hours;
    }
    out->clean_hours = clean;
    out->clean_share = HANDS.clean_share;
}

void generate_problem(Arena *arena, const GenerateCase *farm, Problem *out)
{
    assert(farm->ways >= 1 && farm->ways <= GENERATE_MOST_WAYS);
    assert(farm->kinds >= 1 && farm->beds >= farm->kinds);
    assert(farm->shapes >= 1 && farm->shapes <= GENERATE_MOST_SHAPES);
    static const double BEDS_OF_SCALE_1 = 48.0;
    *out = (Problem){.horizon = farm->horizon,
                     .week_count = farm->horizon + farm->tail,
                     .way_count = farm->ways};
    Generator g = {.arena = arena,
                   .farm = farm,
                   .out = out,
                   .rng = rng_make(farm->seed, 0),
                   .weeks = farm->horizon + farm->tail,
                   .scale = farm->beds / BEDS_OF_SCALE_1};
    generate_beds(&g);
    generate_options(&g);
    generate_fish(&g);
    generate_sales(&g);
    generate_hours(&g);
}
