/* What the files of plan/search share. */
#ifndef LEAT_PLAN_SEARCH_PARTS_H
#define LEAT_PLAN_SEARCH_PARTS_H

#include <string.h>

#include "base/rng.h"
#include "plan/search.h"
#include "plan/state.h"

/* Choices of the best plan met. */
typedef struct SearchBest {
    double value;
    int *holder;
    StateEdge *edges;
    int *edge_count;
    int *clean_week;
    StateStock *stocks;
    int *active;
    int *active_at;
    int active_count;
    double *stores;
} SearchBest;

/* Room for one search of a lane's best route. */
typedef struct SearchRoutes {
    uint8_t *can;       /* [tank][week]: the lane's fish may be there */
    double *stay;       /* [tank][week]: worth of the feed */
    double *sale;       /* by week: worth of selling them all */
    int *goods;         /* by week: as which goods; PLAN_NONE: too light */
    double *ahead;      /* [tank][week + 1]: best from here without a move */
    int *sale_at;       /* [tank][week + 1]: its week of sale */
    double *feed_price; /* [loop][week] */
    double *kg;         /* by week: of the fish asked about, and so on */
    double *oxygen;
    double *inside; /* worth of their feed, less what TAN is passed by */
    double *outside;
    uint8_t *can_inside;
    int *fish; /* goods that are fish */
    int fish_count;
    int *tanks; /* those that the stock may be in */
    int tank_count;
} SearchRoutes;

/* Fish and rows as they were before a large change. */
typedef struct SearchVoyage {
    double *cells;
    StateStock *stocks;
    int *active;
    int *active_at;
    double *tank_faults;
    uint8_t *there;
    int active_count;
    StateSums now;
    int drawn_loop; /* of the stock last drawn for a large change */
    int loop;       /* small moves are of its fish; PLAN_NONE: of any */
} SearchVoyage;

struct Search {
    const Problem *problem;
    SearchSetup setup;
    Sales sales;
    StateIndex index;
    State state;
    Rng rng;
    int64_t moves;
    int64_t moves_all;
    double warm; /* temperatures at the beginning and the end */
    double fish_warm;
    double cold;
    double temperature;  /* money */
    double fish_heat;    /* temperature of fish moves */
    double reach;        /* money: how far short stores may make good */
    double *goods_price; /* [goods][week]: what a little more brings */
    double *goods_batch; /* by goods: yield of a unit in a week, typical */
    double *hour_price;  /* by week: extra wage where hours are above paid */
    int *hours_dear;     /* by week and the end: weeks before with a price */
    int *feed_dear;      /* [loop]: the same of feed */
    float *score;        /* by option: worth a week of its place */
    int64_t score_at;    /* move at which scores were last made */
    int *clean_beds;
    int clean_bed_count;
    int *store_goods;
    int store_goods_count;
    int *mixes; /* products of several goods */
    int mix_count;
    int *young; /* stocks that may be stocked */
    int young_count;
    SearchRoutes routes;
    StateStock *fitting; /* room: stocks as they were */
    int *lifted;         /* room: which */
    double faults_without_fish;
    bool is_urgent;    /* fish may be moved and sold in kept weeks too */
    double tank_price; /* of a week of a tank as full again; 0: hard */
    SearchVoyage voyage;
    SearchBest best;
    int refused;
};

/* A whole number from 0 to one less than the limit. */
static inline uint32_t search_below(Search *search, int limit)
{
    return rng_below(&search->rng, (uint32_t)limit);
}

/* Whether an option holds its place in some of the weeks from <= t < until. */
static inline bool search_overlaps(const StateOption *o, int from, int until)
{
    return o->set < until && o->clear > from;
}

static inline void search_copy(void *to, const void *from, int count,
                               size_t size)
{
    memcpy(to, from, (size_t)count * size);
}

typedef bool (*SearchMove)(Search *search);

/* Each changes the state for a trial; false: nothing sensible to try (the
 * caller undoes what was begun). */
bool search_fill(Search *search);
bool search_insert(Search *search);
bool search_shift(Search *search);
bool search_drop(Search *search);
bool search_cross(Search *search);
bool search_edge(Search *search);
bool search_clean(Search *search);
bool search_store(Search *search);
bool search_mix(Search *search);
bool search_fish(Search *search);
bool search_fish_large(Search *search);
bool search_fish_small(Search *search);

/* Takes edge batches that shade a bed in those weeks until its sun suffices. */
bool search_clear_shade(Search *search, int bed, int from, int until);
/* The same way in the same kind some places on in its series. */
int search_neighbour(Search *search, int option);

static const unsigned SEARCH_ALL_LANES = (1u << PLAN_LANES) - 1u;
/* Opens a stock and gives it so many fish; lanes of the mask by new routes
 * (the heaviest first, they go first), the others as they were. */
bool search_route_stock(Search *search, int stock, int count, unsigned mask);

/* The stock's runs that began within the kept weeks stay, its other fish find
 * new routes. */
bool search_route_rest(Search *search, int stock);

/* Young fish that earn nothing are not stocked, and no more than find room. */
void search_drop_useless(Search *search);

void search_voyage_open(Search *search, Arena *arena);
/* A large change of fish and small ones after it, judged together. */
void search_voyage(Search *search, double heat);

/* Fish of a plan taken over that are where they may not be find other routes.
 */
void search_fit_tanks(Search *search);
/* Prices what tanks are overfull by, as the search goes on: done 0..1. */
void search_price_tanks(Search *search, double done);
bool search_mend_stores(Search *search);

void search_routes_open(Search *search, Arena *arena);
/* The best route of count more fish of a lane in the state as it is, from tank
 * (PLAN_NONE: any that may be stocked). False when there is none. */
bool search_best_route(Search *search, int stock, int lane, int count,
                       StateRun *out);
void search_price_feed(Search *search);

void search_score_open(Search *search, Arena *arena);
void search_score(Search *search);
/* Prices of goods, feed and hours as things are, and an option's worth at
 * them. */
void search_price_all(Search *search);
double search_option_worth(const Search *search, int option);

/* Fills empty beds well, at once. */
void search_blend(Search *search);
/* What adding so many units of goods in a week would bring. */
double search_gain(Search *search, int goods, int week, double units);

/* Cleanings for all beds that are due, before anything else is planned. */
void search_place_cleans(Search *search);

static inline bool search_is_free(const Search *search, int option)
{
    return search->index.options[option].series != PLAN_NONE;
}

/* The best of some options of a menu's cell by score, PLAN_NONE if none: those
 * cleared until that week only. */
int search_pick(Search *search, const StateMenu *menu, int cell, int until);

#endif
