/* The linear model: beds, edges, shade, nursery, cleanings, hours, feed. */
#include <math.h>

#include "plan/linear_parts.h"

void linear_plan_init(LinearPlan *plan, Arena *arena, const Problem *problem,
                      bool is_exact)
{
    *plan = (LinearPlan){.arena = arena,
                         .problem = problem,
                         .weeks = problem->week_count,
                         .is_exact = is_exact};
    linear_model_init(&plan->model, arena);
}

int *linear_no_rows(LinearPlan *plan, int count)
{
    int *rows = ARENA_ARRAY(plan->arena, int, count);
    for (int i = 0; i < count; i++) {
        rows[i] = PLAN_NONE;
    }
    return rows;
}

void linear_add_hours(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    plan->rows.hours = linear_no_rows(plan, plan->weeks);
    for (int t = 0; t < plan->weeks; t++) {
        double most = problem->hours_paid[t] - problem->hours_fixed[t];
        int row = linear_model_row(
            &plan->model, (LinearTag){LINEAR_HOURS, 0, 0, t}, -INFINITY, most);
        LinearColumn extra = {.tag = {LINEAR_EXTRA, 0, 0, t},
                              .upper = problem->hours_extra[t],
                              .gain = -problem->wage_extra_h};
        int column = linear_model_column(&plan->model, &extra);
        linear_model_entry(&plan->model, row, column, -1.0);
        plan->rows.hours[t] = row;
    }
}

/* pool[t] - keep pool[t-1] - given (1 - lost) + wants - short + over = 0 */
static void add_pool(LinearPlan *plan, int l)
{
    const PlanLoop *loop = &plan->problem->loops[l];
    LinearModel *model = &plan->model;
    int before = PLAN_NONE;
    for (int t = 0; t < plan->weeks; t++) {
        double start = t == 0 ? loop->pool_keep * loop->pool_start_kg : 0.0;
        int row = linear_model_row(model, (LinearTag){LINEAR_POOL, l, 0, t},
                                   start, start);
        LinearColumn pool = {.tag = {LINEAR_POOL, l, 0, t},
                             .upper = loop->pool_max_kg};
        LinearColumn lack = {.tag = {LINEAR_SHORT, l, 0, t},
                             .upper = INFINITY,
                             .gain = -loop->short_price};
        LinearColumn over = {.tag = {LINEAR_OVER, l, 0, t}, .upper = INFINITY};
        int column = linear_model_column(model, &pool);
        linear_model_entry(model, row, column, 1.0);
        if (before != PLAN_NONE) {
            linear_model_entry(model, row, before, -loop->pool_keep);
        }
        linear_model_entry(model, row, linear_model_column(model, &lack), -1.0);
        linear_model_entry(model, row, linear_model_column(model, &over), 1.0);
        before = column;
        plan->rows.pool[l * plan->weeks + t] = row;
        plan->rows.nitrify[l * plan->weeks + t] =
            linear_model_row(model, (LinearTag){LINEAR_NITRIFY, l, 0, t},
                             -INFINITY, loop->nitrify_g_d[t]);
    }
}

void linear_add_pools(LinearPlan *plan)
{
    int count = plan->problem->loop_count;
    plan->rows.pool = linear_no_rows(plan, count * plan->weeks);
    plan->rows.nitrify = linear_no_rows(plan, count * plan->weeks);
    for (int l = 0; l < count; l++) {
        add_pool(plan, l);
    }
}

/* Which of a kind's rows (1)-(3) an option of it needs. */
typedef struct KindUse {
    bool has_floor;
    bool has_edge;
    bool has_shade;
} KindUse;

static KindUse kind_use(const Problem *problem, int kind)
{
    KindUse use = {.has_floor = true};
    for (int r = 0; r < problem->option_count; r++) {
        const PlanOption *option = &problem->options[r];
        if (option->kind != kind || !option->is_edge) {
            continue;
        }
        use.has_edge = true;
        for (int i = 0; i < option->weeks && !use.has_shade; i++) {
            use.has_shade = option->shade[i] > 0.0;
        }
    }
    return use;
}

static void add_kind(LinearPlan *plan, int c)
{
    const PlanKind *kind = &plan->problem->kinds[c];
    KindUse use = kind_use(plan->problem, c);
    for (int t = 0; t < plan->weeks; t++) {
        int at = c * plan->weeks + t;
        plan->rows.floor[at] =
            linear_model_row(&plan->model, (LinearTag){LINEAR_FLOOR, c, 0, t},
                             -INFINITY, kind->sections[t]);
        if (use.has_edge) {
            plan->rows.edge[at] = linear_model_row(
                &plan->model, (LinearTag){LINEAR_EDGE, c, 0, t}, -INFINITY,
                kind->edge_m[t]);
        }
        if (use.has_shade) {
            plan->rows.shade[at] = linear_model_row(
                &plan->model, (LinearTag){LINEAR_SHADE, c, 0, t}, -INFINITY,
                kind->sections[t]);
        }
    }
}

/* Who takes: a column; units that are fixed; or one that only asks the price
 * of all that is taken. */
