/* Two plans of one problem side by side: value, orders' weeks, batches, fish,
 * and the limits that one of them breaks. */
#ifndef LEAT_PLAN_COMPARE_H
#define LEAT_PLAN_COMPARE_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"
#include "plan/verify.h"

/* How an order's week changes. A week is kept as plan/report counts it. */
typedef enum CompareTurn {
    TURN_LOST,  /* kept before, short now */
    TURN_LESS,  /* short before, and more so */
    TURN_MORE,  /* short before, and less so */
    TURN_GAINED /* short before, kept now */
} CompareTurn;

typedef struct CompareWeek {
    int week;
    CompareTurn turn;
    double wanted; /* units */
    double before;
    double after;
} CompareWeek;

typedef struct CompareOrder {
    int order;
    int weeks; /* with something wanted */
    int kept_before;
    int kept_after;
    double delivered_before;
    double delivered_after;
    CompareWeek *changes; /* weeks that change by more than a hundredth */
    int change_count;
} CompareOrder;

/* What of a way stands on a bed from a week on; a batch that moved is two. */
typedef struct CompareBatch {
    int week; /* of setting */
    int way;
    int bed;
    bool is_edge;
    int sow_week; /* below 0: sown before the plan */
    int clear_week;
    int units_before; /* sections, or plants of an edge */
    int units_after;
    double plants_before;
    double plants_after;
} CompareBatch;

/* Fish stocked, graded or sold, by week, batch and tanks. */
typedef struct CompareStep {
    int week;
    int kind; /* MOVE_STOCK, MOVE_GRADE, MOVE_SALE */
    int stock;
    int tank;    /* stocked into, graded or sold from */
    int to_tank; /* graded into; else PLAN_NONE */
    int before;  /* heads at the start */
    int after;
} CompareStep;

typedef struct CompareClean {
    int bed;
    int week_before; /* PLAN_NONE: none */
    int week_after;
} CompareClean;

/* One limit broken in weeks on end. */
typedef struct CompareBreak {
    VerifyBreak what; /* of its worst week; section: the first */
    int last_section;
    int first_week; /* PLAN_NONE: of no week */
    int last_week;
    bool is_new;      /* the choices of today do not break it, or less */
    const char *text; /* of the worst week, in words */
} CompareBreak;

/* Feed that beds want and do not get: no limit, it costs yield. */
typedef struct CompareFeed {
    int loop;
    double short_before_kg; /* over the plan */
    double short_after_kg;
    int worst_week; /* where it is most more; PLAN_NONE: nowhere */
    double worst_kg;
} CompareFeed;

typedef enum CompareVerdict {
    COMPARE_FITS, /* breaks nothing that today does not */
    COMPARE_SOFT, /* breaks what a grower may want all the same */
    COMPARE_HARD
} CompareVerdict;

typedef struct PlanCompare {
    CompareOrder *orders; /* those that change */
    int order_count;
    CompareBatch *batches; /* by week */
    int batch_count;
    CompareStep *steps; /* by week */
    int step_count;
    CompareClean *cleans;
    int clean_count;
    CompareBreak *breaks; /* of the plan after; new and hard ones first */
    int break_count;
    int mended; /* limits that only those of today break, each week one */
    CompareFeed *feed; /* by loop, those that change */
    int feed_count;
    CompareVerdict verdict;
    double value_before; /* as the separate checker adds them up */
    double value_after;
} PlanCompare;

/* The outcomes of both have been filled. today: the choices that people work
 * by; what they break already is not new. May be before. */
void plan_compare(const Problem *problem, const PlanSolution *before,
                  const PlanSolution *after, const PlanSolution *today,
                  Arena *arena, PlanCompare *out);

/* Their broken limits alone: fills breaks, mended, verdict and values. */
void plan_compare_breaks(const Problem *problem, const PlanSolution *before,
                         const PlanSolution *after, const PlanSolution *today,
                         Arena *arena, PlanCompare *out);

#endif
