/* Fish that may not share a tank: rows added only where they are broken. */
#ifndef LEAT_PLAN_LINEAR_CLIQUES_H
#define LEAT_PLAN_LINEAR_CLIQUES_H

#include "plan/linear_parts.h"

/* Adds a row for each tank and week in which fish of sizes that are no
 * neighbours meet, by the column values x of the runs. Returns how many. */
int linear_add_cliques(LinearPlan *plan, const double *x);

#endif
