/* What a plan brings: its flows by adding up, its sales by CLP. */
#include "plan/evaluate.h"

#include <math.h>

#include "plan/linear_parts.h"
#include "plan/linear_solver.h"

static const double G_IN_KG = 1e3;

/* What sums of doubles leave where every fish has a buyer. */
static const double DUST_MONEY = 1e-6;

typedef struct Evaluation {
    const Problem *problem;
    int weeks;
    double *low; /* [goods][week] yield that can be counted on, and fish */
    PlanOutcome *out;
} Evaluation;

static void new_outcome(const Problem *problem, Arena *arena, PlanOutcome *out)
{
    int weeks = problem->week_count;
    int parts = 0;
    for (int p = 0; p < problem->product_count; p++) {
        parts += problem->products[p].part_count;
    }
    *out = (PlanOutcome){
        .kept = ARENA_ARRAY(arena, double, problem->order_count *weeks),
        .sold = ARENA_ARRAY(arena, double, problem->outlet_count *weeks),
        .made = ARENA_ARRAY(arena, double, problem->goods_count *weeks),
        .store = ARENA_ARRAY(arena, double, problem->goods_count *weeks),
        .part_firm = ARENA_ARRAY(arena, double, parts *weeks),
        .part_rest = ARENA_ARRAY(arena, double, parts *weeks),
        .hours = ARENA_ARRAY(arena, double, weeks),
        .extra_h = ARENA_ARRAY(arena, double, weeks),
        .pool_kg = ARENA_ARRAY(arena, double, problem->loop_count *weeks),
        .short_kg = ARENA_ARRAY(arena, double, problem->loop_count *weeks),
        .given_kg = ARENA_ARRAY(arena, double, problem->loop_count *weeks),
        .want_kg = ARENA_ARRAY(arena, double, problem->loop_count *weeks)};
}

static void add_units(Evaluation *work, int number, int units)
{
    const PlanOption *option = &work->problem->options[number];
    int loop = work->problem->kinds[option->kind].loop;
    PlanOutcome *out = work->out;
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t < 0 || t >= work->weeks) {
            continue;
        }
        out->hours[t] += units * option->hours[i];
        if (loop != PLAN_NONE) {
            out->want_kg[loop * work->weeks + t] += units * option->want_kg[i];
        }
        out->made[option->goods * work->weeks + t] += units * option->mean[i];
        work->low[option->goods * work->weeks + t] += units * option->low[i];
    }
}

static void add_run(Evaluation *work, const PlanRun *run)
{
    const Problem *problem = work->problem;
    const PlanStock *stock = &problem->stocks[run->stock];
    const PlanLane *lane = &stock->lanes[run->lane];
    for (int t = stock->start_week; t < run->sale_week; t++) {
        int loop = problem->tanks[linear_run_tank(run, t)].loop;
        double feed_kg = run->count * lane->feed_kg[t] *
                         linear_run_feed_frac(problem, run, t);
        work->out->fish_cost += problem->fish.feed_price_kg * feed_kg;
        if (loop != PLAN_NONE) {
            work->out->given_kg[loop * work->weeks + t] += feed_kg;
        }
    }
    if (!stock->is_standing) {
        work->out->fish_cost += run->count * stock->cost;
    }
    if (run->sale_week < work->weeks) {
        int at = run->goods * work->weeks + run->sale_week;
        work->out->made[at] += run->count * lane->alive[run->sale_week];
        work->low[at] += run->count * lane->alive[run->sale_week];
        work->out->unsold_cost += run->count * lane->alive[run->sale_week] *
                                  problem->fish.unsold_price;
        return;
    }
    int last = work->weeks - 1;
    work->out->end_fish += run->count * lane->alive[last] *
                           lane->weight_g[last] / G_IN_KG *
                           problem->fish.end_price_kg;
}

/* Hours of gradings and catches, each once a tank and week, and of stockings,
 * each once. */
