/* What the files of plan/linear that price columns in share: one relaxation
 * being solved. */
#ifndef LEAT_PLAN_LINEAR_WORK_H
#define LEAT_PLAN_LINEAR_WORK_H

#include "plan/linear.h"
#include "plan/linear_parts.h"
#include "plan/linear_solver.h"

typedef struct LinearWork {
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
} LinearWork;

/* Prices of the last solution, by row; in work->prices. */
const double *linear_fresh_prices(LinearWork *work);

/* Adds the routes and options that earn at the last solution's prices and
 * solves again; is_done, and nothing solved, when none is left or the ceiling
 * is met. */
NODISCARD Err linear_price_in(LinearWork *work, bool *is_done);

#endif
