/* CLP behind a small face. */
#include "plan/linear_solver.h"

#include <float.h>
#include <limits.h>
#include <math.h>

#include <coin/Clp_C_Interface.h>

/* CLP's own word for perturbing costs from the first step on; its automatic
 * choice starts without and took a third longer on these models. */
enum { PERTURB_ALWAYS = 50, AT_LIMIT = 3, IS_BASIC = 1 };

enum { NOT_HERE = -1, SLICE_STEPS = 2000 };

void linear_solver_close(LinearSolver *solver)
{
    if (solver->clp) {
        Clp_deleteModel(solver->clp);
        solver->clp = NULL;
    }
}

static double clp_limit(double limit)
{
    return isinf(limit) ? copysign(DBL_MAX, limit) : limit;
}

/* Room for numbers up to count. */
static void make_room(LinearHere *here, Arena *arena, int count)
{
    if (count <= here->room) {
        return;
    }
    int more = 2 * count;
    size_t before = (size_t)here->room;
    here->at = arena_grow(arena, here->at, before, (size_t)more, sizeof(int));
    here->which =
        arena_grow(arena, here->which, before, (size_t)more, sizeof(int));
    for (int i = here->room; i < more; i++) {
        here->at[i] = NOT_HERE;
    }
    here->room = more;
}

static void note(LinearHere *here, int number)
{
    here->at[number] = here->count;
    here->which[here->count++] = number;
}

bool linear_solver_has_row(const LinearSolver *solver, int row)
{
    return row < solver->rows.room && solver->rows.at[row] != NOT_HERE;
}

bool linear_solver_has_column(const LinearSolver *solver, int column)
{
    return column < solver->columns.room &&
           solver->columns.at[column] != NOT_HERE;
}

bool linear_solver_is_basic(const LinearSolver *solver, int column)
{
    return Clp_getColumnStatus(solver->clp, solver->columns.at[column]) ==
           IS_BASIC;
}

/* The named columns as CLP takes them, in rows that are here. */
typedef struct NewColumns {
    double *lower;
    double *upper;
    double *cost;
    LinearPacked packed;
} NewColumns;

static NewColumns new_columns(const LinearSolver *solver, Arena *arena,
                              const int *columns, int count)
{
    const LinearModel *model = solver->model;
    NewColumns out = {.lower = ARENA_ARRAY(arena, double, count),
                      .upper = ARENA_ARRAY(arena, double, count),
                      .cost = ARENA_ARRAY(arena, double, count)};
    int *places = ARENA_ARRAY(arena, int, model->column_count);
    for (int j = 0; j < model->column_count; j++) {
        places[j] = NOT_HERE;
    }
    for (int j = 0; j < count; j++) {
        const LinearColumn *column = &model->columns[columns[j]];
        out.lower[j] = clp_limit(column->lower);
        out.upper[j] = clp_limit(column->upper);
        out.cost[j] = -column->gain;
        places[columns[j]] = j;
    }
    LinearPacked *packed = &out.packed;
    linear_model_pack_some(model, places, count, arena, packed);
    int kept = 0;
    for (int j = 0; j < count; j++) {
        int from = packed->starts[j];
        packed->starts[j] = kept;
        for (int e = from; e < packed->starts[j + 1]; e++) {
            if (linear_solver_has_row(solver, packed->rows[e])) {
                packed->rows[kept] = solver->rows.at[packed->rows[e]];
                packed->values[kept++] = packed->values[e];
            }
        }
    }
    packed->starts[count] = kept;
    return out;
}

/* Limits of the rows from a place on. */
static void row_limits(const LinearSolver *solver, int first, double *lower,
                       double *upper)
{
    for (int i = first; i < solver->rows.count; i++) {
        const LinearRow *row = &solver->model->rows[solver->rows.which[i]];
        lower[i - first] = clp_limit(row->lower);
        upper[i - first] = clp_limit(row->upper);
    }
}

