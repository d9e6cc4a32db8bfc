/* Rows that wait outside the relaxation until its solution breaks them. */
#include "plan/linear_lazy.h"

#include <math.h>

static const double BROKEN = 1e-6; /* of a row's limit, or of 1 */

static bool may_wait(LinearPart part)
{
    switch ((int)part) {
    case LINEAR_SHADE:
    case LINEAR_NURSERY:
    case LINEAR_CLEAN_RATE:
    case LINEAR_DENSITY:
    case LINEAR_OXYGEN:
    case LINEAR_BATCHES:
    case LINEAR_NEIGHBOURS:
    case LINEAR_GRADE_RATE:
    case LINEAR_POOL:
    case LINEAR_NITRIFY:
    case LINEAR_ROOM:
    case LINEAR_PROMISE:
        return true;
    default:
        return false;
    }
}

bool *linear_waiting(const LinearPlan *plan, Arena *arena)
{
    bool *waits = ARENA_ARRAY(arena, bool, plan->model.row_count);
    for (int i = 0; i < plan->model.row_count; i++) {
        waits[i] = may_wait(plan->model.rows[i].tag.part);
    }
    return waits;
}

typedef struct LazyWork {
    const LinearPlan *plan;
    LinearSolver *solver;
    double *sums; /* by row */
    int *broken;
    int count;
} LazyWork;

/* What stands in each row; the feed pools' own columns apart, which follow
 * from the rest. */
static void sum_rows(LazyWork *work)
{
    const LinearModel *model = &work->plan->model;
    const double *x = linear_solver_columns(work->solver);
    for (int e = 0; e < model->entry_count; e++) {
        const LinearEntry *entry = &model->entries[e];
        if (model->columns[entry->column].tag.part != LINEAR_POOL &&
            model->columns[entry->column].tag.part != LINEAR_SHORT &&
            model->columns[entry->column].tag.part != LINEAR_OVER) {
            work->sums[entry->row] += entry->value * x[entry->column];
        }
    }
}

static void add_row(LazyWork *work, int row)
{
    if (!linear_solver_has_row(work->solver, row)) {
        work->broken[work->count++] = row;
    }
}

/* A week short of feed needs its row and those back to the last week in which
 * the pool was full. */
static void check_pool(LazyWork *work, int l)
{
    const LinearPlan *plan = work->plan;
    const PlanLoop *loop = &plan->problem->loops[l];
    const int *rows = &plan->rows.pool[l * plan->weeks];
    double pool = 0.0;
    int first = 0;
    for (int t = 0; t < plan->weeks; t++) {
        pool = loop->pool_keep * pool + plan->model.rows[rows[t]].upper -
               work->sums[rows[t]];
        if (pool >= loop->pool_max_kg) {
            pool = loop->pool_max_kg;
            first = t + 1;
        }
        if (pool < -BROKEN) {
            for (int u = first; u <= t; u++) {
                add_row(work, rows[u]);
            }
            first = t + 1;
        }
        pool = fmax(pool, 0.0);
    }
}

static bool is_broken(const LazyWork *work, int i)
{
    const LinearRow *row = &work->plan->model.rows[i];
    return row->tag.part != LINEAR_POOL &&
           (work->sums[i] > row->upper + BROKEN * (1.0 + fabs(row->upper)) ||
            work->sums[i] < row->lower - BROKEN * (1.0 + fabs(row->lower)));
}

/* A tank that is too full lacks air as well: its kilos come first, and may
 * settle the rest. */
static bool follows_density(const LazyWork *work, int i)
{
    const LinearPlan *plan = work->plan;
    LinearTag tag = plan->model.rows[i].tag;
    if (tag.part != LINEAR_OXYGEN && tag.part != LINEAR_BATCHES) {
        return false;
    }
    int density = plan->rows.density[tag.a * plan->weeks + tag.week];
    return is_broken(work, density) &&
           !linear_solver_has_row(work->solver, density);
}

int linear_add_broken(const LinearPlan *plan, LinearSolver *solver)
{
    CLEANUP(arena_release) Arena scratch = {0};
    int rows = plan->model.row_count;
    LazyWork work = {.plan = plan,
                     .solver = solver,
                     .sums = ARENA_ARRAY(&scratch, double, rows),
                     .broken = ARENA_ARRAY(&scratch, int, rows)};
    sum_rows(&work);
    for (int l = 0; l < plan->problem->loop_count; l++) {
        check_pool(&work, l);
    }
    for (int i = 0; i < rows; i++) {
        if (is_broken(&work, i) && !follows_density(&work, i)) {
            add_row(&work, i);
        }
    }
    if (work.count > 0) {
        linear_solver_add_rows(solver, work.broken, work.count);
    }
    return work.count;
}
