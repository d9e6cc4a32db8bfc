/* One fish batch through its weeks in a loop's typical water: what each slice
 * weighs, how many live, what they eat, breathe and excrete.
 *
 * Amounts by week are of all the fish of a slice that are alive, so slices add
 * up to lanes, lanes to the batch, and dividing by the fish at the start gives
 * columns thinned by survival. */
#ifndef LEAT_SIM_FISH_YEAR_H
#define LEAT_SIM_FISH_YEAR_H

#include <stdint.h>

#include "base/arena.h"
#include "nature/fish/slices.h"

enum { FISH_YEAR_DAYS = 366 };

/* Feed by the fish's weight. */
typedef struct FishFeed {
    double from_g;
    double to_g;
    double protein_frac;
} FishFeed;

typedef struct FishYearCase {
    const FishSpecies *species; /* Borrowed. */
    FishDraw draw;              /* fish on from_day */
    int32_t from_day;           /* the day they were counted or arrive */
    int32_t first_week; /* Monday of week 0: of from_day's week (then taken as
                           counted on it) or later; at most a
                           year after it */
    int weeks;          /* at least 1 */
    const double *water_degc; /* Borrowed: FISH_YEAR_DAYS daily means, by day of
                                 the year; the last serves leap years */
    const double *oxygen_mg_l; /* Borrowed, the same; NULL: no limit */
    double appetite;           /* 1 by the book */
    double ration_frac;        /* share of what they would take that is given */
    double death_scale;        /* times the book's deaths */
    const FishFeed *feeds;     /* Borrowed; the first that fits the weight */
    int feed_count;
    double protein_frac; /* where no feed fits */
} FishYearCase;

typedef struct FishSliceYear {
    double *weight_g;   /* weeks + 1: of a fish, on each Monday */
    double *count;      /* weeks + 1: alive on each Monday */
    double *feed_kg;    /* weeks: eaten in the week */
    double *oxygen_g_h; /* weeks: used in the worst hour, just fed */
    double *tan_g_d;    /* weeks: TAN made, mean of the week's days */
} FishSliceYear;

typedef struct FishYear {
    int32_t first_week;
    int weeks;
    double start_count; /* on from_day */
    double start_kg;
    FishSliceYear slices[FISH_SLICES]; /* Owned by the arena. */
    double *temp_degc;                 /* weeks: mean of the week's water */
    double dead_kg;                    /* at their weight when they died */
    double feed_kg;                    /* from from_day to the last Monday */
} FishYear;

/* Runs the case day by day. ERR_RANGE: weeks below 1, no fish or weight, first
 * week before that of from_day or more than a year after it. */
NODISCARD Err fish_year_run(Arena *arena, const FishYearCase *fish,
                            FishYear *out);

/* Of the whole batch on the Monday of a week, 0..weeks. */
double fish_year_count(const FishYear *year, int week);
double fish_year_kg(const FishYear *year, int week);
double fish_year_mean_g(const FishYear *year, int week);

/* Counts and weights of the slices as they stand on a Monday. */
FishSlices fish_year_slices(const FishYear *year, int week);

/* A lane: slices together by weight on the first Monday. Per fish of the lane
 * then, so thinned by survival; weight is the mean of the living. */
typedef struct FishLane {
    double share;       /* of the batch's fish on the first Monday */
    double *weight_g;   /* weeks + 1 */
    double *alive;      /* weeks + 1: share of the lane's first fish */
    double *feed_kg;    /* weeks: a week */
    double *oxygen_g_h; /* weeks */
    double *tan_g_d;    /* weeks */
    int slice_lane;     /* which lane, 0 the lightest */
    bool holds[FISH_SLICES];
} FishLane;

/* out has room for that many lanes, 1..16. */
void fish_year_lanes(Arena *arena, const FishYear *year, int lanes,
                     FishLane *out);

/* Living fish of a lane over a weight on a Monday, per fish at its start. */
double fish_lane_over_frac(const FishYear *year, const FishLane *lane, int week,
                           double weight_g);

#endif
