/* The linear model: fish batches, tanks, events and runs. */
#include <math.h>

#include "plan/linear_parts.h"

static const double G_IN_KG = 1e3;

/* What prefix sums of whole lanes may lack of their share: docs (6). */
static const double LANE_SLACK = 0.75;

int linear_lane_heads(int heads, int lane)
{
    return heads * (lane + 1) / PLAN_LANES - heads * lane / PLAN_LANES;
}

double linear_stock_mean_g(const PlanStock *stock, int week)
{
    double heads = 0.0;
    double grams = 0.0;
    for (int b = 0; b < PLAN_LANES; b++) {
        double alive = stock->lanes[b].share * stock->lanes[b].alive[week];
        heads += alive;
        grams += alive * stock->lanes[b].weight_g[week];
    }
    return heads > 0.0 ? grams / heads : 0.0;
}

double linear_most_heads(const Problem *problem, int stock, int tank, int week)
{
    const PlanStock *fish = &problem->stocks[stock];
    double least_kg = INFINITY;
    for (int b = 0; b < PLAN_LANES; b++) {
        const PlanLane *lane = &fish->lanes[b];
        double kg = lane->alive[week] * lane->weight_g[week] / G_IN_KG;
        least_kg = fmin(least_kg, kg);
    }
    double heads =
        least_kg > 0.0 ? problem->tanks[tank].most_kg / least_kg : INFINITY;
    return fmin(heads, fish->most);
}

/* Batches that can leave a tank together. Today's may break the rule. */
static double most_batches(const Problem *problem, int tank)
{
    double standing = 0.0;
    for (int i = 0; i < problem->stock_count; i++) {
        const PlanStock *stock = &problem->stocks[i];
        standing += stock->is_standing && stock->tank == tank;
    }
    return fmax(1.0, fmax(standing, problem->tanks[tank].most_batches));
}

double linear_event_share(const Problem *problem, int stock, int tank, int week)
{
    /* Those that leave were there in the week before, but for those of today
     * that leave at once. */
    const PlanStock *fish = &problem->stocks[stock];
    double heads = week - 1 >= fish->start_week
                       ? linear_most_heads(problem, stock, tank, week - 1)
                       : fish->most;
    return 1.0 / (most_batches(problem, tank) * fmax(heads, 1.0));
}

int linear_run_tank(const PlanRun *run, int week)
{
    return run->move_week != PLAN_NONE && week >= run->move_week ? run->to_tank
                                                                 : run->tank;
}

double linear_run_feed_frac(const Problem *problem, const PlanRun *run,
                            int week)
{
    double frac = 1.0;
    if (run->move_week == week) {
        frac *= 1.0 - problem->fish.feed_lost_frac;
    }
    if (run->sale_week == week + 1 && run->sale_week < problem->week_count) {
        frac *= 1.0 - problem->fish.purge_feed_frac;
    }
    return frac;
}

static void add_tank_rows(LinearPlan *plan, int k)
{
    const PlanTank *tank = &plan->problem->tanks[k];
    LinearModel *model = &plan->model;
    for (int t = 0; t < plan->weeks; t++) {
        int at = k * plan->weeks + t;
        plan->rows.density[at] =
            linear_model_row(model, (LinearTag){LINEAR_DENSITY, k, 0, t},
                             -INFINITY, tank->most_kg);
        plan->rows.oxygen[at] =
            linear_model_row(model, (LinearTag){LINEAR_OXYGEN, k, 0, t},
                             -INFINITY, tank->air_g_h[t]);
        plan->rows.batches[at] =
            linear_model_row(model, (LinearTag){LINEAR_BATCHES, k, 0, t},
                             -INFINITY, tank->most_batches);
        plan->rows.grade_rate[at] = linear_model_row(
            model, (LinearTag){LINEAR_GRADE_RATE, k, 0, t}, -INFINITY, 1.0);
    }
}

