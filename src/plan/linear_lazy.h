/* Rows that wait outside the relaxation until its solution breaks them.
 *
 * Most limits of water and work never bind, but a fish route stands in five of
 * them every week of its life. Leaving a row out can only raise the
 * relaxation, so what it is worth stays a ceiling throughout. */
#ifndef LEAT_PLAN_LINEAR_LAZY_H
#define LEAT_PLAN_LINEAR_LAZY_H

#include "plan/linear_parts.h"
#include "plan/linear_solver.h"

/* By row of the plan's model: does it wait? */
bool *linear_waiting(const LinearPlan *plan, Arena *arena);

/* Those waiting rows that the solver's solution breaks: they are taken over
 * into it; returns how many. */
int linear_add_broken(const LinearPlan *plan, LinearSolver *solver);

#endif
