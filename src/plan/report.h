/* What a plan tells: each order's weeks, each way's earnings, the fish. */
#ifndef LEAT_PLAN_REPORT_H
#define LEAT_PLAN_REPORT_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* An order over the horizon. A week counts as kept when nothing worth the
 * name (a hundredth of it) is missing. */
typedef struct PlanPromiseLine {
    int order;
    int weeks; /* with something wanted */
    int kept_weeks;
    double wanted; /* units */
    double delivered;
    int worst_week; /* PLAN_NONE where none is short */
    double worst_short;
} PlanPromiseLine;

/* A way over the horizon; standing batches included. Money is sales of its
 * goods less seed and trays; a mix shares its money by weight. */
typedef struct PlanWayLine {
    int way;
    double bed_weeks;  /* floor, in whole beds */
    double edge_weeks; /* metres of edge x weeks */
    double hours;
    double units; /* made */
    double units_sold;
    double money;
    double per_bed_week; /* 0 where it holds no floor */
    double per_hour;
} PlanWayLine;

/* Units of goods made above what is sold or stored, by week. */
typedef struct PlanReport {
    PlanPromiseLine *promises; /* as the problem's orders */
    PlanWayLine *ways;         /* as the problem's ways; bed_weeks 0: unused */
    double *over;              /* [goods][week] */
    double fish_money;
    double fish_sold; /* heads */
    double feed_kg;
} PlanReport;

/* solution's outcome has been filled. */
void plan_report(const Problem *problem, const PlanSolution *solution,
                 Arena *arena, PlanReport *out);

#endif
