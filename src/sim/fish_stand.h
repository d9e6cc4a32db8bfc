/* All fish of a farm through the weeks: batches standing and planned, what
 * stands in each tank, and what each loop is fed and has to carry.
 *
 * The plan's moves are followed lane by lane; a standing batch that the plan
 * does not touch stays where it is. Where there is no plan nothing is stocked,
 * graded or sold. A lane grows in the water of the tank it starts in, as the
 * plan has it. Each week is told as it stands on its Monday, after that
 * Monday's moves. */
#ifndef LEAT_SIM_FISH_STAND_H
#define LEAT_SIM_FISH_STAND_H

#include "base/working.h"
#include "farm/book.h"
#include "farm/records.h"
#include "sim/fish_year.h"

typedef struct FishStandCase {
    const Farm *farm;               /* Borrowed. */
    const Book *book;               /* Borrowed. */
    int32_t first_week;             /* Monday */
    int weeks;                      /* at least 1 */
    const double *const *tank_degc; /* Borrowed: by row of farm->tanks,
                                       FISH_YEAR_DAYS daily means each */
    double sale_g;      /* weight from which a fish is told as ready */
    Workings *workings; /* Borrowed; NULL for none */
} FishStandCase;

/* Low, middle and high of a batch's mean weight. */
typedef struct FishMeans {
    double *low_g;
    double *value_g;
    double *high_g;
} FishMeans;

/* What a batch has in one tank, on each Monday (weeks of them). Arrays are NULL
 * for a tank that it never is in. */
typedef struct FishStandShare {
    double *count;
    double *kg;
    double *mean_g;
    double *cv_frac;
} FishStandShare;

/* A fish batch. Arrays of weeks + 1, by Monday; before its start all 0. Counts
 * and kilos are of the fish still on the farm. */
typedef struct FishStandBatch {
    const char *id; /* Borrowed. */
    int standing;   /* row of farm->fish, or -1 */
    int source;     /* row of farm->fish_sources, or -1 */
    int start_week; /* 0: there already */
    double *count;
    double *kg;
    double *mean_g; /* 0 where none is left */
    double *cv_frac;
    double *over_count; /* fish of sale_g or more */
    FishMeans all;      /* mean had none been sold: how the batch grows */
    /* The Monday on which that mean is first sale_g or more: early with the
     * high path, late with the low one; DATE_NEVER if not in these weeks. */
    int32_t ready_early, ready_on, ready_late;
    FishStandShare *in_tanks; /* by row of farm->tanks */
    double sold_count;        /* in these weeks */
    double sold_kg;
} FishStandBatch;

/* A tank, on each Monday (weeks of them). */
typedef struct FishStandTank {
    double *count;
    double *kg;
    double *mean_g;
    double *cv_frac;
    double *density_kg_m3;
    double *feed_kg;    /* in the week; none in a purge tank */
    double *oxygen_g_h; /* used in the worst hour */
    double *air_g_h;    /* what air and flow carry then */
    double *tan_g_d;
    int over_density_week; /* first over the farm's ceiling, or -1 */
    int over_air_week;     /* first over what its air carries, or -1 */
} FishStandTank;

/* A loop, by week. */
typedef struct FishStandLoop {
    double *temp_degc;   /* mean of its tanks by volume */
    double *feed_kg;     /* offered in the week */
    double *tan_g_d;     /* made */
    Figure *carries_g_d; /* by its beds */
    double *oxygen_g_h;  /* used by its fish in the worst hour */
} FishStandLoop;

typedef struct FishStand {
    int32_t first_week;
    int weeks;
    FishStandBatch *batches; /* Owned by the arena, as all arrays here. */
    int batch_count;
    FishStandTank *tanks; /* by row of farm->tanks */
    FishStandLoop *loops; /* by row of farm->loops */
} FishStand;

/* ERR_NOT_FOUND: a species that the book lacks. ERR_RANGE: a standing batch
 * counted after the first
 * week's Sunday, or more than a year before it. */
NODISCARD Err fish_stand_run(Arena *arena, const FishStandCase *stand,
                             FishStand *out);

#endif
