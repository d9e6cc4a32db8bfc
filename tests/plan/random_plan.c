/* Plans for tests. */
#include "random_plan.h"

#include "check.h"

#include "plan/evaluate.h"
#include "plan/generate.h"
#include "plan/verify.h"

enum { ROUTE_TRIES = 4000 };

static int broken(const Problem *problem, const PlanSolution *plan)
{
    CLEANUP(arena_release) Arena scratch = {0};
    VerifyReport report;
    plan_verify_choices(problem, plan, &scratch, &report);
    return report.count;
}

static int below(Rng *rng, int limit)
{
    return (int)rng_below(rng, (uint32_t)limit);
}

/* A route with random weeks; a size that fits. */
static PlanRun random_run(const Problem *problem, Rng *rng, int stock, int lane)
{
    const PlanStock *fish = &problem->stocks[stock];
    int weeks = problem->week_count - fish->start_week;
    int tank = fish->is_standing ? fish->tank : below(rng, problem->tank_count);
    PlanRun run = {.stock = stock,
                   .lane = lane,
                   .tank = tank,
                   .move_week = PLAN_NONE,
                   .to_tank = tank,
                   .sale_week = problem->week_count,
                   .goods = PLAN_NONE};
    if (below(rng, 2) == 0 && problem->tank_count > 1) {
        run.move_week = fish->start_week + below(rng, weeks);
        run.to_tank = (tank + 1 + below(rng, problem->tank_count - 1)) %
                      problem->tank_count;
    }
    if (below(rng, 3) > 0) {
        run.sale_week = fish->start_week + 1 + below(rng, weeks - 1);
        for (int f = 0; f < problem->goods_count; f++) {
            double grams = fish->lanes[lane].weight_g[run.sale_week] *
                           (1.0 - problem->fish.purge_loss_frac);
            if (problem->goods[f].is_fish &&
                grams >= problem->goods[f].over_g) {
                run.goods = run.goods == PLAN_NONE ? f : run.goods;
            }
        }
        run.sale_week =
            run.goods == PLAN_NONE ? problem->week_count : run.sale_week;
    }
    if (run.move_week >= run.sale_week) {
        run.move_week = PLAN_NONE;
        run.to_tank = run.tank;
    }
    return run;
}

/* Random runs for heads of a stock, in place of the last four. */
static void draw_stock(const Problem *problem, Rng *rng, int stock, int heads,
                       PlanSolution *plan)
{
    for (int b = 0; b < PLAN_LANES; b++) {
        PlanRun run = random_run(problem, rng, stock, b);
        run.count = heads * (b + 1) / PLAN_LANES - heads * b / PLAN_LANES;
        plan->runs[plan->run_count++] = run;
    }
}

static void add_fish(const Problem *problem, Rng *rng, PlanSolution *plan)
{
    for (int i = 0; i < problem->stock_count; i++) {
        const PlanStock *stock = &problem->stocks[i];
        int before = plan->run_count;
        int limit = broken(problem, plan);
        int tries = 0;
        bool fits = false;
        while (!fits && tries++ < ROUTE_TRIES) {
            int span = stock->most - stock->least + 1;
            plan->run_count = before;
            draw_stock(problem, rng, i, stock->least + below(rng, span), plan);
            int now = broken(problem, plan);
            /* Without routes the count and each lane are told missing. */
            fits = stock->is_standing ? now == limit - 1 - PLAN_LANES
                                      : now <= limit;
        }
        plan->run_count = fits ? plan->run_count : before;
    }
}

static void add_cleanings(const Problem *problem, Rng *rng, PlanSolution *plan)
{
    for (int b = 0; b < problem->bed_count; b++) {
        const PlanBed *bed = &problem->beds[b];
        int limit = broken(problem, plan);
        int tries = 0;
        while (bed->clean_by != PLAN_NONE && tries++ < ROUTE_TRIES) {
            plan->cleanings[plan->cleaning_count++] =
                (PlanCleaning){b, below(rng, bed->clean_by + 1)};
            if (broken(problem, plan) < limit) {
                break;
            }
            plan->cleaning_count--;
        }
    }
}

void random_plan(const Problem *problem, Rng *rng, int tries, Arena *arena,
                 PlanSolution *out)
{
    int runs = problem->stock_count * PLAN_LANES;
    *out = (PlanSolution){
        .placements = ARENA_ARRAY(arena, PlanPlacement, tries),
        .runs = ARENA_ARRAY(arena, PlanRun, runs),
        .cleanings = ARENA_ARRAY(arena, PlanCleaning, problem->bed_count)};
    add_cleanings(problem, rng, out);
    add_fish(problem, rng, out);
    assert_int_equal(broken(problem, out), 0);
    for (int i = 0; i < tries; i++) {
        int bed = below(rng, problem->bed_count);
        int first = below(rng, problem->beds[bed].sections);
        out->placements[out->placement_count++] =
            (PlanPlacement){.option = below(rng, problem->option_count),
                            .bed = bed,
                            .first_section = first,
                            .units = 1 + below(rng, 3)};
        if (broken(problem, out) > 0) {
            out->placement_count--;
        }
    }
    assert_ok(plan_evaluate(problem, out, arena, &out->outcome));
}

void random_plan_of(uint64_t seed, Arena *arena, Problem *out_problem,
                    PlanSolution *out_plan)
{
    GenerateCase farm = generate_tiny_case(seed);
    Rng rng = rng_make(seed, 1);
    generate_problem(arena, &farm, out_problem);
    random_plan(out_problem, &rng, 150, arena, out_plan);
    assert_true(out_plan->placement_count > 0);
}
