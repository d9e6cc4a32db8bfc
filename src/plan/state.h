/* A plan under search: choices on real sections, edges and tanks, the rows
 * that follow from them, and the value, all kept up as choices change.
 *
 * A trial is: change choices by the functions below, state_settle for the new
 * value, then state_commit or state_undo. Only rows and weeks that were
 * touched are valued again and kept for undoing. Nothing is allocated after
 * opening. What passes a limit is priced so high that no gain pays for it;
 * state_faults tells whether any is left. */
#ifndef LEAT_PLAN_STATE_H
#define LEAT_PLAN_STATE_H

#include "base/arena.h"
#include "plan/sales.h"
#include "plan/solution.h"
#include "plan/state_index.h"

enum {
    STATE_RUNS = 16,  /* of a lane */
    STATE_EDGES = 32, /* batches on one bed's edge over all weeks */
    STATE_OPS = 512,  /* changes in one trial */
    STATE_STOCKS = 8, /* stocks changed in one trial */
    HOLDER_FREE = 0,
    HOLDER_CLOSED = -1,
    HOLDER_CLEAN = -2
};

typedef struct StateRun {
    int16_t tank;
    int16_t to_tank;
    int16_t move_week; /* PLAN_NONE: never */
    int16_t sale_week; /* week_count: alive at the end */
    int16_t goods;
    int count;
} StateRun;

typedef struct StateStock {
    int count; /* fish; 0: not stocked */
    int16_t run_count[PLAN_LANES];
    StateRun runs[PLAN_LANES][STATE_RUNS];
} StateStock;

typedef struct StateEdge {
    int option;
    int plants;
} StateEdge;

typedef struct StateLimit {
    const double *cap; /* by week; NULL: no limit */
    double price;      /* of a unit above it */
} StateLimit;

typedef enum StateOpKind {
    OP_FLOOR_PUT,
    OP_FLOOR_TAKE,
    OP_EDGE,
    OP_CLEAN,
    OP_STOCK,
} StateOpKind;

typedef struct StateOp {
    StateOpKind kind;
    int place; /* slot, bed or stock */
    int option;
    int before; /* plants, week, or saved stock */
} StateOp;

typedef struct StateSums {
    double value;
    double linear; /* costs and end worth that simply add up */
    double faults; /* of tanks: number */
} StateSums;

typedef struct State {
    const Problem *problem;
    const StateIndex *index;
    const Sales *sales;
    int weeks;
    double *cells; /* [row][week] */
    double *saved;
    int *touched;
    int touched_count;
    int16_t *touch_from; /* by row; from >= until: not touched */
    int16_t *touch_until;
    StateLimit *limits; /* by row */
    double fault_price;
    double money; /* everything sold, at most */
    bool is_soft; /* tanks may be overfull, at a price */
    double sold;  /* change of sales and feed in this trial so far */
    double pooled;
    StateSums now;
    StateSums before;
    int *kept_way; /* [slot][week]: way + 1 that the plan begun from sets
                      there then, 0: none; NULL: begun from none */
    StateEdge *kept_edges; /* [bed][STATE_EDGES]: and on its edge */
    double *kept_price; /* by week: of a section or edge batch that changes */
    int *holder;        /* [slot][week]: option + 1, or HOLDER_... */
    StateEdge *edges;   /* [bed][STATE_EDGES] */
    int *edge_count;
    int *clean_week;     /* by bed; PLAN_NONE: none */
    double *cleans_most; /* by loop, and none: beds in two weeks on end */
    StateStock *stocks;
    int *active;    /* stocks with fish */
    int *active_at; /* by stock: place in active, or PLAN_NONE */
    int active_count;
    uint8_t *there; /* [stock][tank][week]: its runs in the tank then; and after
                       the last week all its runs that are ever in it */
    uint8_t *saved_there;
    double *tank_faults;
    double *tank_faults_before;
    bool has_tank_change;
    StateOp *ops;
    int op_count;
    StateStock *saved_stocks;
    int saved_stock_count;
    double *keep;     /* by goods: share that lasts a week; 0: no store */
    double *supply;   /* room for one family's supply */
    int *family_from; /* by family, in settling */
    int *family_until;
    int *family_list;
    uint8_t *tank_marks; /* by tank: faults to be counted again */
} State;

