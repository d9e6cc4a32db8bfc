/* The ceiling's pricing: which options and routes would earn at the prices of
 * a round, and which of the idle columns may go. */
#include "plan/linear_work.h"

#include <math.h>
#include <stdlib.h>

#include "plan/linear_routes.h"

static const struct {
    double least_profit; /* of a column that is priced in */
    double close_frac;   /* of the value: a gap that is not worth a round */
    double kept_idle;    /* a row: columns at 0 that stay, the best of them */
    int drop_rounds;     /* later ones drop none, so that they end */
} PRICING = {1e-6, 2e-4, 0.25, 60};

const double *linear_fresh_prices(LinearWork *work)
{
    int rows = work->plan.model.row_count;
    if (rows > work->prices_room) {
        work->prices = ARENA_ARRAY(work->plan.arena, double, 2 * rows);
        work->prices_room = 2 * rows;
    }
    linear_solver_prices(&work->solver, work->prices);
    return work->prices;
}

/* Columns of the model that the solver has dropped and is to take back. */
typedef struct ColumnList {
    int *columns;
    int count;
} ColumnList;

/* Routes that earn: new ones to the model, known ones back to the solver. */
typedef struct RouteFinds {
    LinearWork *work;
    ColumnList *back;
    int *last;   /* by stock and lane: its last run before this round */
    int *before; /* by run: the one before it in its lane */
} RouteFinds;

static void link_runs(RouteFinds *finds, Arena *arena)
{
    const LinearPlan *plan = &finds->work->plan;
    int lanes = plan->problem->stock_count * PLAN_LANES;
    finds->last = ARENA_ARRAY(arena, int, lanes);
    finds->before = ARENA_ARRAY(arena, int, plan->run_count);
    for (int i = 0; i < lanes; i++) {
        finds->last[i] = PLAN_NONE;
    }
    for (int i = 0; i < plan->run_count; i++) {
        int lane = plan->runs[i].stock * PLAN_LANES + plan->runs[i].lane;
        finds->before[i] = finds->last[lane];
        finds->last[lane] = i;
    }
}

static void take_found(void *self, const PricedRun *found)
{
    const RouteFinds *finds = self;
    LinearWork *work = finds->work;
    LinearPlan *plan = &work->plan;
    int i = finds->last[found->run.stock * PLAN_LANES + found->run.lane];
    while (i != PLAN_NONE &&
           !linear_is_same_route(&plan->runs[i], &found->run)) {
        i = finds->before[i];
    }
    if (i == PLAN_NONE) {
        linear_add_run(plan, &found->run);
    } else if (plan->run_columns[i] < work->columns_seen &&
               !linear_solver_has_column(&work->solver, plan->run_columns[i])) {
        finds->back->columns[finds->back->count++] = plan->run_columns[i];
    }
}

static bool is_in(const LinearWork *work, int option)
{
    int column = work->plan.unit_columns[option];
    return column != PLAN_NONE &&
           linear_solver_has_column(&work->solver, column);
}

/* Adds the options that would earn at present prices to the model, or, where
 * they were there, to the list; returns the most that they can add to the
 * value. */
static double price_options(LinearWork *work, const double *prices,
                            ColumnList *back)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan *plan = &work->plan;
    const Problem *problem = plan->problem;
    double *profits = ARENA_ARRAY(&scratch, double, problem->option_count);
    /* Alike are options of one way in one bed kind. */
    double *best =
        ARENA_ARRAY(&scratch, double, problem->way_count * problem->kind_count);
    double above = 0.0;
    for (int r = 0; r < problem->option_count; r++) {
        const PlanOption *option = &problem->options[r];
        if (option->is_standing || is_in(work, r)) {
            continue;
        }
        double most = 0.0;
        profits[r] = linear_option_profit(plan, r, prices, &most);
        above += fmax(0.0, profits[r]) * most;
        int alike = option->way * problem->kind_count + option->kind;
        best[alike] = fmax(best[alike], profits[r]);
    }
    for (int r = 0; r < problem->option_count; r++) {
        const PlanOption *option = &problem->options[r];
        int alike = option->way * problem->kind_count + option->kind;
        if (profits[r] > PRICING.least_profit &&
            profits[r] >= LINEAR_GOOD_SHARE * best[alike]) {
            if (plan->unit_columns[r] == PLAN_NONE) {
                linear_add_option(plan, r);
            } else if (plan->unit_columns[r] < work->columns_seen) {
                back->columns[back->count++] = plan->unit_columns[r];
            }
        }
    }
    return above;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* What the columns that are in and not used would add at most: what they earn
 * at present prices x the most there can be of them. Returns their count. */