static void add_events(Evaluation *work, const PlanSolution *solution,
                       Arena *scratch)
{
    const Problem *problem = work->problem;
    int places = problem->tank_count * work->weeks;
    bool *graded = ARENA_ARRAY(scratch, bool, places);
    bool *caught = ARENA_ARRAY(scratch, bool, places);
    bool *stocked = ARENA_ARRAY(scratch, bool, problem->stock_count);
    for (int i = 0; i < solution->run_count; i++) {
        const PlanRun *run = &solution->runs[i];
        if (run->count <= 0) {
            continue;
        }
        if (run->move_week != PLAN_NONE) {
            graded[run->tank * work->weeks + run->move_week] = true;
        }
        if (run->sale_week < work->weeks) {
            int k = linear_run_tank(run, run->sale_week - 1);
            caught[k * work->weeks + run->sale_week] = true;
        }
        stocked[run->stock] |= !problem->stocks[run->stock].is_standing;
    }
    for (int i = 0; i < places; i++) {
        work->out->hours[i % work->weeks] +=
            graded[i] * problem->fish.grade_hours +
            caught[i] * problem->fish.catch_hours;
    }
    for (int i = 0; i < problem->stock_count; i++) {
        const PlanStock *stock = &problem->stocks[i];
        work->out->hours[stock->start_week] += stocked[i] * stock->hours;
    }
}

static void add_choices(Evaluation *work, const PlanSolution *solution,
                        Arena *scratch)
{
    const Problem *problem = work->problem;
    for (int t = 0; t < work->weeks; t++) {
        work->out->hours[t] = problem->hours_fixed[t];
    }
    for (int i = 0; i < problem->standing_count; i++) {
        add_units(work, problem->standing[i].option,
                  problem->standing[i].units);
    }
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *placement = &solution->placements[i];
        add_units(work, placement->option, placement->units);
        work->out->plant_cost +=
            placement->units * problem->options[placement->option].cost;
    }
    for (int i = 0; i < solution->cleaning_count; i++) {
        int kind = problem->beds[solution->cleanings[i].bed].kind;
        work->out->hours[solution->cleanings[i].week] +=
            problem->clean_hours[kind];
    }
    for (int i = 0; i < solution->run_count; i++) {
        add_run(work, &solution->runs[i]);
    }
    add_events(work, solution, scratch);
}

/* pool = keep pool + given (1 - lost) - want, short below 0, over above the
 * most: docs/planning.md (11). */
static void add_feed(Evaluation *work)
{
    const Problem *problem = work->problem;
    PlanOutcome *out = work->out;
    for (int l = 0; l < problem->loop_count; l++) {
        const PlanLoop *loop = &problem->loops[l];
        double pool = loop->pool_start_kg;
        for (int t = 0; t < work->weeks; t++) {
            int at = l * work->weeks + t;
            double left = loop->pool_keep * pool +
                          out->given_kg[at] * (1.0 - loop->lost_frac[t]) -
                          out->want_kg[at];
            out->short_kg[at] = fmax(0.0, -left);
            pool = fmin(loop->pool_max_kg, fmax(0.0, left));
            out->pool_kg[at] = pool;
            out->short_cost += loop->short_price * out->short_kg[at];
        }
    }
    for (int t = 0; t < work->weeks; t++) {
        out->extra_h[t] = fmax(0.0, out->hours[t] - problem->hours_paid[t]);
        out->extra_wages += problem->wage_extra_h * out->extra_h[t];
    }
}

/* What each column of the sales says, into the outcome. */
static void read_columns(Evaluation *work, const LinearPlan *plan,
                         const double *x)
{
    PlanOutcome *out = work->out;
    for (int j = 0; j < plan->model.column_count; j++) {
        LinearTag tag = plan->model.columns[j].tag;
        int at = tag.a * work->weeks + tag.week;
        double value = fmin(fmax(x[j], 0.0), plan->model.columns[j].upper);
        if (tag.part == LINEAR_KEPT) {
            out->kept[at] = value;
        } else if (tag.part == LINEAR_SOLD) {
            out->sold[at] = value;
        } else if (tag.part == LINEAR_STORE) {
            out->store[at] = value;
        } else if (tag.part == LINEAR_PART) {
            (tag.b == 1 ? out->part_firm : out->part_rest)[at] = value;
        }
    }
}

