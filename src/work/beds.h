/* The walk as a line through its beds: what stands on floor and edge, how old
 * it is and what it does, what is next there, what may not be picked. */
#ifndef LEAT_WORK_BEDS_H
#define LEAT_WORK_BEDS_H

#include "journal/told.h"
#include "sim/plant_stand.h"
#include "work/jobs.h"

/* The list is laid out by hand. Stage; word. */
/* clang-format off */
#define BED_STAGES(X)                                                          \
    X(BED_COMING, "coming")       /* planned, not sown yet */                  \
    X(BED_IN_TRAYS, "in trays")                                                \
    X(BED_TO_SET, "to set")       /* its week is here, the job still ahead */  \
    X(BED_SOWN, "sown")           /* in place, not up yet */                   \
    X(BED_GROWING, "growing")                                                  \
    X(BED_SOON, "soon")           /* first pick within a week */               \
    X(BED_PICKING, "picking")                                                  \
    X(BED_OVER, "over")           /* past its last pick, to be cleared */      \
    X(BED_GONE, "gone")           /* cleared */
/* clang-format on */

typedef enum BedStage {
#define BED_ENUM(stage, word) stage,
    BED_STAGES(BED_ENUM)
#undef BED_ENUM
} BedStage;

const char *bed_stage_word(BedStage stage);

/* A batch at a bed. Days that are not known are DATE_NEVER. */
typedef struct BedBatch {
    const char *id;
    int32_t way; /* row of farm->ways */
    bool is_edge;
    int32_t first_section; /* floor: from 1; 0 not known */
    int32_t sections;      /* floor */
    double plants;
    BedStage stage;
    int32_t sow_on;
    int32_t set_on;
    int32_t age_d; /* days since it was set out or sown in place; below 0: to
                      come */
    int32_t pick_early, pick_on, pick_late; /* first pick */
    int32_t last_pick_on;
    int32_t clear_on;
    double age_degc_d;   /* growth so far; 0 before it grows */
    Figure units;        /* still to be picked, with low and high */
    const char *trouble; /* "" none */
} BedBatch;

typedef struct BedBatches {
    BedBatch *items;
    int32_t count;
} BedBatches;

typedef struct BedState {
    int32_t bed;     /* row of farm->beds */
    int32_t plate;   /* its number along the walk, from 1 */
    BedBatches now;  /* floor from the first section, then edge */
    BedBatches next; /* by day of setting */
    BedBatches past; /* by the plan taken as done, newest first */
    const Job *job;  /* the next job there; NULL none in the weeks given */
    int32_t free_sections;
    bool is_cleaning;     /* deep clean this week by the plan */
    int32_t cleaned_on;   /* DATE_ALWAYS: not known */
    int32_t clean_due;    /* DATE_NEVER: never */
    const char *hold;     /* why nothing may be picked here; NULL */
    int32_t hold_until;   /* first day on which it may be; DATE_NEVER: until
                             somebody releases it */
    const Told **history; /* what was told of the bed, newest first */
    int32_t history_count;
} BedState;

typedef struct BedsAsk {
    const Farm *farm;         /* Borrowed, as all of these. */
    const PlantStand *plants; /* from the day's week on */
    const JobsWeek *weeks;    /* from the day's week on; NULL without a plan */
    int week_count;
    Told *facts; /* by day, those struck out left out */
    int32_t fact_count;
    int32_t day;
    Workings *workings; /* NULL for none */
} BedsAsk;

typedef struct Beds {
    int32_t day;
    BedState *beds; /* in use on the day, by walk */
    int32_t count;
    BedBatches trays; /* sown and not yet set out, by day of setting; the bed
                         each is for: tray_beds, row of beds or -1 */
    int32_t *tray_beds;
} Beds;

void beds_make(const BedsAsk *ask, Arena *arena, Beds *out);

#endif
