/* A planning model as MPS bytes, the open format that solvers read: the whole
 * model with its whole numbers marked, or the proof, in which all choices of a
 * plan are fixed and only sales, stores, extra hours and feed are left.
 *
 * The objective is minimised and is the value with its sign turned, constant
 * included (as the objective's right-hand side, also turned). Names are words
 * of linear_model.h with the numbers of what they stand for. */
#ifndef LEAT_PLAN_MPS_H
#define LEAT_PLAN_MPS_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

typedef struct PlanMps {
    const char *bytes; /* followed by a NUL that does not count */
    size_t length;
    int row_count; /* without the objective */
    int column_count;
} PlanMps;

/* The whole model for the routes given (counts are not used). */
void plan_mps_model(const Problem *problem, const PlanRun *routes, int count,
                    Arena *arena, PlanMps *out);

/* The proof of a plan: feasible only when its choices keep all limits by bed
 * kind, and then worth what the plan is worth. */
void plan_mps_proof(const Problem *problem, const PlanSolution *solution,
                    Arena *arena, PlanMps *out);

#endif
