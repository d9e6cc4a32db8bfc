/* The ceiling: rounds of the relaxation, routes priced in between. */
#include "plan/linear.h"

#include <math.h>

#include "plan/linear_cliques.h"
#include "plan/linear_lazy.h"
#include "plan/linear_routes.h"
#include "plan/linear_work.h"

static const struct {
    int first_step;    /* weeks between the first routes */
    double gone_price; /* of a standing fish without any route */
    int most_rounds;
    double least_count; /* of a run that is told */
} ROUNDS = {26, 1000.0, 400, 1e-7};

static void work_release(LinearWork *work)
{
    linear_solver_close(&work->solver);
}

static void add_found(void *self, const PricedRun *found)
{
    linear_add_run(self, &found->run);
}

/* Fish with no route: dear, so that a first solve always finds a plan. */
static void add_gone(LinearWork *work)
{
    LinearPlan *plan = &work->plan;
    work->first_gone = plan->model.column_count;
    for (int i = 0; i < plan->problem->stock_count; i++) {
        if (!plan->problem->stocks[i].is_standing) {
            continue;
        }
        for (int b = 0; b < PLAN_LANES; b++) {
            LinearColumn gone = {.tag = {LINEAR_GONE, i, b, 0},
                                 .upper = INFINITY,
                                 .gain = -ROUNDS.gone_price};
            int column = linear_model_column(&plan->model, &gone);
            linear_model_entry(&plan->model,
                               plan->rows.lanes[i * PLAN_LANES + b], column,
                               1.0);
        }
    }
    work->gone_count = plan->model.column_count - work->first_gone;
}

/* The options of a plan. */
static const bool *options_of(const Problem *problem, const PlanSolution *from,
                              Arena *arena)
{
    bool *is_in = ARENA_ARRAY(arena, bool, problem->option_count);
    for (int i = 0; i < from->placement_count; i++) {
        is_in[from->placements[i].option] = true;
    }
    return is_in;
}

/* The routes of a plan, each once. */
static void add_routes_of(LinearPlan *plan, const PlanSolution *from)
{
    for (int i = 0; i < from->run_count; i++) {
        int j = 0;
        while (j < plan->run_count &&
               !linear_is_same_route(&plan->runs[j], &from->runs[i])) {
            j++;
        }
        if (j == plan->run_count) {
            linear_add_run(plan, &from->runs[i]);
        }
    }
}

static void build(LinearWork *work, Arena *arena, const Problem *problem,
                  const PlanSolution *from)
{
    LinearPlan *plan = &work->plan;
    linear_plan_init(plan, arena, problem, false);
    plan->first_options = from ? options_of(problem, from, arena) : NULL;
    linear_add_hours(plan);
    linear_add_sales(plan);
    linear_add_pools(plan);
    linear_add_plants(plan);
    linear_add_fish(plan);
    add_gone(work);
    if (from) {
        add_routes_of(plan, from);
    } else {
        linear_first_routes(plan, ROUNDS.first_step, plan, add_found);
    }
}

/* Takes over what the solution breaks until it breaks nothing. */
static Err mend(LinearWork *work)
{
    while (linear_add_broken(&work->plan, &work->solver) > 0) {
        TRY(linear_solver_dual(&work->solver));
    }
    return ERR_NONE;
}

/* One round: routes, or, when there are none, fish that may not meet. */
static Err round_of(LinearWork *work, bool *is_done)
{
    bool is_priced = false;
    TRY(mend(work));
    TRY(linear_price_in(work, &is_priced));
    *is_done = false;
    if (!is_priced) {
        return ERR_NONE;
    }
    const double *x = linear_solver_columns(&work->solver);
    if (linear_add_cliques(&work->plan, x) == 0) {
        *is_done = true;
        return ERR_NONE;
    }
    (void)linear_add_broken(&work->plan, &work->solver);
    return linear_solver_dual(&work->solver);
}

static bool ask_watch(void *self)
{
    const LinearWork *work = self;
    const LinearWatch *watch = work->watch;
    return watch->go_on(watch->self, work->value,
                        fmax(work->value, work->ceiling));
}

static Err solve(LinearWork *work, const LinearWatch *watch)
{
    CLEANUP(arena_release) Arena scratch = {0};
    if (watch) {
        work->watch = watch;
        work->solver.go_on = ask_watch;
        work->solver.go_on_self = work;
    }
    linear_solver_load_some(&work->solver, &work->plan.model,
                            linear_waiting(&work->plan, &scratch));
    work->columns_seen = work->plan.model.column_count;
    TRY(linear_solver_dual(&work->solver));
    bool is_done = false;
    while (!is_done) {
        if (++work->rounds > ROUNDS.most_rounds) {
            return err_make(ERR_LIMIT, "routes did not end in %d rounds",
                            ROUNDS.most_rounds);
        }
        TRY(round_of(work, &is_done));
        work->value = linear_solver_value(&work->solver);
        if (watch && !ask_watch(work)) {
            return err_make(ERR_STOPPED, "stopped");
        }
    }
    const double *x = linear_solver_columns(&work->solver);
    for (int j = 0; j < work->gone_count; j++) {
        LinearTag tag = work->plan.model.columns[work->first_gone + j].tag;
        if (x[work->first_gone + j] > ROUNDS.least_count) {
            return err_make(ERR_CONFLICT,
                            "no plan keeps all limits: %.0f fish of %s have "
                            "nowhere to go",
                            ceil(x[work->first_gone + j]),
                            work->plan.problem->stocks[tag.a].id);
        }
    }
    return ERR_NONE;
}

