/* CLP behind a small face: load a model, solve, add columns and rows. It
 * minimises; signs are turned here so that callers only meet gains. */
#ifndef LEAT_PLAN_LINEAR_SOLVER_H
#define LEAT_PLAN_LINEAR_SOLVER_H

#include "plan/linear_model.h"

typedef struct LinearSolver {
    void *clp; /* Owned. */
    const LinearModel *model;
    int columns_loaded;
    int rows_loaded;
    int entries_loaded;
} LinearSolver;

/* A zeroed solver may be closed. */
void linear_solver_close(LinearSolver *solver);

void linear_solver_load(LinearSolver *solver, const LinearModel *model);

/* Takes over the columns that were added to the model since; their entries
 * stand in rows already loaded and follow each other column by column. */
void linear_solver_add_columns(LinearSolver *solver);

/* Takes over rows added to the model since, on columns already loaded; their
 * entries follow each other row by row. */
void linear_solver_add_rows(LinearSolver *solver);

/* Dual simplex after presolving, for a first solve. */
NODISCARD Err linear_solver_first(LinearSolver *solver);

/* From the present basis: primal after new columns, dual after new rows. */
NODISCARD Err linear_solver_primal(LinearSolver *solver);
NODISCARD Err linear_solver_dual(LinearSolver *solver);

double linear_solver_value(const LinearSolver *solver); /* with constant */
int linear_solver_steps(const LinearSolver *solver);

/* Borrowed until the next call: column values; and, into out, what one more
 * of each row's limit would earn. */
const double *linear_solver_columns(const LinearSolver *solver);
void linear_solver_prices(const LinearSolver *solver, double *out);

#endif
