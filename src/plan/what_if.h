/* A plan with one more order beside the plan without it: what the order needs,
 * and what gives way. */
#ifndef LEAT_PLAN_WHAT_IF_H
#define LEAT_PLAN_WHAT_IF_H

#include "plan/build.h"
#include "plan/solution.h"

/* One of the two plans; the outcome of its solution has been filled. */
typedef struct WhatIfSide {
    const Farm *farm;
    const Book *book;
    const Problem *problem;
    const PlanIndex *index;
    const PlanSolution *solution;
} WhatIfSide;

typedef enum WhatIfVerdict { CAN_YES, CAN_YES_IF, CAN_NO } WhatIfVerdict;

/* A batch of the order's ways that stands only in the plan with the order. */
typedef struct WhatIfBatch {
    const char *way;
    const char *bed;
    bool is_edge;
    int units; /* sections or plants */
    int plants;
    int seeds;         /* at the farm's confidence; 0: from trays */
    const char *trays; /* seedlings that it is set from, or NULL */
    int32_t sow_on;    /* from trays: the day of setting */
    int32_t set_on;
    int32_t pick_from;
} WhatIfBatch;

/* A product of which the other orders together get less. */
typedef struct WhatIfLoss {
    const char *product;
    double units;
    int weeks;
} WhatIfLoss;

typedef struct WhatIf {
    WhatIfVerdict verdict;
    double wanted; /* units of the asked order within the horizon */
    double kept;
    int short_week;      /* the first in which it is short, or PLAN_NONE */
    double value_change; /* of the plan, with less without, the price of missing
                            the asked order taken out */
    WhatIfBatch *batches;
    int batch_count;
    WhatIfLoss *losses;
    int loss_count;
    double more_feed_kg_d; /* wanted by the beds in the worst week */
    double more_hours_w;   /* in the worst week */
    double more_hours;     /* in all */
    /* The last day on which refusing costs nothing: the day before the first
     * seed of the new batches. DATE_NEVER where none is needed. */
    int32_t refuse_by;
} WhatIf;

/* The asked order is the last of after's orders, and firm. */
void plan_what_if(const WhatIfSide *before, const WhatIfSide *after,
                  Arena *arena, WhatIf *out);

#endif