/* Prices of one kind of row, by what it is of and week; absent rows cost
 * nothing. */
static double *prices_of(const LinearWork *work, Arena *arena, const int *rows,
                         int count)
{
    double *out = ARENA_ARRAY(arena, double, count);
    for (int i = 0; i < count; i++) {
        double price = rows[i] == PLAN_NONE ? 0.0 : work->prices[rows[i]];
        out[i] = fmax(0.0, price);
    }
    return out;
}

static void fill_prices(LinearWork *work, Arena *arena, LinearPrices *out)
{
    const Problem *problem = work->plan.problem;
    const LinearRows *rows = &work->plan.rows;
    int weeks = work->plan.weeks;
    int kinds = problem->kind_count * weeks;
    int loops = problem->loop_count * weeks;
    int tanks = problem->tank_count * weeks;
    int goods = problem->goods_count * weeks;
    linear_fresh_prices(work);
    out->section = prices_of(work, arena, rows->floor, kinds);
    out->edge_m = prices_of(work, arena, rows->edge, kinds);
    out->sun = prices_of(work, arena, rows->shade, kinds);
    out->trays = prices_of(work, arena, rows->nursery, weeks);
    out->hours = prices_of(work, arena, rows->hours, weeks);
    out->feed_kg = prices_of(work, arena, rows->pool, loops);
    out->nitrify_g_d = prices_of(work, arena, rows->nitrify, loops);
    out->fish_kg = prices_of(work, arena, rows->density, tanks);
    out->air_g_h = prices_of(work, arena, rows->oxygen, tanks);
    out->goods = prices_of(work, arena, rows->goods, goods);
    out->counted_on = prices_of(work, arena, rows->promise, goods);
    /* The price of fish has in it what catching them without a buyer costs. */
    for (int i = 0; i < goods; i++) {
        double more = problem->goods[i / weeks].is_fish
                          ? problem->fish.unsold_price
                          : 0.0;
        out->goods[i] = fmax(0.0, out->goods[i] - more);
    }
    /* A section of floor is also one for what wants sun. */
    for (int i = 0; i < kinds; i++) {
        out->section[i] += out->sun[i];
    }
}

static void fill_runs(const LinearWork *work, Arena *arena, const double *x,
                      LinearCeiling *out)
{
    const LinearPlan *plan = &work->plan;
    out->runs = ARENA_ARRAY(arena, LinearRun, plan->run_count);
    out->routes = ARENA_ARRAY(arena, PlanRun, plan->run_count);
    for (int i = 0; i < plan->run_count; i++) {
        double count = x[plan->run_columns[i]];
        if (linear_solver_has_column(&work->solver, plan->run_columns[i])) {
            out->routes[out->route_count++] = plan->runs[i];
        }
        if (count > ROUNDS.least_count) {
            LinearRun *run = &out->runs[out->run_count++];
            *run = (LinearRun){plan->runs[i], count};
            run->run.count = (int)floor(count + 0.5);
        }
    }
}

static void fill(LinearWork *work, Arena *arena, LinearCeiling *out)
{
    const LinearPlan *plan = &work->plan;
    const Problem *problem = plan->problem;
    const double *x = linear_solver_columns(&work->solver);
    *out = (LinearCeiling){
        .value = work->ceiling,
        .units = ARENA_ARRAY(arena, double, problem->option_count),
        .cleans = ARENA_ARRAY(arena, double, problem->kind_count * plan->weeks),
        .stocked = ARENA_ARRAY(arena, double, problem->stock_count),
        .row_count = plan->model.row_count,
        .column_count = plan->model.column_count,
        .round_count = work->rounds,
        .step_count = work->solver.steps};
    for (int j = 0; j < plan->model.column_count; j++) {
        LinearTag tag = plan->model.columns[j].tag;
        if (tag.part == LINEAR_UNITS) {
            out->units[tag.a] = x[j];
        } else if (tag.part == LINEAR_CLEAN) {
            out->cleans[tag.a * plan->weeks + tag.week] = x[j];
        } else if (tag.part == LINEAR_STOCKED) {
            out->stocked[tag.a] = x[j];
        }
    }
    for (int i = 0; i < problem->stock_count; i++) {
        const PlanStock *stock = &problem->stocks[i];
        out->stocked[i] = stock->is_standing ? stock->most : out->stocked[i];
    }
    fill_runs(work, arena, x, out);
    fill_prices(work, arena, &out->prices);
}

Err linear_ceiling(const Problem *problem, const PlanSolution *from,
                   const LinearWatch *watch, Arena *arena, LinearCeiling *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    CLEANUP(work_release) LinearWork work = {0};
    work.ceiling = INFINITY;
    build(&work, &scratch, problem, from);
    TRY(solve(&work, watch));
    fill(&work, arena, out);
    return ERR_NONE;
}
