/* What a plan makes of the seedlings that stand in trays. */
#ifndef LEAT_PLAN_TRAYS_H
#define LEAT_PLAN_TRAYS_H

#include "plan/build.h"
#include "plan/solution.h"

typedef struct PlanTrays {
    const char *id; /* Borrowed: the batch of seedlings */
    int way;
    int plants;      /* that stand; 0: not counted */
    int set;         /* of them that the plan sets out */
    int first_week;  /* of setting; PLAN_NONE: none is set */
    const char *why; /* none can be set, in words; else NULL */
} PlanTrays;

/* A line for each batch that the plan may place, and for each whose row has a
 * place but that comes to nothing there. *out is in the arena; the number of
 * lines. */
int plan_trays(const Problem *problem, const PlanIndex *index,
               const PlanSolution *solution, Arena *arena, PlanTrays **out);

#endif
