/* The linear model, exact form: 0-1 columns of batches in tanks, gradings and
 * catches, as far as the runs that are given need them. */
#include <math.h>

#include "plan/linear_parts.h"

typedef struct EventColumns {
    int *heads;    /* [stock][tank][week]: is there */
    int *gradings; /* [tank][week] */
    int *catches;  /* [tank][week] */
} EventColumns;

static int flag_column(LinearPlan *plan, LinearTag tag)
{
    LinearColumn flag = {.tag = tag, .upper = 1.0, .is_integer = true};
    return linear_model_column(&plan->model, &flag);
}

/* What stands over the flag's row: sum of shares - flag <= 0. */
static int flag_row(LinearPlan *plan, LinearTag tag, int column)
{
    int row = linear_model_row(&plan->model, tag, -INFINITY, 0.0);
    linear_model_entry(&plan->model, row, column, -1.0);
    return row;
}

static void add_heads(LinearPlan *plan, EventColumns *columns,
                      const PlanRun *run)
{
    const Problem *problem = plan->problem;
    for (int t = problem->stocks[run->stock].start_week; t < run->sale_week;
         t++) {
        int k = linear_run_tank(run, t);
        int at = (run->stock * problem->tank_count + k) * plan->weeks + t;
        if (columns->heads[at] != PLAN_NONE) {
            continue;
        }
        LinearTag tag = {LINEAR_HEADS, run->stock, k, t};
        int column = flag_column(plan, tag);
        int row = linear_model_row(&plan->model, tag, -INFINITY, 0.0);
        linear_model_entry(&plan->model, row, column,
                           -linear_most_heads(problem, run->stock, k, t));
        linear_model_entry(
            &plan->model, plan->rows.batches[k * plan->weeks + t], column, 1.0);
        columns->heads[at] = column;
        plan->rows.heads[at] = row;
    }
}

static void add_grading(LinearPlan *plan, EventColumns *columns, int k, int t)
{
    const Problem *problem = plan->problem;
    int at = k * plan->weeks + t;
    if (columns->gradings[at] != PLAN_NONE) {
        return;
    }
    LinearTag tag = {LINEAR_GRADING, k, 0, t};
    int column = flag_column(plan, tag);
    columns->gradings[at] = column;
    plan->rows.grading[at] = flag_row(plan, tag, column);
    linear_model_entry(&plan->model, plan->rows.hours[t], column,
                       problem->fish.grade_hours);
    for (int i = 0; i < problem->fish.weeks_between && i <= t; i++) {
        linear_model_entry(&plan->model, plan->rows.grade_rate[at - i], column,
                           1.0);
    }
}

static void add_catch(LinearPlan *plan, EventColumns *columns, int k, int t)
{
    int at = k * plan->weeks + t;
    if (columns->catches[at] != PLAN_NONE) {
        return;
    }
    LinearTag tag = {LINEAR_CATCH, k, 0, t};
    int column = flag_column(plan, tag);
    columns->catches[at] = column;
    plan->rows.catching[at] = flag_row(plan, tag, column);
    linear_model_entry(&plan->model, plan->rows.hours[t], column,
                       plan->problem->fish.catch_hours);
    linear_model_entry(&plan->model, plan->rows.catch_least[t], column,
                       -linear_most_fish_sold(plan->problem, t));
}

static bool are_neighbours(const Problem *problem, int i, int j, int week)
{
    double a = linear_stock_mean_g(&problem->stocks[i], week);
    double b = linear_stock_mean_g(&problem->stocks[j], week);
    return fmax(a, b) <= problem->fish.neighbour_ratio * fmin(a, b) + 1e-9;
}

/* y + y' <= 1 where sizes are not neighbours. */
static void add_neighbours(LinearPlan *plan, const EventColumns *columns, int k,
                           int t)
{
    const Problem *problem = plan->problem;
    int number = 0;
    for (int i = 0; i < problem->stock_count; i++) {
        int a = columns->heads[(i * problem->tank_count + k) * plan->weeks + t];
        for (int j = 0; j < i && a != PLAN_NONE; j++) {
            int b =
                columns->heads[(j * problem->tank_count + k) * plan->weeks + t];
            if (b == PLAN_NONE || are_neighbours(problem, i, j, t)) {
                continue;
            }
            int row = linear_model_row(
                &plan->model, (LinearTag){LINEAR_NEIGHBOURS, k, number++, t},
                -INFINITY, 1.0);
            linear_model_entry(&plan->model, row, a, 1.0);
            linear_model_entry(&plan->model, row, b, 1.0);
        }
    }
}

void linear_add_events(LinearPlan *plan, const PlanRun *runs, int count)
{
    const Problem *problem = plan->problem;
    int places = problem->tank_count * plan->weeks;
    EventColumns columns = {
        .heads = linear_no_rows(plan, problem->stock_count * places),
        .gradings = linear_no_rows(plan, places),
        .catches = linear_no_rows(plan, places)};
    plan->rows.heads = linear_no_rows(plan, problem->stock_count * places);
    plan->rows.grading = linear_no_rows(plan, places);
    plan->rows.catching = linear_no_rows(plan, places);
    for (int i = 0; i < count; i++) {
        const PlanRun *run = &runs[i];
        add_heads(plan, &columns, run);
        if (run->move_week != PLAN_NONE) {
            add_grading(plan, &columns, run->tank, run->move_week);
        }
        if (run->sale_week < plan->weeks) {
            int k = linear_run_tank(run, run->sale_week - 1);
            add_catch(plan, &columns, k, run->sale_week);
        }
    }
    for (int i = 0; i < places; i++) {
        add_neighbours(plan, &columns, i / plan->weeks, i % plan->weeks);
    }
}
