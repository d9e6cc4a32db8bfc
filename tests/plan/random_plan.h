/* Plans for tests: drawn at random, kept only where the checker passes them. */
#ifndef LEAT_TESTS_RANDOM_PLAN_H
#define LEAT_TESTS_RANDOM_PLAN_H

#include "base/rng.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* A plan that keeps all limits, with as many of tries random placements and
 * stockings as fit, evaluated. Fails the test when there is none to begin with.
 */
void random_plan(const Problem *problem, Rng *rng, int tries, Arena *arena,
                 PlanSolution *out);

/* A tiny invented farm by its seed, and such a plan of it. */
void random_plan_of(uint64_t seed, Arena *arena, Problem *out_problem,
                    PlanSolution *out_plan);

#endif