typedef struct Taker {
    int column; /* PLAN_NONE: no column */
    int units;
    const double *prices; /* by row; NULL: does not ask */
    double *price;
} Taker;

static void take(LinearPlan *plan, Taker taker, int row, double value)
{
    if (taker.prices) {
        *taker.price += row == PLAN_NONE ? 0.0 : taker.prices[row] * value;
    } else if (taker.column == PLAN_NONE) {
        linear_model_fixed(&plan->model, row, taker.units * value);
    } else {
        linear_model_entry(&plan->model, row, taker.column, value);
    }
}

static void take_place(LinearPlan *plan, const PlanOption *option, Taker taker)
{
    const LinearRows *rows = &plan->rows;
    for (int t = option->set_week < 0 ? 0 : option->set_week;
         t < option->clear_week && t < plan->weeks; t++) {
        int at = option->kind * plan->weeks + t;
        if (option->is_edge) {
            take(plan, taker, rows->edge[at], option->place);
            int i = t - option->first_week;
            double shade = i < option->weeks ? option->shade[i] : 0.0;
            take(plan, taker, rows->shade[at], shade);
            continue;
        }
        take(plan, taker, rows->floor[at], option->place);
        if (option->wants_sun) {
            take(plan, taker, rows->shade[at], option->place);
        }
    }
}

static void take_option(LinearPlan *plan, const PlanOption *option, Taker taker)
{
    const LinearRows *rows = &plan->rows;
    int loop = plan->problem->kinds[option->kind].loop;
    take_place(plan, option, taker);
    if (option->trays_of > 0) {
        take(plan, taker, rows->seedlings[option->trays_of - 1],
             option->plants);
    }
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t < 0 || t >= plan->weeks) {
            continue;
        }
        take(plan, taker, rows->nursery[t], option->trays[i]);
        take(plan, taker, rows->hours[t], option->hours[i]);
        if (loop != PLAN_NONE) {
            take(plan, taker, rows->pool[loop * plan->weeks + t],
                 option->want_kg[i]);
        }
        int goods = option->goods * plan->weeks + t;
        take(plan, taker, rows->goods[goods], -option->mean[i]);
        take(plan, taker, rows->promise[goods], -option->low[i]);
    }
}

/* Most units of an option that its kind can ever hold at once. */
static double most_units(const Problem *problem, const PlanOption *option)
{
    const PlanKind *kind = &problem->kinds[option->kind];
    double most = INFINITY;
    if (option->trays_of > 0) {
        double plants = problem->seedlings[option->trays_of - 1].plants;
        most = option->place * floor(plants / option->plants + 1e-9);
    }
    for (int t = option->set_week; t < option->clear_week; t++) {
        if (t >= 0 && t < problem->week_count) {
            double room = option->is_edge ? kind->edge_m[t] : kind->sections[t];
            most = fmin(most, room);
        }
    }
    return floor(most / option->place + 1e-9);
}

double linear_option_profit(LinearPlan *plan, int r, const double *prices,
                            double *most)
{
    const PlanOption *option = &plan->problem->options[r];
    double price = 0.0;
    take_option(
        plan, option,
        (Taker){.column = PLAN_NONE, .prices = prices, .price = &price});
    *most = most_units(plan->problem, option);
    return -option->cost - price;
}

void linear_add_option(LinearPlan *plan, int r)
{
    const Problem *problem = plan->problem;
    const PlanOption *option = &problem->options[r];
    LinearColumn units = {.tag = {LINEAR_UNITS, r, 0, option->set_week},
                          .upper = most_units(problem, option),
                          .gain = -option->cost,
                          .is_integer = true};
    int column = linear_model_column(&plan->model, &units);
    plan->unit_columns[r] = column;
    take_option(plan, option, (Taker){.column = column});
}

/* Without a plan to begin with: of weeks in four one is in a first relaxation,
 * another for each way and kind. */
static bool is_first(const LinearPlan *plan, int r)
{
    static const int ONE_IN = 4;
    const PlanOption *option = &plan->problem->options[r];
    return plan->first_options
               ? plan->first_options[r]
               : (option->set_week + option->way + option->kind) % ONE_IN == 0;
}

static void add_options(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    plan->unit_columns = linear_no_rows(plan, problem->option_count);
    for (int r = 0; r < problem->option_count; r++) {
        if (!problem->options[r].is_standing &&
            (plan->is_exact || is_first(plan, r))) {
            linear_add_option(plan, r);
        }
    }
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *batch = &problem->standing[i];
        take_option(plan, &problem->options[batch->option],
                    (Taker){.column = PLAN_NONE, .units = batch->units});
    }
}

/* Beds of a kind that are to be cleaned in week most or before. */
static int cleans_due(const Problem *problem, int kind, int most)
{
    int due = 0;
    for (int b = 0; b < problem->bed_count; b++) {
        const PlanBed *bed = &problem->beds[b];
        due += bed->kind == kind && bed->clean_by != PLAN_NONE &&
               bed->clean_by <= most;
    }
    return due;
}