/* An empty plan: standing batches, standing fish kept where they are. */
void state_open(State *state, const StateIndex *index, const Sales *sales,
                Arena *arena);

static inline double *state_row(const State *state, int row)
{
    return state->cells + (size_t)row * (size_t)state->weeks;
}

/* Says that weeks from <= t < until of the row are about to change. */
void state_touch(State *state, int row, int from, int until);

/* Values what was touched; the new value. May be called again in a trial. */
double state_settle(State *state);
/* As settle, but may stop as soon as the value is sure to be below least: then
 * it answers some value below least, and only state_undo may follow. */
double state_settle_above(State *state, double least);
void state_commit(State *state);
void state_undo(State *state);

/* Everything from the choices again, without what rounding has added. */
void state_rebuild(State *state);

/* Prices what fish pass their limits by: so much money for a week of a tank as
 * full again as it may be; 0: as hard as all limits. state_rebuild must follow.
 */
void state_price_tanks(State *state, double week_money);

/* What is above limits, in their prices: 0 when every limit holds. */
double state_faults(const State *state);

/* units of the option more (or fewer) in all rows; no place is taken. */
void state_add_option(State *state, int option, double units);

/* The floor: the caller has seen that the weeks are free (put) or held (take).
 */
bool state_floor_fits(const State *state, int slot, int option);
void state_floor_put(State *state, int slot, int option);
void state_floor_take(State *state, int slot, int option);

/* Whether the bed's sun and shade agree in those weeks. */
bool state_bed_has_sun(const State *state, int bed, int from, int until);

/* Sections of a bed that its edge shades in a week; and whether one more that
 * wants sun may stand there. */
double state_bed_shade(const State *state, int bed, int week);
bool state_bed_sun_left(const State *state, int bed, int week);

/* Prices changes of a plan from now on; call on an empty plan. */
void state_keep(State *state, const PlanSolution *solution, Arena *arena);
/* What is as it was in that plan, in its price. */
double state_kept_worth(const State *state);

/* Most plants of the option that the bed's edge takes beside the others. */
int state_edge_room(const State *state, int bed, int option);
/* Sets the plants of an option on a bed's edge; 0 takes it away. False when
 * the list is full. */
bool state_edge_set(State *state, int bed, int option, int plants);
int state_edge_plants(const State *state, int bed, int option);

/* Cleanings: whether the bed is empty then and its loop may; PLAN_NONE frees
 * the bed's. */
bool state_clean_fits(const State *state, int bed, int week);
void state_clean_set(State *state, int bed, int week);

/* A store of goods at the end of a week, in units. */
void state_store_set(State *state, int goods, int week, double units);

bool state_has_store(const State *state, int goods);
/* Keeps what is best by itself, all else as it is; false: no change. Settle
 * what else was touched beforehand. */
bool state_store_best(State *state, int goods, int week);

/* Fish: opens a stock for change (its runs no longer count), edit
 * state->stocks[stock], then close it again. */
void state_stock_open(State *state, int stock);
void state_stock_close(State *state, int stock);
/* Opens a stock with its runs still counting: take off what changes by
 * state_run_add, then finish. */
void state_stock_edit(State *state, int stock);
/* As close, when the runs have been added one by one. */
void state_stock_finish(State *state, int stock);
/* A stock's part of there; its size for one stock. */
static inline int state_there_size(const State *state)
{
    return state->problem->tank_count * (state->weeks + 1);
}

static inline uint8_t *state_there(const State *state, int stock, int tank)
{
    return state->there + stock * state_there_size(state) +
           tank * (state->weeks + 1);
}

/* Sales of a family in one week as things are. */
double state_family_worth(const State *state, int family, int week);
/* Adds a run's fish to the rows (sign 1) or takes them off (-1). */
void state_run_add(State *state, int stock, int lane, const StateRun *run,
                   double sign);
void state_count_tank_faults(State *state);

/* Heads of a lane of a stock of count fish. */
int state_lane_heads(int count, int lane);

/* Choices in and out. from_solution takes over what fits and answers how many
 * choices did not. */
int state_from_solution(State *state, const PlanSolution *solution);
void state_to_solution(const State *state, Arena *arena, PlanSolution *out);

#endif
