/* Can this order be taken? A plan with it beside the accepted plan without. */
#ifndef LEAT_DESK_CAN_TAKE_H
#define LEAT_DESK_CAN_TAKE_H

#include "desk/plan_year.h"
#include "plan/what_if.h"

typedef struct CanAsk {
    PlanYearAsk plan;    /* folder, seed, moves, stop, progress */
    const char *product; /* id of products.csv */
    const char *buyer;   /* id of buyers.csv */
    double quantity;     /* units a week */
    int32_t from;        /* first day */
    int32_t until;       /* last day; DATE_NEVER: without end */
    int64_t price_e4;    /* of a unit; 0: the list's */
    bool wants_ceiling;  /* tell what binds where it cannot simply be kept */
} CanAsk;

typedef struct CanAnswer {
    PlanYear before; /* without the order */
    PlanYear after;  /* with it; its ceiling where that was asked for */
    WhatIf found;
} CanAnswer;

/* ERR_NOT_FOUND names an unknown product or buyer, and says when no plan was
 * accepted; ERR_INPUT a quantity or dates that make no sense. */
NODISCARD Err can_take(const CanAsk *ask, Arena *arena, CanAnswer *out);

#endif
