/* What a plan brings: with all choices fixed, the best that orders, outlets,
 * mixes and stores can make of them, exactly, by linear programming. */
#ifndef LEAT_PLAN_EVALUATE_H
#define LEAT_PLAN_EVALUATE_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* Fills out, in arena, for the choices of solution; its own outcome is not
 * read. Limits are not checked (plan/verify does): hours above the most that
 * can be had are counted as extra hours all the same. ERR_LIMIT when the
 * solver gave up. */
NODISCARD Err plan_evaluate(const Problem *problem,
                            const PlanSolution *solution, Arena *arena,
                            PlanOutcome *out);

#endif