static int idle_columns(const LinearWork *work, const double *prices,
                        Arena *arena, int *columns, double *worth)
{
    const LinearPlan *plan = &work->plan;
    const LinearModel *model = &plan->model;
    double *profits = ARENA_ARRAY(arena, double, model->column_count);
    for (int j = 0; j < model->column_count; j++) {
        profits[j] = model->columns[j].gain;
    }
    for (int e = 0; e < model->entry_count; e++) {
        const LinearEntry *entry = &model->entries[e];
        profits[entry->column] -= entry->value * prices[entry->row];
    }
    int count = 0;
    for (int j = 0; j < model->column_count; j++) {
        LinearTag tag = model->columns[j].tag;
        if ((tag.part != LINEAR_UNITS && tag.part != LINEAR_RUN) ||
            !linear_solver_has_column(&work->solver, j) ||
            linear_solver_is_basic(&work->solver, j)) {
            continue;
        }
        double most = tag.part == LINEAR_UNITS
                          ? model->columns[j].upper
                          : plan->problem->stocks[plan->runs[tag.a].stock].most;
        columns[count] = j;
        worth[count++] = profits[j] * most;
    }
    return count;
}

/* Forgets the worst of the columns that are not used: a small relaxation is
 * quick, and what is missed comes back with the prices. */
static void drop_idle(LinearWork *work, const double *prices)
{
    CLEANUP(arena_release) Arena scratch = {0};
    int all = work->plan.model.column_count;
    int *columns = ARENA_ARRAY(&scratch, int, all);
    double *worth = ARENA_ARRAY(&scratch, double, all);
    double *sorted = ARENA_ARRAY(&scratch, double, all);
    int idle = idle_columns(work, prices, &scratch, columns, worth);
    int kept = (int)(PRICING.kept_idle * work->solver.rows.count);
    if (idle <= kept) {
        return;
    }
    for (int i = 0; i < idle; i++) {
        sorted[i] = worth[i];
    }
    qsort(sorted, (size_t)idle, sizeof *sorted, by_value);
    double least = fmin(sorted[idle - kept], -PRICING.least_profit);
    int dropped = 0;
    for (int i = 0; i < idle; i++) {
        if (worth[i] < least) {
            columns[dropped++] = columns[i];
        }
    }
    linear_solver_drop_columns(&work->solver, columns, dropped);
}

/* Adds routes and options until none is left that earns; is_done when the
 * ceiling is met. The value and all that columns not yet in could add to it at
 * present prices is a ceiling in every round: the least of them is kept. */
Err linear_price_in(LinearWork *work, bool *is_done)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan *plan = &work->plan;
    LinearModel *model = &plan->model;
    ColumnList list = {ARENA_ARRAY(&scratch, int, model->column_count), 0};
    RouteFinds finds = {.work = work, .back = &list};
    link_runs(&finds, &scratch);
    const double *prices = linear_fresh_prices(work);
    double above = linear_price_routes(plan, prices, PRICING.least_profit,
                                       &finds, take_found);
    above += price_options(work, prices, &list);
    double value = linear_solver_value(&work->solver);
    work->ceiling = fmin(work->ceiling, value + above);
    int fresh = model->column_count - work->columns_seen;
    *is_done = fresh + list.count == 0 ||
               work->ceiling - value <= PRICING.close_frac * fabs(value);
    if (*is_done) {
        return ERR_NONE;
    }
    if (work->rounds <= PRICING.drop_rounds) {
        drop_idle(work, prices);
    }
    int *columns = ARENA_ARRAY(&scratch, int, list.count + fresh);
    for (int i = 0; i < list.count + fresh; i++) {
        columns[i] = i < list.count ? list.columns[i]
                                    : work->columns_seen + i - list.count;
    }
    linear_solver_add_columns(&work->solver, columns, list.count + fresh);
    work->columns_seen = model->column_count;
    return linear_solver_primal(&work->solver);
}
