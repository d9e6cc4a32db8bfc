/* What the search looks up and never changes: which options fit a bed kind in
 * a week, where the sections of beds are, how the rows of a state are numbered.
 *
 * A slot is one section of one bed. A row is one quantity by week. */
#ifndef LEAT_PLAN_STATE_INDEX_H
#define LEAT_PLAN_STATE_INDEX_H

#include "base/arena.h"
#include "plan/problem.h"

/* Weeks from <= t < until in which a profile of an option is not 0. */
typedef struct StateSpan {
    int16_t from;
    int16_t until;
} StateSpan;

typedef struct StateOption {
    int16_t set; /* weeks in which it holds its place: set <= t < clear, cut */
    int16_t clear; /* to the weeks of the problem */
    int16_t way;
    int16_t goods;
    StateSpan trays;
    StateSpan hours;
    StateSpan want;
    StateSpan shade;
    StateSpan yield;
    int series; /* place in StateIndex.series, or PLAN_NONE: not to be used */
    int shift;  /* profile entry of week t is t - shift */
    int loop;   /* PLAN_NONE: none */
    bool wants_sun;
    bool is_edge;
} StateOption;

/* Options that may be chosen, by kind and week of setting out. */
typedef struct StateMenu {
    int *from; /* by kind x weeks, and the end */
    int *options;
    int count;
} StateMenu;

typedef struct StateRows {
    int hours, trays, room;           /* room: kg in stores */
    int want, given, tan, pool, lack; /* + loop */
    int kg, oxygen, grades, catches;  /* + tank */
    int low, mean, store;             /* + goods */
    int worth;                        /* + family */
    int cleans;                       /* + loop, and one for no loop */
    int seedlings; /* + batch of them: plants used, all in week 0 */
    int count;
} StateRows;

typedef struct StateIndex {
    const Problem *problem;
    int first_week; /* nothing before it may change */
    StateOption *options;
    StateMenu floor;
    StateMenu edge;
    int *series; /* options of a way in a kind, by week and shape */
    int series_count;
    int *bed_slot; /* by bed: its first slot, and the end */
    int *slot_bed;
    int slot_count;
    int *edge_beds;
    int edge_bed_count;
    int *kind_slots; /* slots by kind */
    int *kind_from;  /* by kind, and the end */
    StateRows rows;
    double *stock_mean_g; /* [stock][week]: mean weight of all lanes */
} StateIndex;

/* family_count: rows of sales. */
void state_index_open(StateIndex *index, const Problem *problem, int first_week,
                      int family_count, Arena *arena);

#endif
