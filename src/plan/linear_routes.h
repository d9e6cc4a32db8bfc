/* Routes of fish priced by the linear relaxation: for each lane, each tank it
 * may start in and each tank it may go to, the route that earns most at present
 * prices. All weeks are looked at, so where no route is left that earns, none
 * is missing from the relaxation. */
#ifndef LEAT_PLAN_LINEAR_ROUTES_H
#define LEAT_PLAN_LINEAR_ROUTES_H

#include "plan/linear_parts.h"

/* Of columns alike only those are added that earn at least this share of the
 * best of them: many at once make a round slow. */
#define LINEAR_GOOD_SHARE 0.4

typedef struct PricedRun {
    PlanRun run;
    double profit; /* gain less the price of all that it takes */
} PricedRun;

/* prices: by row of the plan's model, what one more would earn. Calls found
 * with the good ones among each lane's best routes, with a profit above least;
 * returns the sum over lanes of the most that profits above 0 can add to the
 * relaxation's value. */
double linear_price_routes(const LinearPlan *plan, const double *prices,
                           double least, void *self,
                           void (*found)(void *self, const PricedRun *run));

/* Routes to start from: simple ones, in steps of so many weeks. */
void linear_first_routes(const LinearPlan *plan, int step, void *self,
                         void (*found)(void *self, const PricedRun *run));

/* Best goods for a lane sold in that week at these prices (NULL: the heaviest
 * size it has reached), or PLAN_NONE. */
int linear_best_size(const LinearPlan *plan, const PlanLane *lane, int week,
                     const double *prices);

bool linear_is_same_route(const PlanRun *a, const PlanRun *b);

/* May a lane of the stock be moved, sold there then? */
bool linear_may_move(const Problem *problem, int stock, int tank, int to_tank,
                     int week);
bool linear_may_sell(const Problem *problem, int stock, int tank, int week);
bool linear_may_start(const Problem *problem, int stock, int tank);

#endif
