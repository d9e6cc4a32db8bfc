/* How a new plan differs from the accepted one, and why. */
#ifndef LEAT_PLAN_CHANGE_H
#define LEAT_PLAN_CHANGE_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* What of a way is set in a week: sections, or plants of an edge. Both alike:
 * only the beds are others. */
typedef struct PlanChangeLine {
    int way;
    bool is_edge;
    int set_week;
    int before;
    int after;
} PlanChangeLine;

/* An order or an outlet's step that is served otherwise. */
typedef struct PlanChangeSale {
    const char *id;
    int product;
    double before; /* units over the horizon */
    double after;
    double money; /* sales and misses, after less before */
} PlanChangeSale;

typedef struct PlanChange {
    int stayed; /* batches: the same way on the same bed in the same week stays,
                   whatever became of its size */
    int added;
    int dropped;
    PlanChangeLine *lines; /* by week */
    int line_count;
    int left_out;          /* batches that the farm no longer offers */
    int broken;            /* limits that the accepted plan breaks today */
    const char *break_of;  /* one of them, in words; NULL: none */
    double value_before;   /* what the accepted plan would bring today */
    PlanChangeSale *sales; /* by money, the most first */
    int sale_count;
} PlanChange;

/* before: the accepted plan as recalled, its outcome filled; left_out as
 * plan_recall told. */
void plan_change(const Problem *problem, const PlanSolution *before,
                 int left_out, const PlanSolution *after, Arena *arena,
                 PlanChange *out);

/* What changing a section, or an edge batch, set in a week counts for. */
double plan_change_price(const Problem *problem, int week);

/* What of the accepted plan is as it was in another, in that price. */
double plan_kept_worth(const Problem *problem, const PlanSolution *accepted,
                       const PlanSolution *other);

#endif