/* A column of a lane's fish, and the rows that bind it to the batch. */
static void add_young(LinearPlan *plan, int i)
{
    const PlanStock *stock = &plan->problem->stocks[i];
    LinearModel *model = &plan->model;
    int hours = plan->rows.hours[stock->start_week];
    LinearColumn stocked = {.tag = {LINEAR_STOCKED, i, 0, stock->start_week},
                            .upper = stock->most,
                            .gain = -stock->cost,
                            .is_integer = true};
    int heads = linear_model_column(model, &stocked);
    /* 0-1: is it stocked? Projected: heads / most for what it costs, heads /
     * least for what it allows. */
    int is_stocked = PLAN_NONE;
    plan->stock_columns[i] = heads;
    if (plan->is_exact) {
        LinearColumn flag = {.tag = {LINEAR_IS_STOCKED, i, 0, 0},
                             .upper = 1.0,
                             .is_integer = true};
        is_stocked = linear_model_column(model, &flag);
        int least = linear_model_row(model, (LinearTag){LINEAR_LEAST, i, 0, 0},
                                     0.0, INFINITY);
        int most = linear_model_row(model, (LinearTag){LINEAR_MOST, i, 0, 0},
                                    -INFINITY, 0.0);
        linear_model_entry(model, least, heads, 1.0);
        linear_model_entry(model, least, is_stocked, -stock->least);
        linear_model_entry(model, most, heads, 1.0);
        linear_model_entry(model, most, is_stocked, -stock->most);
        linear_model_entry(model, hours, is_stocked, stock->hours);
    } else {
        linear_model_entry(model, hours, heads, stock->hours / stock->most);
    }
    int lanes[PLAN_LANES];
    for (int b = 0; b < PLAN_LANES; b++) {
        LinearColumn lane = {.tag = {LINEAR_LANE, i, b, 0},
                             .upper = stock->most,
                             .is_integer = true};
        lanes[b] = linear_model_column(model, &lane);
        linear_model_entry(model, plan->rows.lanes[i * PLAN_LANES + b],
                           lanes[b], -1.0);
        double share = (b + 1.0) / PLAN_LANES;
        bool is_last = b + 1 == PLAN_LANES;
        int upper = linear_model_row(model, (LinearTag){LINEAR_MOST, i, b, 1},
                                     is_last ? 0.0 : -INFINITY, 0.0);
        int lower =
            is_last
                ? PLAN_NONE
                : linear_model_row(model, (LinearTag){LINEAR_LEAST, i, b, 1},
                                   0.0, INFINITY);
        for (int c = 0; c <= b; c++) {
            linear_model_entry(model, upper, lanes[c], 1.0);
            linear_model_entry(model, lower, lanes[c], 1.0);
        }
        linear_model_entry(model, upper, heads, -share);
        double slack = plan->is_exact ? 0.0 : LANE_SLACK / stock->least;
        linear_model_entry(model, lower, heads, slack - share);
        if (is_stocked != PLAN_NONE) {
            linear_model_entry(model, lower, is_stocked, LANE_SLACK);
        }
    }
}

static void add_lanes(LinearPlan *plan, int i)
{
    const PlanStock *stock = &plan->problem->stocks[i];
    for (int b = 0; b < PLAN_LANES; b++) {
        double heads =
            stock->is_standing ? linear_lane_heads(stock->most, b) : 0.0;
        plan->rows.lanes[i * PLAN_LANES + b] = linear_model_row(
            &plan->model, (LinearTag){LINEAR_LANE, i, b, 0}, heads, heads);
    }
    if (!stock->is_standing) {
        add_young(plan, i);
    }
}

/* Ceiling: one column of catches a week. */
static void add_catches(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    plan->rows.catching = linear_no_rows(plan, plan->weeks);
    for (int t = 0; t < plan->weeks; t++) {
        LinearColumn column = {.tag = {LINEAR_CATCH, 0, 0, t},
                               .upper = problem->tank_count};
        int catches = linear_model_column(&plan->model, &column);
        int row = linear_model_row(
            &plan->model, (LinearTag){LINEAR_CATCH, 0, 0, t}, -INFINITY, 0.0);
        linear_model_entry(&plan->model, row, catches, -1.0);
        linear_model_entry(&plan->model, plan->rows.catch_least[t], catches,
                           -linear_most_fish_sold(problem, t));
        linear_model_entry(&plan->model, plan->rows.hours[t], catches,
                           problem->fish.catch_hours);
        plan->rows.catching[t] = row;
    }
}

void linear_add_fish(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    int count = problem->tank_count * plan->weeks;
    plan->rows.density = linear_no_rows(plan, count);
    plan->rows.oxygen = linear_no_rows(plan, count);
    plan->rows.batches = linear_no_rows(plan, count);
    plan->rows.grade_rate = linear_no_rows(plan, count);
    for (int k = 0; k < problem->tank_count; k++) {
        add_tank_rows(plan, k);
    }
    plan->stock_columns = linear_no_rows(plan, problem->stock_count);
    plan->rows.lanes = linear_no_rows(plan, problem->stock_count * PLAN_LANES);
    for (int i = 0; i < problem->stock_count; i++) {
        add_lanes(plan, i);
    }
    if (!plan->is_exact && problem->stock_count > 0) {
        add_catches(plan);
    }
}

/* Feed, oxygen, ammonia, kilos and heads of a run in one week. */
static void add_run_week(LinearPlan *plan, const PlanRun *run, int column,
                         int t)
{
    const Problem *problem = plan->problem;
    const PlanLane *lane = &problem->stocks[run->stock].lanes[run->lane];
    LinearModel *model = &plan->model;
    const LinearRows *rows = &plan->rows;
    int k = linear_run_tank(run, t);
    int at = k * plan->weeks + t;
    linear_model_entry(model, rows->density[at], column,
                       lane->alive[t] * lane->weight_g[t] / G_IN_KG);
    linear_model_entry(model, rows->oxygen[at], column, lane->oxygen_g_h[t]);
    if (plan->is_exact) {
        int heads = run->stock * problem->tank_count + k;
        linear_model_entry(model, rows->heads[heads * plan->weeks + t], column,
                           1.0);
    } else {
        linear_model_entry(model, rows->batches[at], column,
                           1.0 / linear_most_heads(problem, run->stock, k, t));
    }
    int loop = problem->tanks[k].loop;
    if (loop == PLAN_NONE) {
        return;
    }
    at = loop * plan->weeks + t;
    linear_model_entry(model, rows->nitrify[at], column, lane->tan_g_d[t]);
    double feed = lane->feed_kg[t] * linear_run_feed_frac(problem, run, t) *
                  (1.0 - problem->loops[loop].lost_frac[t]);
    linear_model_entry(model, rows->pool[at], column, -feed);
}

