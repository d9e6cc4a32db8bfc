/* The ceiling of a planning problem: its linear relaxation, which no plan can
 * beat, and what one more of each scarce thing would earn.
 *
 * Rows (1)-(18) of docs/planning.md with all whole numbers relaxed and bed
 * limits by bed kind. Options and routes of fish are priced in until none is
 * left that would earn, so the ceiling holds for all of them, and for every
 * route that docs/planning.md allows. */
#ifndef LEAT_PLAN_LINEAR_H
#define LEAT_PLAN_LINEAR_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* What one more would earn, in money; 0 where it is not scarce. By week in
 * rows of week_count. */
typedef struct LinearPrices {
    double *section;     /* [kind] a section of floor */
    double *edge_m;      /* [kind] a metre of edge */
    double *sun;         /* [kind] a section without shade */
    double *trays;       /* [week] */
    double *hours;       /* [week] an hour of work */
    double *feed_kg;     /* [loop] a kg of feed given */
    double *nitrify_g_d; /* [loop] g TAN a day that beds could carry */
    double *fish_kg;     /* [tank] a kg of fish more than its ceiling */
    double *air_g_h;     /* [tank] g oxygen an hour */
    double *goods;       /* [goods] a unit of it to sell */
    double *counted_on;  /* [goods] a unit of it that can be counted on */
} LinearPrices;

typedef struct LinearRun {
    PlanRun run; /* count: rounded */
    double count;
} LinearRun;

typedef struct LinearCeiling {
    double value;    /* no plan is worth more; within 2 in 10,000 of the least
                        such value of this relaxation */
    double *units;   /* [option] relaxed */
    double *cleans;  /* [kind][week] relaxed */
    double *stocked; /* [stock] fish, relaxed */
    LinearRun *runs; /* count above 0 */
    int run_count;
    PlanRun *routes; /* those in the relaxation; counts are not set */
    int route_count;
    LinearPrices prices;
    int row_count;
    int column_count;
    int round_count;
    int step_count; /* simplex steps */
} LinearCeiling;

/* Asked within and after each round of prices; false stops. value: the
 * relaxation of the last round (0: none yet); ceiling: what holds already, may
 * be INFINITY. */
typedef struct LinearWatch {
    void *self;
    bool (*go_on)(void *self, double value, double ceiling);
} LinearWatch;

/* from: a plan whose options and routes are the first columns, so that the
 * first rounds are short; any plan does, good or not. NULL: some of each. watch
 * may be NULL. ERR_CONFLICT: no plan keeps all limits, not even relaxed.
 * ERR_STOPPED: the watch said so. ERR_LIMIT: the solver gave up. Not for
 * several threads of one process. */
NODISCARD Err linear_ceiling(const Problem *problem, const PlanSolution *from,
                             const LinearWatch *watch, Arena *arena,
                             LinearCeiling *out);

#endif
