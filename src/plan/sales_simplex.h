/* A small dense linear programme that is solved again and again for other
 * right sides: one week's sales of goods that share products.
 *
 *     max gain x,  matrix x <= right,  0 <= x <= upper,  right >= 0
 *
 * Dual simplex with bounded columns on a full tableau. x at the bound that its
 * gain asks for is dual feasible whatever the right side, so the last basis is
 * always a start: most calls need no pivot or one. All memory is taken at
 * opening. */
#ifndef LEAT_PLAN_SALES_SIMPLEX_H
#define LEAT_PLAN_SALES_SIMPLEX_H

#include <stdint.h>

#include "base/arena.h"

typedef struct SalesSimplex {
    int rows;
    int columns;          /* without the slacks, which follow them */
    const double *matrix; /* Borrowed: rows x columns. */
    const double *gain;   /* Borrowed: by column. */
    const double *upper;  /* Borrowed: by column, finite, >= 0. */
    double *right;        /* by row: the one last solved for */
    double *table;        /* rows x (columns + rows): inverse basis x [A I] */
    double *reduced;      /* by column and slack */
    double *level;        /* by row: value of its basic variable */
    double *most;         /* by row: upper bound of its basic variable */
    double worth;         /* gain of the present levels */
    int *basis;           /* by row */
    int *filled;          /* room: columns that are not 0 in a row */
    uint8_t *place;       /* by column and slack: SalesPlace */
    int pivots;           /* since the tableau was last made afresh */
} SalesSimplex;

/* matrix, gain and upper stay in use until the arena goes. */
void sales_simplex_open(SalesSimplex *simplex, const SalesSimplex *shape,
                        Arena *arena);

/* The best gain for that right side (by row, each >= 0). */
double sales_simplex_solve(SalesSimplex *simplex, const double *right);

/* No less than the best gain for that right side: the last basis's prices. */
double sales_simplex_bound(const SalesSimplex *simplex, const double *right);

/* Of the last solution: value of column j; what one more of row i earns. */
double sales_simplex_amount(const SalesSimplex *simplex, int column);
double sales_simplex_price(const SalesSimplex *simplex, int row);

#endif
