/* The weeks to come as the typical year has them: air and water, plants, fish,
 * and whether feed, ammonia, oxygen and room fit together. */
#ifndef LEAT_WORK_FORESIGHT_H
#define LEAT_WORK_FORESIGHT_H

#include "sim/climate_year.h"
#include "sim/fish_stand.h"
#include "sim/plant_stand.h"

enum { FORESIGHT_WEEKS_MOST = 104, FORESIGHT_ALL = -1, FORESIGHT_MONTHS = 12 };

typedef struct ForesightAsk {
    const Farm *farm; /* Borrowed, as all of these. */
    const Book *book; /* with the farm's own figures in it */
    const ClimateYear *climate;
    int32_t first_week; /* Monday, from the week of the farm's tables on */
    int weeks;          /* 1..FORESIGHT_WEEKS_MOST */
    double sale_g;      /* fish are ready from here; NAN: the lightest that the
                           farm sells, or foresight_usual_sale_g */
    int way;            /* row of ways whose days are asked for, or
                           FORESIGHT_ALL */
    int32_t today;      /* ages are told for it; 0: for the first week */
    Workings *workings; /* NULL for none */
} ForesightAsk;

typedef struct Foresight {
    const Farm *farm;           /* Borrowed. */
    const ClimateYear *climate; /* Borrowed. */
    int32_t first_week;
    int weeks;
    double sale_g;
    BedKinds kinds;
    PlantStand plants;
    FishStand fish;
    /* Of the way that was asked for; NULL without. See plant_stand_days. */
    int way;
    PlantDays *days;
    bool *has_place;
    double *bed_light_frac; /* by bed kind: its light over its tunnel's */
} Foresight;

/* What a fish of the usual table size weighs where no product says it, g. */
double foresight_usual_sale_g(void);

/* The lightest weight from which the farm sells fish, else the usual one. */
double foresight_sale_g(const Farm *farm);

/* ERR_RANGE: weeks out of range, a first week before the farm's tables or more
 * than a year after them; ERR_NOT_FOUND: a way or a species that the book
 * lacks. */
NODISCARD Err foresight_make(const ForesightAsk *ask, Arena *arena,
                             Foresight *out);

/* Mean of a table of the typical year over a month, 1..12. */
double foresight_month_mean(const double *days, int month);

/* Mean of a table of the typical year over a week. */
double foresight_week_mean(const double *days, int32_t monday);

/* Days of a month in the typical year. */
int foresight_month_days(int month);

/* Feed offered over feed wanted; NAN where none is wanted. */
double foresight_feed_ratio(const Foresight *foresight, int loop, int week);

/* Ratios below and above which feed and beds do not fit: the water's store
 * bridges some weeks, plants starve or nitrate gathers in more; judged. */
double foresight_feed_short_ratio(void);
double foresight_feed_over_ratio(void);

/* Of the tanks of a loop, the one whose fish use most of what its air carries
 * in a week: oxygen used over carried, 0 where none swim. out_tank may be NULL.
 */
double foresight_oxygen_share(const Foresight *foresight, int loop, int week,
                              int *out_tank);

/* Fish of sale_g or more on the farm that may be sold, in a week. */
double foresight_ready_count(const Foresight *foresight, int week);

#endif
