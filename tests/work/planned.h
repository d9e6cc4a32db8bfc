/* The small invented farm with a nursery and prices, in its typical year: its
 * planning problem, a plan found for it, and the farm with that plan accepted.
 */
#ifndef LEAT_TESTS_PLANNED_H
#define LEAT_TESTS_PLANNED_H

#include "small_farm.h"

#include "plan/build.h"
#include "plan/evaluate.h"
#include "plan/record.h"
#include "plan/search.h"
#include "plan/verify.h"
#include "work/foresight.h"
#include "work/outlook.h"

enum { PLANNED_PRODUCTS = 4 };

typedef struct Planned {
    SmallFarm small;
    ClimateYear climate;
    Nursery bench;
    Price prices[PLANNED_PRODUCTS];
    PlanInputs inputs;
    Problem problem;
    PlanIndex index;
    PlanSolution solution;
    Farm accepted;
} Planned;

static inline int planned_way(const Planned *planned, const char *id)
{
    const Farm *farm = planned->small.farm;
    for (int w = 0; w < farm->ways_count; w++) {
        if (strcmp(farm->ways[w].id, id) == 0) {
            return w;
        }
    }
    fail_msg("no way %s", id);
    return -1;
}

/* The farm with no plan, no fish and nothing in its beds; a test adds its
 * plants. */
static inline void planned_open(Planned *planned)
{
    static const int64_t PRICES_E4[PLANNED_PRODUCTS] = {16000, 14000, 180000,
                                                        55000};
    *planned = (Planned){0};
    small_farm_open(&planned->small, false);
    Farm *farm = planned->small.farm;
    planned->bench = (Nursery){.id = "bench", .floor_degc = 15, .tunnel = -1};
    for (int m = 0; m < 12; m++) {
        planned->bench.trays[m] = 14.0;
    }
    farm->nursery = &planned->bench;
    farm->nursery_count = 1;
    for (int p = 0; p < PLANNED_PRODUCTS; p++) {
        planned->prices[p] = (Price){.product = p,
                                     .buyer = -1,
                                     .price_e4 = PRICES_E4[p],
                                     .from = DATE_ALWAYS,
                                     .until = DATE_NEVER};
    }
    farm->fish_count = 0; /* its tanks have no air */
    farm->prices = planned->prices;
    farm->prices_count = PLANNED_PRODUCTS;
    assert_ok(climate_year_run(farm, &planned->small.book,
                               &planned->small.arena, &planned->climate));
}

static inline void planned_build(Planned *planned, int weeks)
{
    planned->inputs = (PlanInputs){.farm = planned->small.farm,
                                   .book = &planned->small.book,
                                   .climate = &planned->climate,
                                   .from = small_week(0),
                                   .weeks = weeks};
    assert_ok(plan_build(&planned->inputs, &planned->small.arena,
                         &planned->problem, &planned->index));
}

/* A plan of so many moves, seen by the separate checker, as accepted. */
static inline void planned_search(Planned *planned, int64_t moves)
{
    Arena *arena = &planned->small.arena;
    SearchSetup setup = {.seed = 7, .moves = moves};
    Search *search = search_open(arena, &planned->problem, &setup);
    while (search_step(search)) {
    }
    double faults = 0.0;
    (void)search_take(search, arena, &planned->solution, &faults);
    assert_near(faults, 0.0, 1e-9);
    assert_ok(plan_evaluate(&planned->problem, &planned->solution, arena,
                            &planned->solution.outcome));
    VerifyReport report;
    plan_verify(&planned->problem, &planned->solution, arena, &report);
    for (int i = 0; i < report.count && i < VERIFY_MOST_TEXTS; i++) {
        print_error("%s\n", report.texts[i]);
    }
    assert_int_equal(report.count, 0);
    PlanStamp stamp = {small_week(0), 7, "x"};
    plan_record(&planned->inputs, &planned->problem, &planned->index,
                &planned->solution, &stamp, arena, &planned->accepted);
}

static inline Foresight planned_look(Planned *planned, const Farm *farm,
                                     int weeks)
{
    ForesightAsk ask = {.farm = farm,
                        .book = &planned->small.book,
                        .climate = &planned->climate,
                        .first_week = small_week(0),
                        .weeks = weeks,
                        .sale_g = NAN,
                        .way = FORESIGHT_ALL};
    Foresight foresight = {0};
    assert_ok(foresight_make(&ask, &planned->small.arena, &foresight));
    return foresight;
}

static inline JobsWeek planned_jobs(Planned *planned, const Farm *farm,
                                    int week)
{
    Arena *arena = &planned->small.arena;
    OutlookClimate climate;
    outlook_climate(farm, &planned->climate, arena, &climate);
    OutlookAsk asked = {farm, &planned->small.book, &climate, small_week(week)};
    JobOutlook outlook = {0};
    assert_ok(outlook_make(&asked, arena, &outlook));
    JobsAsk ask = {.farm = farm,
                   .book = &planned->small.book,
                   .outlook = &outlook,
                   .week = small_week(week)};
    JobsWeek jobs = {0};
    assert_ok(jobs_of_week(&ask, arena, &jobs));
    return jobs;
}

static inline void planned_release(Planned *planned)
{
    small_farm_release(&planned->small);
}

#endif
