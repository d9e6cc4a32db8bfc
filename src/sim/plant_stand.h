/* All plants of a farm through the weeks: batches standing and planned, what
 * they bring, and the feed that their loops' beds want.
 *
 * Where there is an accepted plan, its batches are followed to the day on which
 * it clears them, with the picks that it keeps; a standing batch that it does
 * not name stands to its own end, and seedlings in trays that it does not name
 * are not set. Without a plan seedlings are set where and when their row says;
 * those without a bed are left out. Batches
 * grow in their bed's own light; those that the plan grows for the shade of a
 * sunny edge grow in that. */
#ifndef LEAT_SIM_PLANT_STAND_H
#define LEAT_SIM_PLANT_STAND_H

#include "base/working.h"
#include "farm/book.h"
#include "farm/records.h"
#include "sim/bed_kinds.h"
#include "sim/plant_year.h"

typedef struct PlantStandCase {
    const Farm *farm;      /* Borrowed. */
    const Book *book;      /* Borrowed: with the farm's own figures in it. */
    const BedYear *beds;   /* Borrowed: by row of beds. */
    const BedKinds *kinds; /* Borrowed. */
    int32_t first_week;    /* Monday */
    int weeks;             /* at least 1 */
    Workings *workings;    /* Borrowed; NULL for none */
    int32_t today;         /* what age is told for where workings are made */
} PlantStandCase;

/* Low, middle and high by week; one time in ten each lower and higher. */
typedef struct PlantStandUnits {
    double *low;
    double *value;
    double *high;
} PlantStandUnits;

typedef struct PlantStandBatch {
    const char *id; /* Borrowed. */
    int way;        /* row of farm->ways */
    int bed;        /* row of farm->beds */
    int standing;   /* row of farm->plants, or -1 */
    int planned;    /* row of farm->plan_plants, or -1 */
    bool is_edge;
    double plants;
    double area_m2;       /* that it feeds from */
    bool is_refused;      /* the typical year brings no pick of it */
    const char *trouble;  /* why, or what cuts it short; "" for nothing */
    int32_t sow_day;      /* stage dates; emergence DATE_NEVER: does not come */
    int32_t emerge_day;   /* up */
    int32_t set_day;      /* set out, or sown in place */
    int32_t early_day;    /* first pick; DATE_NEVER where refused .. */
    int32_t pick_day;     /* .. or outside the planned picks */
    int32_t late_day;     /* */
    int32_t last_day;     /* last pick */
    int32_t clear_day;    /* cleared */
    double age_degc_d;    /* growth up to today; 0 before it grows */
    PlantStandUnits pick; /* units, weeks of them */
    Figure units;         /* of all these weeks */
    double *want_kg;      /* feed wanted in the week */
} PlantStandBatch;

typedef struct PlantStand {
    int32_t first_week;
    int weeks;
    PlantStandBatch *batches; /* Owned by the arena, as all arrays here; by day
                                 of setting */
    int batch_count;
    PlantStandUnits *ways; /* by row of farm->ways; its batches share a season,
                              so their ranges do not cancel out wholly */
    double **want_kg;      /* by row of farm->loops, by week */
} PlantStand;

/* Batches cleared before the first week or sown after the last are left out.
 * ERR_NOT_FOUND: a way that the book lacks. */
NODISCARD Err plant_stand_run(Arena *arena, const PlantStandCase *stand,
                              PlantStand *out);

/* Days from setting out (or sowing in place) to the first pick. */
typedef struct PlantDays {
    bool grows;    /* the three count */
    int early;     /* one time in ten less */
    int value;     /* */
    int late;      /* one time in ten more */
    PlantEnd end;  /* what refuses it, or cuts it short */
    int end_month; /* 1..12 of that, or 0 */
    int nursery;   /* days from sowing to setting out */
} PlantDays;

/* A way set on the 15th of each month in each bed kind: row [kind * 12 + month]
 * of *out. has_place: by kind, false where the way wants an edge and the kind
 * has none. */
NODISCARD Err plant_stand_days(Arena *arena, const PlantStandCase *stand,
                               int way, PlantDays **out, bool **out_has_place);

#endif
