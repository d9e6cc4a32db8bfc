/* Of all ways to sell what a plan makes that bring the same money, one that is
 * near another plan's: so that two plans differ only where one earns more.
 * Buyers who pay the same for the same could else change places. */
#ifndef LEAT_PLAN_SELL_ALIKE_H
#define LEAT_PLAN_SELL_ALIKE_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* Changes kept, sold, store and parts of after, and with them sales and missed;
 * its value stays. Both have been filled by plan_evaluate. */
void plan_sell_alike(const Problem *problem, const PlanOutcome *before,
                     Arena *arena, PlanOutcome *after);

#endif