void linear_solver_load_some(LinearSolver *solver, const LinearModel *model,
                             const bool *is_out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    linear_solver_close(solver);
    *solver = (LinearSolver){.clp = Clp_newModel(),
                             .model = model,
                             .go_on = solver->go_on,
                             .go_on_self = solver->go_on_self};
    make_room(&solver->rows, model->arena, model->row_count);
    make_room(&solver->columns, model->arena, model->column_count);
    for (int i = 0; i < model->row_count; i++) {
        if (!is_out || !is_out[i]) {
            note(&solver->rows, i);
        }
    }
    for (int j = 0; j < model->column_count; j++) {
        note(&solver->columns, j);
    }
    double *lower = ARENA_ARRAY(&scratch, double, solver->rows.count);
    double *upper = ARENA_ARRAY(&scratch, double, solver->rows.count);
    row_limits(solver, 0, lower, upper);
    NewColumns new = new_columns(solver, &scratch, solver->columns.which,
                                 solver->columns.count);
    Clp_setLogLevel(solver->clp, 0);
    Clp_setPerturbation(solver->clp, PERTURB_ALWAYS);
    Clp_loadProblem(solver->clp, model->column_count, solver->rows.count,
                    new.packed.starts, new.packed.rows, new.packed.values,
                    new.lower, new.upper, new.cost, lower, upper);
}

void linear_solver_load(LinearSolver *solver, const LinearModel *model)
{
    linear_solver_load_some(solver, model, NULL);
}

void linear_solver_add_columns(LinearSolver *solver, const int *columns,
                               int count)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const LinearModel *model = solver->model;
    NewColumns new = new_columns(solver, &scratch, columns, count);
    Clp_addColumns(solver->clp, count, new.lower, new.upper, new.cost,
                   new.packed.starts, new.packed.rows, new.packed.values);
    make_room(&solver->columns, model->arena, model->column_count);
    for (int j = 0; j < count; j++) {
        note(&solver->columns, columns[j]);
    }
}

void linear_solver_drop_columns(LinearSolver *solver, const int *columns,
                                int count)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearHere *here = &solver->columns;
    int *places = ARENA_ARRAY(&scratch, int, count);
    for (int j = 0; j < count; j++) {
        places[j] = here->at[columns[j]];
        here->at[columns[j]] = NOT_HERE;
    }
    Clp_deleteColumns(solver->clp, count, places);
    int kept = 0;
    for (int j = 0; j < here->count; j++) {
        int column = here->which[j];
        if (here->at[column] != NOT_HERE) {
            here->at[column] = kept;
            here->which[kept++] = column;
        }
    }
    here->count = kept;
}

/* Entries by row, in columns that are here, of the rows from a place on. */
static void pack_rows(const LinearSolver *solver, int first, Arena *arena,
                      LinearPacked *out)
{
    const LinearModel *model = solver->model;
    int count = solver->rows.count - first;
    int *ends = ARENA_ARRAY(arena, int, count + 2);
    for (int e = 0; e < model->entry_count; e++) {
        int at = solver->rows.at[model->entries[e].row] - first;
        if (at >= 0) {
            ends[at + 2]++;
        }
    }
    for (int i = 0; i < count; i++) {
        ends[i + 2] += ends[i + 1];
    }
    out->starts = ends;
    out->rows = ARENA_ARRAY(arena, int, ends[count + 1]);
    out->values = ARENA_ARRAY(arena, double, ends[count + 1]);
    for (int e = 0; e < model->entry_count; e++) {
        const LinearEntry *entry = &model->entries[e];
        int at = solver->rows.at[entry->row] - first;
        if (at >= 0) {
            out->rows[ends[at + 1]] = entry->column;
            out->values[ends[at + 1]++] = entry->value;
        }
    }
}

