/* A solution as the tables of the accepted plan, and back. */
#ifndef LEAT_PLAN_RECORD_H
#define LEAT_PLAN_RECORD_H

#include "plan/build.h"
#include "plan/solution.h"

/* What the row of plan.csv says beside the solution. */
typedef struct PlanStamp {
    int32_t accepted_on;
    int32_t seed;
    const char *book; /* hash of book and own figures */
} PlanStamp;

/* Fills the plan tables of *out (a copy of the farm otherwise). A planned
 * batch keeps the id that the farm's accepted plan gave it while way, bed and
 * week (within one) stay. */
void plan_record(const PlanInputs *inputs, const Problem *problem,
                 const PlanIndex *index, const PlanSolution *solution,
                 const PlanStamp *stamp, Arena *arena, Farm *out);

/* The week of a day in the problem; below 0 before it. */
int plan_week_at(const PlanIndex *index, int32_t day);

/* Whether a column of a bed's floor is the one for the shade of its sunny edge:
 * such floors have columns in two lights. */
bool plan_is_shaded(const Farm *farm, int bed, const PlanOption *option);

/* The accepted plan of the farm as choices in the problem; batches that the
 * problem no longer offers are left out and counted. */
void plan_recall(const PlanInputs *inputs, const Problem *problem,
                 const PlanIndex *index, Arena *arena, PlanSolution *out,
                 int *out_left_out);

#endif
