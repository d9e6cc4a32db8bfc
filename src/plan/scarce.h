/* The ceiling in a grower's words: what is scarce, when, and what one more of
 * it would earn. */
#ifndef LEAT_PLAN_SCARCE_H
#define LEAT_PLAN_SCARCE_H

#include "base/arena.h"
#include "plan/linear.h"

/* One scarce thing over the horizon. */
typedef struct PlanScarce {
    const char *what; /* "a bed of H1 south" */
    int weeks;        /* in which one more would earn something */
    int first_week;
    int last_week;
    int peak_week;
    double peak;  /* money in that week */
    double total; /* money over the horizon, were it there in all weeks */
} PlanScarce;

typedef struct PlanCeiling {
    double value;       /* no plan made of these batches earns more */
    PlanScarce *scarce; /* by what it would earn, most first */
    int scarce_count;
    int row_count;
    int column_count;
} PlanCeiling;

void plan_scarce(const Problem *problem, const LinearCeiling *ceiling,
                 Arena *arena, PlanCeiling *out);

#endif
