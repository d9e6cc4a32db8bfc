/* The ceiling: rounds of the relaxation, routes priced in between. */
#include "plan/linear.h"

#include <math.h>
#include <stdlib.h>

#include "plan/linear_cliques.h"
#include "plan/linear_lazy.h"
#include "plan/linear_parts.h"
#include "plan/linear_routes.h"
#include "plan/linear_solver.h"

static const struct {
    int first_step;      /* weeks between the first routes */
    double gone_price;   /* of a standing fish without any route */
    double least_profit; /* of a route that is priced in */
    double close_frac;   /* of the value: a gap that is not worth a round */
    double kept_idle;    /* a row: columns at 0 that stay, the best of them */
    int drop_rounds;     /* later ones drop none, so that they end */
    int most_rounds;
    double least_count; /* of a run that is told */
} ROUNDS = {26, 1000.0, 1e-6, 2e-4, 0.25, 60, 400, 1e-7};

typedef struct CeilingWork {
    LinearPlan plan;
    LinearSolver solver;
    double *prices; /* by row */
    int prices_room;
    int first_gone; /* columns of fish without a route */
    int gone_count;
    int columns_seen; /* of the model: the solver has had those before */
    int rounds;
    double value;   /* of the last round's relaxation */
    double ceiling; /* the least so far */
    const LinearWatch *watch;
} CeilingWork;

static void work_release(CeilingWork *work)
{
    linear_solver_close(&work->solver);
}

static void add_found(void *self, const PricedRun *found)
{
    linear_add_run(self, &found->run);
}

/* Fish with no route: dear, so that a first solve always finds a plan. */
static void add_gone(CeilingWork *work)
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

static void build(CeilingWork *work, Arena *arena, const Problem *problem)
{
    LinearPlan *plan = &work->plan;
    linear_plan_init(plan, arena, problem, false);
    linear_add_hours(plan);
    linear_add_sales(plan);
    linear_add_pools(plan);
    linear_add_plants(plan);
    linear_add_fish(plan);
    add_gone(work);
    linear_first_routes(plan, ROUNDS.first_step, plan, add_found);
}

static const double *fresh_prices(CeilingWork *work)
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
    CeilingWork *work;
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

static bool is_same_route(const PlanRun *a, const PlanRun *b)
{
    return a->tank == b->tank && a->move_week == b->move_week &&
           a->to_tank == b->to_tank && a->sale_week == b->sale_week &&
           a->goods == b->goods;
}

static void take_found(void *self, const PricedRun *found)
{
    const RouteFinds *finds = self;
    CeilingWork *work = finds->work;
    LinearPlan *plan = &work->plan;
    int i = finds->last[found->run.stock * PLAN_LANES + found->run.lane];
    while (i != PLAN_NONE && !is_same_route(&plan->runs[i], &found->run)) {
        i = finds->before[i];
    }
    if (i == PLAN_NONE) {
        linear_add_run(plan, &found->run);
    } else if (plan->run_columns[i] < work->columns_seen &&
               !linear_solver_has_column(&work->solver, plan->run_columns[i])) {
        finds->back->columns[finds->back->count++] = plan->run_columns[i];
    }
}

static bool is_in(const CeilingWork *work, int option)
{
    int column = work->plan.unit_columns[option];
    return column != PLAN_NONE &&
           linear_solver_has_column(&work->solver, column);
}

/* Adds the options that would earn at present prices to the model, or, where
 * they were there, to the list; returns the most that they can add to the
 * value. */
