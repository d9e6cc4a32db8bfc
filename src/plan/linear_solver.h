/* CLP behind a small face: load a model, solve, add and drop columns, add
 * rows. It minimises; signs are turned here so that callers only meet gains.
 * Rows and columns are always named by their number in the model, of which
 * only some may be here. */
#ifndef LEAT_PLAN_LINEAR_SOLVER_H
#define LEAT_PLAN_LINEAR_SOLVER_H

#include "plan/linear_model.h"

/* Which of the model's rows or columns are here. */
typedef struct LinearHere {
    int *at;    /* by number in the model: place here, or -1 */
    int *which; /* by place: number in the model */
    int room;   /* of both */
    int count;  /* here */
} LinearHere;

typedef struct LinearSolver {
    void *clp; /* Owned. */
    const LinearModel *model;
    LinearHere rows;
    LinearHere columns;
    double *x; /* by column of the model */
    int x_room;
    /* Asked now and then within a primal; false stops it. NULL: not. */
    bool (*go_on)(void *self);
    void *go_on_self;
    int steps; /* of all solves */
} LinearSolver;

/* A zeroed solver may be closed. */
void linear_solver_close(LinearSolver *solver);

void linear_solver_load(LinearSolver *solver, const LinearModel *model);

/* Without the rows that are marked; their limits do not hold until they are
 * added. is_out: by row; NULL: none. */
void linear_solver_load_some(LinearSolver *solver, const LinearModel *model,
                             const bool *is_out);

/* Takes over columns and rows of the model that are not here. Entries of one
 * column in one row must follow each other. */
void linear_solver_add_columns(LinearSolver *solver, const int *columns,
                               int count);
void linear_solver_add_rows(LinearSolver *solver, const int *rows, int count);

/* Forgets columns, for a while or for good; where none of them was used the
 * solution stays. */
void linear_solver_drop_columns(LinearSolver *solver, const int *columns,
                                int count);

bool linear_solver_has_row(const LinearSolver *solver, int row);
bool linear_solver_has_column(const LinearSolver *solver, int column);
bool linear_solver_is_basic(const LinearSolver *solver, int column);

/* From the present basis, which is at first that of no plan: dual at first and
 * after new rows, primal after new columns. ERR_STOPPED: go_on said so. */
NODISCARD Err linear_solver_primal(LinearSolver *solver);
NODISCARD Err linear_solver_dual(LinearSolver *solver);

double linear_solver_value(const LinearSolver *solver); /* with constant */

/* Borrowed until the next call: column values (0: not here); and, into out,
 * what one more of each row's limit would earn (0: not here). */
const double *linear_solver_columns(LinearSolver *solver);
void linear_solver_prices(const LinearSolver *solver, double *out);

#endif
