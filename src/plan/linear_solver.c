/* CLP behind a small face. */
#include "plan/linear_solver.h"

#include <float.h>
#include <math.h>

#include <coin/Clp_C_Interface.h>

/* CLP's own word for perturbing costs from the first step on; its automatic
 * choice starts without and took a third longer on these models. */
enum { PERTURB_ALWAYS = 50 };

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

void linear_solver_load(LinearSolver *solver, const LinearModel *model)
{
    CLEANUP(arena_release) Arena scratch = {0};
    LinearPacked packed;
    linear_model_pack(model, &scratch, &packed);
    int columns = model->column_count;
    int rows = model->row_count;
    double *lower = ARENA_ARRAY(&scratch, double, columns);
    double *upper = ARENA_ARRAY(&scratch, double, columns);
    double *cost = ARENA_ARRAY(&scratch, double, columns);
    for (int j = 0; j < columns; j++) {
        lower[j] = clp_limit(model->columns[j].lower);
        upper[j] = clp_limit(model->columns[j].upper);
        cost[j] = -model->columns[j].gain;
    }
    double *row_lower = ARENA_ARRAY(&scratch, double, rows);
    double *row_upper = ARENA_ARRAY(&scratch, double, rows);
    for (int i = 0; i < rows; i++) {
        row_lower[i] = clp_limit(model->rows[i].lower);
        row_upper[i] = clp_limit(model->rows[i].upper);
    }
    linear_solver_close(solver);
    Clp_Simplex *clp = Clp_newModel();
    Clp_setLogLevel(clp, 0);
    Clp_setPerturbation(clp, PERTURB_ALWAYS);
    Clp_loadProblem(clp, columns, rows, packed.starts, packed.rows,
                    packed.values, lower, upper, cost, row_lower, row_upper);
    *solver = (LinearSolver){.clp = clp,
                             .model = model,
                             .columns_loaded = columns,
                             .rows_loaded = rows,
                             .entries_loaded = model->entry_count};
}

/* The entries that are new, by column or by row. */
typedef struct NewEntries {
    int *starts;
    int *others;
    double *values;
} NewEntries;

static NewEntries new_entries(const LinearSolver *solver, Arena *arena,
                              int count, bool is_by_column)
{
    const LinearModel *model = solver->model;
    int first = solver->entries_loaded;
    int entries = model->entry_count - first;
    int offset = is_by_column ? solver->columns_loaded : solver->rows_loaded;
    NewEntries out = {ARENA_ARRAY(arena, int, count + 1),
                      ARENA_ARRAY(arena, int, entries),
                      ARENA_ARRAY(arena, double, entries)};
    for (int e = 0; e < entries; e++) {
        const LinearEntry *entry = &model->entries[first + e];
        int key = is_by_column ? entry->column : entry->row;
        out.starts[key - offset + 1]++;
        out.others[e] = is_by_column ? entry->row : entry->column;
        out.values[e] = entry->value;
    }
    for (int j = 0; j < count; j++) {
        out.starts[j + 1] += out.starts[j];
    }
    return out;
}

void linear_solver_add_columns(LinearSolver *solver)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const LinearModel *model = solver->model;
    int count = model->column_count - solver->columns_loaded;
    NewEntries entries = new_entries(solver, &scratch, count, true);
    double *lower = ARENA_ARRAY(&scratch, double, count);
    double *upper = ARENA_ARRAY(&scratch, double, count);
    double *cost = ARENA_ARRAY(&scratch, double, count);
    for (int j = 0; j < count; j++) {
        const LinearColumn *column =
            &model->columns[solver->columns_loaded + j];
        lower[j] = clp_limit(column->lower);
        upper[j] = clp_limit(column->upper);
        cost[j] = -column->gain;
    }
    Clp_addColumns(solver->clp, count, lower, upper, cost, entries.starts,
                   entries.others, entries.values);
    solver->columns_loaded = model->column_count;
    solver->entries_loaded = model->entry_count;
}

void linear_solver_add_rows(LinearSolver *solver)
{
    CLEANUP(arena_release) Arena scratch = {0};
    const LinearModel *model = solver->model;
    int count = model->row_count - solver->rows_loaded;
    NewEntries entries = new_entries(solver, &scratch, count, false);
    double *lower = ARENA_ARRAY(&scratch, double, count);
    double *upper = ARENA_ARRAY(&scratch, double, count);
    for (int i = 0; i < count; i++) {
        lower[i] = clp_limit(model->rows[solver->rows_loaded + i].lower);
        upper[i] = clp_limit(model->rows[solver->rows_loaded + i].upper);
    }
    Clp_addRows(solver->clp, count, lower, upper, entries.starts,
                entries.others, entries.values);
    solver->rows_loaded = model->row_count;
    solver->entries_loaded = model->entry_count;
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

Err linear_solver_first(LinearSolver *solver)
{
    Clp_Solve *how = ClpSolve_new();
    ClpSolve_setSolveType(how, 0, -1);
    ClpSolve_setPresolveType(how, 0, -1);
    Clp_initialSolveWithOptions(solver->clp, how);
    ClpSolve_delete(how);
    return status_of(solver);
}

Err linear_solver_primal(LinearSolver *solver)
{
    Clp_primal(solver->clp, 0);
    return status_of(solver);
}

Err linear_solver_dual(LinearSolver *solver)
{
    Clp_dual(solver->clp, 0);
    return status_of(solver);
}

double linear_solver_value(const LinearSolver *solver)
{
    return solver->model->constant - Clp_objectiveValue(solver->clp);
}

int linear_solver_steps(const LinearSolver *solver)
{
    return Clp_numberIterations(solver->clp);
}

const double *linear_solver_columns(const LinearSolver *solver)
{
    return Clp_primalColumnSolution(solver->clp);
}

void linear_solver_prices(const LinearSolver *solver, double *out)
{
    const double *duals = Clp_dualRowSolution(solver->clp);
    for (int i = 0; i < solver->rows_loaded; i++) {
        out[i] = -duals[i];
    }
}