/* Parts of fixed mixes follow from what is made of the product. */
static void fill_fixed_parts(Evaluation *work, Arena *scratch)
{
    const Problem *problem = work->problem;
    int weeks = work->weeks;
    int made_count = problem->product_count * weeks;
    double *firm = ARENA_ARRAY(scratch, double, made_count);
    double *rest = ARENA_ARRAY(scratch, double, made_count);
    for (int i = 0; i < problem->order_count * weeks; i++) {
        const PlanOrder *order = &problem->orders[i / weeks];
        double *made = order->is_firm ? firm : rest;
        made[order->product * weeks + i % weeks] += work->out->kept[i];
    }
    for (int i = 0; i < problem->outlet_count * weeks; i++) {
        int product = problem->outlets[i / weeks].product;
        rest[product * weeks + i % weeks] += work->out->sold[i];
    }
    int part = 0;
    for (int p = 0; p < problem->product_count; p++) {
        const PlanProduct *product = &problem->products[p];
        bool is_fixed = linear_is_fixed_mix(product);
        for (int i = 0; i < product->part_count * weeks && is_fixed; i++) {
            double units = product->parts[i / weeks].units;
            int at = p * weeks + i % weeks;
            work->out->part_firm[part * weeks + i] = units * firm[at];
            work->out->part_rest[part * weeks + i] = units * rest[at];
        }
        part += product->part_count;
    }
}

/* What fish that this much of a product takes would cost without a buyer. */
static double with_buyer(const Problem *problem, int product, double units)
{
    return units * problem->fish.unsold_price *
           plan_fish_units(&problem->products[product], problem->goods);
}

static void add_money(Evaluation *work)
{
    const Problem *problem = work->problem;
    PlanOutcome *out = work->out;
    for (int i = 0; i < problem->order_count * work->weeks; i++) {
        const PlanOrder *order = &problem->orders[i / work->weeks];
        int t = i % work->weeks;
        out->sales += order->price[t] * out->kept[i];
        out->missed += order->miss * (order->wanted[t] - out->kept[i]);
        out->unsold_cost -= with_buyer(problem, order->product, out->kept[i]);
    }
    for (int i = 0; i < problem->outlet_count * work->weeks; i++) {
        const PlanOutlet *outlet = &problem->outlets[i / work->weeks];
        out->sales += outlet->price[i % work->weeks] * out->sold[i];
        out->unsold_cost -= with_buyer(problem, outlet->product, out->sold[i]);
    }
    if (fabs(out->unsold_cost) < DUST_MONEY) {
        out->unsold_cost = 0.0;
    }
    out->value = out->sales - out->missed - out->plant_cost - out->fish_cost -
                 out->unsold_cost - out->extra_wages - out->short_cost +
                 out->end_fish;
}

static void solver_release(LinearSolver *solver)
{
    linear_solver_close(solver);
}

static Err solve_sales(Evaluation *work, Arena *scratch)
{
    LinearPlan plan;
    CLEANUP(solver_release) LinearSolver solver = {0};
    linear_plan_init(&plan, scratch, work->problem, true);
    linear_add_sales(&plan);
    int count = work->problem->goods_count * work->weeks;
    for (int i = 0; i < count; i++) {
        linear_model_fixed(&plan.model, plan.rows.goods[i],
                           -work->out->made[i]);
        linear_model_fixed(&plan.model, plan.rows.promise[i], -work->low[i]);
    }
    /* Catches are chosen already. */
    for (int t = 0; t < work->weeks; t++) {
        if (plan.rows.catch_least[t] != PLAN_NONE) {
            plan.model.rows[plan.rows.catch_least[t]].upper = INFINITY;
        }
    }
    linear_solver_load(&solver, &plan.model);
    TRY(linear_solver_dual(&solver));
    read_columns(work, &plan, linear_solver_columns(&solver));
    return ERR_NONE;
}

Err plan_evaluate(const Problem *problem, const PlanSolution *solution,
                  Arena *arena, PlanOutcome *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    int weeks = problem->week_count;
    PlanOutcome outcome;
    new_outcome(problem, arena, &outcome);
    Evaluation work = {
        .problem = problem,
        .weeks = weeks,
        .low = ARENA_ARRAY(&scratch, double, problem->goods_count *weeks),
        .out = &outcome};
    add_choices(&work, solution, &scratch);
    add_feed(&work);
    TRY(solve_sales(&work, &scratch));
    fill_fixed_parts(&work, &scratch);
    add_money(&work);
    *out = outcome;
    return ERR_NONE;
}