/* Least edge that a bed of the kind loses while it is cleaned. */
static double least_edge(const Problem *problem, int kind, int week)
{
    double least = INFINITY;
    for (int b = 0; b < problem->bed_count; b++) {
        const PlanBed *bed = &problem->beds[b];
        if (bed->kind == kind) {
            least = fmin(least, bed->has_edge[week] ? bed->edge_m : 0.0);
        }
    }
    return isinf(least) ? 0.0 : least;
}

/* Cleanings of a kind: as many as are due, each by its week. */
static void add_cleanings(LinearPlan *plan, int c, int *columns)
{
    const Problem *problem = plan->problem;
    int total = cleans_due(problem, c, plan->weeks);
    for (int t = plan->weeks - 1; t >= 0; t--) {
        int due = cleans_due(problem, c, t);
        int missing = cleans_due(problem, c, t - 1);
        columns[t] = PLAN_NONE;
        if (missing == total) {
            continue;
        }
        LinearColumn clean = {
            .tag = {LINEAR_CLEAN, c, 0, t}, .upper = total, .is_integer = true};
        columns[t] = linear_model_column(&plan->model, &clean);
        int at = c * plan->weeks + t;
        linear_model_entry(&plan->model, plan->rows.floor[at], columns[t],
                           problem->kinds[c].sections_per_bed);
        linear_model_entry(&plan->model, plan->rows.shade[at], columns[t],
                           problem->kinds[c].sections_per_bed);
        linear_model_entry(&plan->model, plan->rows.edge[at], columns[t],
                           least_edge(problem, c, t));
        linear_model_entry(&plan->model, plan->rows.hours[t], columns[t],
                           problem->clean_hours[c]);
        if (due > missing) {
            /* Those due by this week are cleaned in it or before; the last
             * such row also says that no more are cleaned than are due. */
            linear_model_row(&plan->model,
                             (LinearTag){LINEAR_CLEAN_DUE, c, 0, t}, due,
                             due == total ? (double)total : INFINITY);
        }
    }
}

/* Each row of cleanings due gets the columns of its weeks. */
static void fill_cleanings(LinearPlan *plan, int c, const int *columns,
                           int first_row)
{
    for (int row = first_row; row < plan->model.row_count; row++) {
        LinearTag tag = plan->model.rows[row].tag;
        for (int t = 0; t <= tag.week && tag.a == c; t++) {
            if (columns[t] != PLAN_NONE) {
                linear_model_entry(&plan->model, row, columns[t], 1.0);
            }
        }
    }
}

static void add_clean_rate(LinearPlan *plan, int l, const int *columns)
{
    const Problem *problem = plan->problem;
    double beds = 0.0;
    for (int b = 0; b < problem->bed_count; b++) {
        beds += problem->kinds[problem->beds[b].kind].loop == l;
    }
    double most = floor(fmax(1.0, problem->clean_share * beds) + 1e-9);
    for (int t = 0; t + 1 < plan->weeks; t++) {
        int row = linear_model_row(&plan->model,
                                   (LinearTag){LINEAR_CLEAN_RATE, l, 0, t},
                                   -INFINITY, most);
        for (int c = 0; c < problem->kind_count; c++) {
            for (int u = t; u <= t + 1; u++) {
                int column = columns[c * plan->weeks + u];
                if (problem->kinds[c].loop == l && column != PLAN_NONE) {
                    linear_model_entry(&plan->model, row, column, 1.0);
                }
            }
        }
    }
}

void linear_add_plants(LinearPlan *plan)
{
    const Problem *problem = plan->problem;
    int count = problem->kind_count * plan->weeks;
    plan->rows.floor = linear_no_rows(plan, count);
    plan->rows.edge = linear_no_rows(plan, count);
    plan->rows.shade = linear_no_rows(plan, count);
    plan->rows.nursery = linear_no_rows(plan, plan->weeks);
    for (int t = 0; t < plan->weeks; t++) {
        plan->rows.nursery[t] =
            linear_model_row(&plan->model, (LinearTag){LINEAR_NURSERY, 0, 0, t},
                             -INFINITY, problem->trays[t]);
    }
    plan->rows.seedlings = linear_no_rows(plan, problem->seedlings_count);
    for (int i = 0; i < problem->seedlings_count; i++) {
        plan->rows.seedlings[i] = linear_model_row(
            &plan->model, (LinearTag){LINEAR_SEEDLINGS, i, 0, 0}, -INFINITY,
            problem->seedlings[i].plants);
    }
    for (int c = 0; c < problem->kind_count; c++) {
        add_kind(plan, c);
    }
    add_options(plan);
    int *columns = ARENA_ARRAY(plan->arena, int, count);
    for (int c = 0; c < problem->kind_count; c++) {
        int first_row = plan->model.row_count;
        add_cleanings(plan, c, &columns[c * plan->weeks]);
        fill_cleanings(plan, c, &columns[c * plan->weeks], first_row);
    }
    for (int l = 0; l < problem->loop_count; l++) {
        add_clean_rate(plan, l, columns);
    }
}
