/* A plan as choices on real beds, tanks and weeks, and what they bring.
 *
 * Choices alone make a plan; the value and the tables follow from them. */
#ifndef LEAT_PLAN_SOLUTION_H
#define LEAT_PLAN_SOLUTION_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "plan/problem.h"

/* units of an option on a bed: sections from first_section on, or plants. */
typedef struct PlanPlacement {
    int option;
    int bed;
    int first_section; /* floor; 0 on an edge */
    int units;
} PlanPlacement;

/* count fish (at the start) of a lane that take one route: from tank to
 * to_tank in move_week (or stay), sold in sale_week as goods; sale_week =
 * week_count: alive at the end. */
typedef struct PlanRun {
    int stock;
    int lane;
    int tank;
    int move_week; /* PLAN_NONE: never moved */
    int to_tank;   /* = tank when never moved */
    int sale_week;
    int goods; /* PLAN_NONE when alive at the end */
    int count;
} PlanRun;

typedef struct PlanCleaning {
    int bed;
    int week;
} PlanCleaning;

/* What follows from the choices, by exact sales (plan/evaluate). Arrays are
 * order-major, outlet-major, goods-major or by week as named. Parts are
 * numbered through all products: product 0's first, then product 1's. */
typedef struct PlanOutcome {
    double value; /* the model's objective: see docs/planning.md */
    double sales;
    double missed; /* price of what was missed */
    double plant_cost;
    double fish_cost;   /* young fish and feed */
    double unsold_cost; /* fish that are caught and no buyer takes */
    double extra_wages;
    double short_cost;
    double end_fish;   /* living fish at the end */
    double *kept;      /* [order][week] units delivered */
    double *sold;      /* [outlet][week] units sold */
    double *made;      /* [goods][week] mean yield and fish caught */
    double *store;     /* [goods][week] kept for the next week */
    double *part_firm; /* [part][week] goods taken for firm orders: gF */
    double *part_rest; /* [part][week] for all other sales: gR */
    double *extra_h;   /* [week] hours above those paid */
    double *hours;     /* [week] all work */
    double *pool_kg;   /* [loop][week] */
    double *short_kg;  /* [loop][week] */
    double *given_kg;  /* [loop][week] feed given */
    double *want_kg;   /* [loop][week] feed wanted */
} PlanOutcome;

typedef struct PlanSolution {
    PlanPlacement *placements;
    int placement_count;
    PlanRun *runs;
    int run_count;
    PlanCleaning *cleanings;
    int cleaning_count;
    /* Recalled: where each choice stands in the farm's accepted plan, else
     * NULL. By placement its row of plan_plants, or PLAN_NONE; by run the
     * number of its rows of plan_moves, or 0. */
    int *placement_rows;
    int *run_numbers;
    PlanOutcome outcome;
} PlanSolution;

#endif
