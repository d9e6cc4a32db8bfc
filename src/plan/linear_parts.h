/* What the files of linear, evaluate and mps share: the planning model being
 * built. */
#ifndef LEAT_PLAN_LINEAR_PARTS_H
#define LEAT_PLAN_LINEAR_PARTS_H

#include "plan/linear_model.h"
#include "plan/problem.h"
#include "plan/solution.h"

/* Where rows stand in the model; PLAN_NONE where there is none. Arrays have
 * one entry a week for each of the named. */
typedef struct LinearRows {
    int *floor; /* [kind] */
    int *edge;  /* [kind] */
    int *shade; /* [kind] */
    int *nursery;
    int *seedlings; /* [seedlings], not by week */
    int *hours;
    int *pool;        /* [loop] */
    int *nitrify;     /* [loop] */
    int *goods;       /* [goods] */
    int *promise;     /* [goods] */
    int *lanes;       /* [stock][lane], not by week */
    int *density;     /* [tank] */
    int *oxygen;      /* [tank] */
    int *batches;     /* [tank] */
    int *grade_rate;  /* [tank]: gradings in the weeks from this one on */
    int *grading;     /* [tank]; exact form */
    int *catching;    /* ceiling: [week]; exact form: [tank] */
    int *catch_least; /* [week] */
    int *heads;       /* [stock][tank]; exact form */
} LinearRows;

/* Stocks of which no two may share a tank in a week. */
typedef struct LinearClique {
    int row;
    int tank;
    int week;
    int count;
    int *stocks;
} LinearClique;

typedef struct LinearPlan {
    Arena *arena;
    const Problem *problem;
    int weeks;
    /* Exact: whole numbers are whole, batches in a tank and events are 0 or
     * 1, and the runs are given. Else all that is relaxed, 0-1 columns are
     * projected out and runs are priced in. */
    bool is_exact;
    /* By option: in the first relaxation; NULL: some of them are. */
    const bool *first_options; /* Borrowed. */
    LinearModel model;
    LinearRows rows;
    LinearClique *cliques;
    int clique_count;
    int clique_room;
    int *unit_columns;  /* [option], PLAN_NONE for standing */
    int *stock_columns; /* [stock] */
    PlanRun *runs;      /* count is not used */
    int *run_columns;
    int run_count;
    int run_room;
} LinearPlan;

/* An empty model. */
void linear_plan_init(LinearPlan *plan, Arena *arena, const Problem *problem,
                      bool is_exact);

/* PLAN_NONE in count entries. */
int *linear_no_rows(LinearPlan *plan, int count);

/* Rows and columns that do not depend on runs. Hours first: others add to
 * them; sales before plants and fish, which add to the goods' rows. */
void linear_add_hours(LinearPlan *plan);
void linear_add_sales(LinearPlan *plan);
void linear_add_pools(LinearPlan *plan);
void linear_add_plants(LinearPlan *plan);

/* The ceiling starts with some options: what one of the others would earn at
 * these prices, and the most units there can be; and its column. */
double linear_option_profit(LinearPlan *plan, int option, const double *prices,
                            double *most);
void linear_add_option(LinearPlan *plan, int option);
void linear_add_fish(LinearPlan *plan);

/* Exact form: the 0-1 columns of tanks and events that these runs need; before
 * the runs are added. */
void linear_add_events(LinearPlan *plan, const PlanRun *runs, int count);

/* A run as a column with its entries; its count is not used. */
void linear_add_run(LinearPlan *plan, const PlanRun *run);

/* The whole exact form for the routes given; and the same with every choice
 * fixed to that of a plan. Both start an empty plan. */
void linear_exact_model(LinearPlan *plan, Arena *arena, const Problem *problem,
                        const PlanRun *runs, int count);
void linear_exact_proof(LinearPlan *plan, Arena *arena, const Problem *problem,
                        const PlanSolution *solution);

/* The weeks in which a run is in its first and second tank, and what of its
 * feed it gets in a week. */
int linear_run_tank(const PlanRun *run, int week);
double linear_run_feed_frac(const Problem *problem, const PlanRun *run,
                            int week);

/* Share of an event that a fish takes which leaves its tank in a week: one over
 * the most that can leave at once. */
double linear_event_share(const Problem *problem, int stock, int tank,
                          int week);

/* Most fish (at their start) of a stock that its tank can hold in a week. */
double linear_most_heads(const Problem *problem, int stock, int tank, int week);

/* Mean weight of a stock in a week: docs/planning.md (9). */
double linear_stock_mean_g(const PlanStock *stock, int week);

/* Most fish of goods without a store that can be sold in a week. */
double linear_most_fish_sold(const Problem *problem, int week);

/* True when all parts are fixed. */
bool linear_is_fixed_mix(const PlanProduct *product);

/* Fish of a lane when heads are stocked: docs/planning.md (6). */
int linear_lane_heads(int heads, int lane);

#endif
