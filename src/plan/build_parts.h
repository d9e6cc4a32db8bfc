/* The pieces of plan/build.c, each a file of its own. */
#ifndef LEAT_PLAN_BUILD_PARTS_H
#define LEAT_PLAN_BUILD_PARTS_H

#include "plan/build.h"
#include "sim/plant_year.h"

/* What all pieces share while a problem is built. */
typedef struct Build {
    const Farm *farm;
    const Book *book;
    const ClimateYear *climate;
    int32_t from;
    int horizon;
    int week_count;
    int keep_weeks;
    bool is_fish_frozen;
    Arena *arena;
    Arena *scratch; /* what only the building needs */
    Problem *problem;
    PlanIndex *index;
    const int *kind_of_bed; /* by bed, set by build_beds */
    const int *bed_of_kind; /* the first bed of a kind */
} Build;

/* Monday of week t. */
int32_t build_monday(const Build *build, int week);

/* Month (1..12) that holds the Thursday of week t. */
int build_month(const Build *build, int week);

/* A zeroed array with an entry a week. */
double *build_weeks(const Build *build);

/* Mean water of a loop (PLAN_NONE: outside the loops) on a day of the year (0
 * is 1 January), and over week t. */
double build_water_day_degc(const Build *build, int loop, int day);
double build_water_degc(const Build *build, int loop, int week);

/* The typical year of a bed kind, with that share of its light shaded away. */
void build_bed_year(const Build *build, int kind, double shaded_frac,
                    BedYear *out);

/* Kinds and beds with their cleanings due. */
void build_beds(Build *build);

/* When the beds' deep cleans are due, once it is known what stands in them. */
void build_cleanings(Build *build);

/* Goods, products, orders, outlets, stores. */
NODISCARD Err build_sales(Build *build);

/* Hours paid, fixed and extra; nursery bench; wages. */
void build_hours(Build *build);

/* Columns of plants and the batches that stand. */
NODISCARD Err build_plants(Build *build);

/* Loops, tanks, fish batches. */
NODISCARD Err build_fish(Build *build);

#endif
