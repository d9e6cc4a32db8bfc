/* What one week's goods bring: families of goods that are joined by a mixed
 * product, each valued by itself.
 *
 * A family of one goods is a ladder of prices, filled from the top: firm orders
 * together take at most what can be counted on, all together what is expected.
 * Joined goods are a small linear programme (plan/sales_simplex). An order's
 * worth a unit is its price and the price of missing it, and what its fish
 * would cost without a buyer; the misses of everything wanted are taken off
 * once, in missed_all, and that of fish with the catch. */
#ifndef LEAT_PLAN_SALES_H
#define LEAT_PLAN_SALES_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/sales_simplex.h"

/* A sale that takes one goods: an order, or a step of an outlet. */
typedef struct SalesStep {
    double price; /* of a unit of the goods */
    double room;  /* units of the goods */
    bool is_firm;
} SalesStep;

typedef struct SalesFamily {
    int goods_count;
    int *goods;
    bool is_ladder;
    SalesStep *steps; /* ladder: of all weeks, by week in falling price */
    int *step_from;   /* by week, and the end */
    int *low_row;     /* joined: by goods, or PLAN_NONE without firm orders */
    SalesSimplex *weeks;
    double *right; /* joined: room for a right side */
} SalesFamily;

typedef struct Sales {
    const Problem *problem;
    SalesFamily *families;
    int family_count;
    int *family_of;    /* by goods */
    double missed_all; /* price of missing everything that is wanted */
} Sales;

/* Goods of a family in one week: what can be counted on and what is expected,
 * by goods of the family; both >= 0. */
typedef struct SalesSupply {
    const double *low;
    const double *mean;
} SalesSupply;

void sales_open(Sales *sales, const Problem *problem, Arena *arena);

/* The most that the supply can bring in that week. */
double sales_week(const Sales *sales, int family, int week,
                  const SalesSupply *supply);

/* No less than sales_week, found at once from the prices of the last call of
 * it for that family and week. */
double sales_bound(const Sales *sales, int family, int week,
                   const SalesSupply *supply);

/* Most goods in any family: size of a supply. */
int sales_most_goods(const Sales *sales);

#endif