static double price_options(CeilingWork *work, const double *prices,
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
        if (profits[r] > ROUNDS.least_profit &&
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
static int idle_columns(const CeilingWork *work, const double *prices,
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
static void drop_idle(CeilingWork *work, const double *prices)
{
    CLEANUP(arena_release) Arena scratch = {0};
    int all = work->plan.model.column_count;
    int *columns = ARENA_ARRAY(&scratch, int, all);
    double *worth = ARENA_ARRAY(&scratch, double, all);
    double *sorted = ARENA_ARRAY(&scratch, double, all);
    int idle = idle_columns(work, prices, &scratch, columns, worth);
    int kept = (int)(ROUNDS.kept_idle * work->solver.rows.count);
    if (idle <= kept) {
        return;
    }
    for (int i = 0; i < idle; i++) {
        sorted[i] = worth[i];
    }
    qsort(sorted, (size_t)idle, sizeof *sorted, by_value);
    double least = fmin(sorted[idle - kept], -ROUNDS.least_profit);
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
static Err price_in(CeilingWork *work, bool *is_done)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPlan *plan = &work->plan;
    LinearModel *model = &plan->model;
    ColumnList list = {ARENA_ARRAY(&scratch, int, model->column_count), 0};
    RouteFinds finds = {.work = work, .back = &list};
    link_runs(&finds, &scratch);
    const double *prices = fresh_prices(work);
    double above = linear_price_routes(plan, prices, ROUNDS.least_profit,
                                       &finds, take_found);
    above += price_options(work, prices, &list);
    double value = linear_solver_value(&work->solver);
    work->ceiling = fmin(work->ceiling, value + above);
    int fresh = model->column_count - work->columns_seen;
    *is_done = fresh + list.count == 0 ||
               work->ceiling - value <= ROUNDS.close_frac * fabs(value);
    if (*is_done) {
        return ERR_NONE;
    }
    if (work->rounds <= ROUNDS.drop_rounds) {
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

/* Takes over what the solution breaks until it breaks nothing. */
static Err mend(CeilingWork *work)
{
    while (linear_add_broken(&work->plan, &work->solver) > 0) {
        TRY(linear_solver_dual(&work->solver));
    }
    return ERR_NONE;
}

/* One round: routes, or, when there are none, fish that may not meet. */
static Err round_of(CeilingWork *work, bool *is_done)
{
    bool is_priced = false;
    TRY(mend(work));
    TRY(price_in(work, &is_priced));
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
    const CeilingWork *work = self;
    const LinearWatch *watch = work->watch;
    return watch->go_on(watch->self, work->value,
                        fmax(work->value, work->ceiling));
}

static Err solve(CeilingWork *work, const LinearWatch *watch)
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
    TRY(linear_solver_first(&work->solver));
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
static double *prices_of(const CeilingWork *work, Arena *arena, const int *rows,
                         int count)
{
    double *out = ARENA_ARRAY(arena, double, count);
    for (int i = 0; i < count; i++) {
        double price = rows[i] == PLAN_NONE ? 0.0 : work->prices[rows[i]];
        out[i] = fmax(0.0, price);
    }
    return out;
}

static void fill_prices(CeilingWork *work, Arena *arena, LinearPrices *out)
{
    const Problem *problem = work->plan.problem;
    const LinearRows *rows = &work->plan.rows;
    int weeks = work->plan.weeks;
    int kinds = problem->kind_count * weeks;
    int loops = problem->loop_count * weeks;
    int tanks = problem->tank_count * weeks;
    int goods = problem->goods_count * weeks;
    fresh_prices(work);
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
    /* A section of floor is also one for what wants sun. */
    for (int i = 0; i < kinds; i++) {
        out->section[i] += out->sun[i];
    }
}

static void fill_runs(const CeilingWork *work, Arena *arena, const double *x,
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

static void fill(CeilingWork *work, Arena *arena, LinearCeiling *out)
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

Err linear_ceiling(const Problem *problem, const LinearWatch *watch,
                   Arena *arena, LinearCeiling *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    CLEANUP(work_release) CeilingWork work = {0};
    work.ceiling = INFINITY;
    build(&work, &scratch, problem);
    TRY(solve(&work, watch));
    fill(&work, arena, out);
    return ERR_NONE;
}

Err linear_so_far(const Problem *problem, const LinearWatch *watch,
                  Arena *arena, LinearCeiling *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    CLEANUP(work_release) CeilingWork work = {0};
    work.ceiling = INFINITY;
    build(&work, &scratch, problem);
    Err err = solve(&work, watch);
    if (err.kind != ERR_OK && err.kind != ERR_STOPPED) {
        return err;
    }
    fill(&work, arena, out);
    out->is_stopped = err.kind == ERR_STOPPED;
    return ERR_NONE;
}