static void add_run_move(LinearPlan *plan, const PlanRun *run, int column)
{
    const Problem *problem = plan->problem;
    int t = run->move_week;
    int at = run->tank * plan->weeks + t;
    double share = linear_event_share(problem, run->stock, run->tank, t);
    if (plan->is_exact) {
        linear_model_entry(&plan->model, plan->rows.grading[at], column, share);
        return;
    }
    linear_model_entry(&plan->model, plan->rows.hours[t], column,
                       share * problem->fish.grade_hours);
    for (int i = 0; i < problem->fish.weeks_between && i <= t; i++) {
        linear_model_entry(&plan->model, plan->rows.grade_rate[at - i], column,
                           share);
    }
}

static void add_run_sale(LinearPlan *plan, const PlanRun *run, int column)
{
    const Problem *problem = plan->problem;
    int t = run->sale_week;
    const PlanLane *lane = &problem->stocks[run->stock].lanes[run->lane];
    int goods = run->goods * plan->weeks + t;
    linear_model_entry(&plan->model, plan->rows.goods[goods], column,
                       -lane->alive[t]);
    linear_model_entry(&plan->model, plan->rows.promise[goods], column,
                       -lane->alive[t]);
    int k = linear_run_tank(run, t - 1);
    double share = linear_event_share(problem, run->stock, k, t);
    int row = plan->is_exact ? plan->rows.catching[k * plan->weeks + t]
                             : plan->rows.catching[t];
    linear_model_entry(&plan->model, row, column, share);
}

static void add_run_cliques(LinearPlan *plan, const PlanRun *run, int column)
{
    for (int c = 0; c < plan->clique_count; c++) {
        const LinearClique *clique = &plan->cliques[c];
        int t = clique->week;
        bool is_there = t >= plan->problem->stocks[run->stock].start_week &&
                        t < run->sale_week &&
                        linear_run_tank(run, t) == clique->tank;
        for (int j = 0; j < clique->count && is_there; j++) {
            if (clique->stocks[j] == run->stock) {
                linear_model_entry(&plan->model, clique->row, column,
                                   1.0 / linear_most_heads(plan->problem,
                                                           run->stock,
                                                           clique->tank, t));
            }
        }
    }
}

void linear_add_run(LinearPlan *plan, const PlanRun *run)
{
    const Problem *problem = plan->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanLane *lane = &stock->lanes[run->lane];
    int last = plan->weeks - 1;
    double most = ceil(stock->most / (double)PLAN_LANES);
    LinearColumn count = {.tag = {LINEAR_RUN, plan->run_count, 0, 0},
                          .upper = plan->is_exact ? most : INFINITY,
                          .is_integer = true};
    if (run->sale_week < plan->weeks) {
        count.gain = -lane->alive[run->sale_week] * problem->fish.unsold_price;
    } else {
        count.gain = lane->alive[last] * lane->weight_g[last] / G_IN_KG *
                     problem->fish.end_price_kg;
    }
    for (int t = stock->start_week; t < run->sale_week; t++) {
        count.gain -= problem->fish.feed_price_kg * lane->feed_kg[t] *
                      linear_run_feed_frac(problem, run, t);
    }
    int column = linear_model_column(&plan->model, &count);
    linear_model_entry(&plan->model,
                       plan->rows.lanes[run->stock * PLAN_LANES + run->lane],
                       column, 1.0);
    for (int t = stock->start_week; t < run->sale_week; t++) {
        add_run_week(plan, run, column, t);
    }
    if (run->move_week != PLAN_NONE) {
        add_run_move(plan, run, column);
    }
    if (run->sale_week < plan->weeks) {
        add_run_sale(plan, run, column);
    }
    add_run_cliques(plan, run, column);
    if (plan->run_count == plan->run_room) {
        int more = plan->run_room == 0 ? 1024 : 2 * plan->run_room;
        plan->runs =
            arena_grow(plan->arena, plan->runs, (size_t)plan->run_count,
                       (size_t)more, sizeof *plan->runs);
        plan->run_columns =
            arena_grow(plan->arena, plan->run_columns, (size_t)plan->run_count,
                       (size_t)more, sizeof *plan->run_columns);
        plan->run_room = more;
    }
    plan->runs[plan->run_count] = *run;
    plan->run_columns[plan->run_count++] = column;
}
