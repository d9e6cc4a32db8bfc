/* Can this order be taken? A plan with it beside the accepted plan without. */
#ifndef LEAT_DESK_CAN_TAKE_H
#define LEAT_DESK_CAN_TAKE_H

#include "desk/plan_year.h"

typedef struct CanAsk {
    PlanYearAsk plan;    /* folder, seed, moves, stop, progress */
    const char *product; /* id of products.csv */
    const char *buyer;   /* id of buyers.csv */
    double quantity;     /* units a week */
    int32_t from;        /* first day */
    int32_t until;       /* last day; DATE_NEVER: without end */
    int64_t price_e4;    /* of a unit; 0: the list's */
} CanAsk;

typedef enum CanVerdict { CAN_YES, CAN_YES_IF, CAN_NO } CanVerdict;

/* A batch that stands in the plan with the order but not in the one without. */
typedef struct CanBatch {
    const char *way;
    const char *bed;
    bool is_edge;
    int units; /* sections or plants */
    int plants;
    int seeds; /* at the farm's confidence; 0 where the way is not sown */
    int32_t sow_on;
    int32_t set_on;
    int32_t pick_from;
} CanBatch;

/* An order that gets less because of this one. */
typedef struct CanLoss {
    const char *order;
    double units;
    int weeks;
} CanLoss;

typedef struct CanAnswer {
    CanVerdict verdict;
    PlanYear before;
    PlanYear after;
    double wanted; /* units of the asked order within the horizon */
    double kept;
    int short_week; /* the first in which it cannot be kept, or PLAN_NONE */
    double value_change; /* with the order less without; as the plan's value */
    CanBatch *batches;
    int batch_count;
    CanLoss *losses;
    int loss_count;
    double more_feed_kg_d; /* wanted by the beds in the worst week */
    double more_hours_w;   /* in the worst week */
    double more_hours;     /* in all */
    /* The last day on which refusing costs nothing: the day before the first
     * seed of the new batches. DATE_NEVER where none is needed. */
    int32_t refuse_by;
} CanAnswer;

/* ERR_NOT_FOUND names an unknown product or buyer, and says when no plan was
 * accepted; ERR_INPUT a quantity or dates that make no sense. */
NODISCARD Err can_take(const CanAsk *ask, Arena *arena, CanAnswer *out);

#endif