/* Joins what follows in one column, leaves out columns that are not here. */
static void settle_rows(const LinearSolver *solver, int count,
                        LinearPacked *rows)
{
    int kept = 0;
    for (int i = 0; i < count; i++) {
        int from = rows->starts[i];
        rows->starts[i] = kept;
        int last = NOT_HERE;
        for (int e = from; e < rows->starts[i + 1]; e++) {
            int column = rows->rows[e];
            if (column == last) {
                rows->values[kept - 1] += rows->values[e];
            } else if (linear_solver_has_column(solver, column)) {
                rows->rows[kept] = solver->columns.at[column];
                rows->values[kept++] = rows->values[e];
                last = column;
            }
        }
    }
    rows->starts[count] = kept;
}

void linear_solver_add_rows(LinearSolver *solver, const int *rows, int count)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const LinearModel *model = solver->model;
    int before = solver->rows.count;
    make_room(&solver->rows, model->arena, model->row_count);
    for (int i = 0; i < count; i++) {
        note(&solver->rows, rows[i]);
    }
    double *lower = ARENA_ARRAY(&scratch, double, count);
    double *upper = ARENA_ARRAY(&scratch, double, count);
    row_limits(solver, before, lower, upper);
    LinearPacked packed;
    pack_rows(solver, before, &scratch, &packed);
    settle_rows(solver, count, &packed);
    Clp_addRows(solver->clp, count, lower, upper, packed.starts, packed.rows,
                packed.values);
}

static Err status_of(const LinearSolver *solver)
{
    Clp_Simplex *clp = solver->clp;
    switch (Clp_status(clp)) {
    case 0:
        return ERR_NONE;
    case 1:
        return err_make(ERR_CONFLICT, "no plan keeps all limits");
    case 2:
        return err_make(ERR_DEFECT, "the relaxation has no bound");
    default:
        return err_make(ERR_LIMIT, "the linear solver stopped with status %d",
                        Clp_status(clp));
    }
}

/* In slices, so that whoever watches can stop it; a dual simplex, which stands
 * on no plan until it ends, is not to be broken off. */
Err linear_solver_primal(LinearSolver *solver)
{
    Clp_Simplex *clp = solver->clp;
    Clp_setMaximumIterations(clp, solver->go_on ? SLICE_STEPS : INT_MAX);
    bool is_at_limit = true;
    bool is_stopped = false;
    while (is_at_limit && !is_stopped) {
        Clp_primal(clp, 0);
        solver->steps += Clp_numberIterations(clp);
        is_at_limit = Clp_status(clp) == AT_LIMIT && solver->go_on;
        is_stopped = is_at_limit && !solver->go_on(solver->go_on_self);
    }
    Clp_setMaximumIterations(clp, INT_MAX);
    return is_stopped ? err_make(ERR_STOPPED, "stopped") : status_of(solver);
}

/* Not CLP's own first solve: it takes interrupts for itself. */
Err linear_solver_dual(LinearSolver *solver)
{
    Clp_dual(solver->clp, 0);
    solver->steps += Clp_numberIterations(solver->clp);
    return status_of(solver);
}

double linear_solver_value(const LinearSolver *solver)
{
    return solver->model->constant - Clp_objectiveValue(solver->clp);
}

const double *linear_solver_columns(LinearSolver *solver)
{
    const double *x = Clp_primalColumnSolution(solver->clp);
    if (solver->model->column_count > solver->x_room) {
        solver->x_room = 2 * solver->model->column_count;
        solver->x = ARENA_ARRAY(solver->model->arena, double, solver->x_room);
    }
    for (int j = 0; j < solver->model->column_count; j++) {
        solver->x[j] = linear_solver_has_column(solver, j)
                           ? x[solver->columns.at[j]]
                           : 0.0;
    }
    return solver->x;
}

void linear_solver_prices(const LinearSolver *solver, double *out)
{
    const double *duals = Clp_dualRowSolution(solver->clp);
    for (int i = 0; i < solver->model->row_count; i++) {
        out[i] =
            linear_solver_has_row(solver, i) ? -duals[solver->rows.at[i]] : 0.0;
    }
}
