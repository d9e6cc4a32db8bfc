/* The fish in each tank on a day, as a range of kilos: followed through plan
 * and growth, or, on a farm whose tables have faults, as they were counted. */
#ifndef LEAT_SIM_FISH_NOW_H
#define LEAT_SIM_FISH_NOW_H

#include "base/arena.h"
#include "farm/book.h"
#include "farm/records.h"
#include "nature/fish/slices.h"
#include "sim/climate_year.h"

typedef struct FishNowGroup {
    const char *batch;          /* Borrowed: its id */
    const FishSpecies *species; /* never NULL */
    FishSlices slices;          /* at their likely count and weight */
    double low_frac;            /* kilos at the least over those */
    double high_frac;           /* and at the most */
    bool is_assumed;            /* count or weight could not be read */
} FishNowGroup;

typedef struct FishNowTank {
    FishNowGroup *groups; /* Owned by the arena. */
    int count;
} FishNowTank;

typedef struct FishNow {
    FishNowTank *tanks; /* by row of farm->tanks. Owned by the arena. */
    bool is_followed;   /* through growth and plan to the day */
    int unread;         /* rows of fish that name no tank: left out */
} FishNow;

/* A sound farm: its weeks run in its typical year, plan taken as done. Fish due
 * to move or leave in this week may still be there, so each tank is told as on
 * last Monday and this one, the heavier counts at the most.
 * ERR_RANGE, ERR_NOT_FOUND as fish_stand_run. */
NODISCARD Err fish_now_followed(const Farm *farm, const Book *book,
                                const ClimateYear *climate, int32_t day,
                                Arena *arena, FishNow *out);

/* Any farm: the rows that can be read, at the least as counted, at the most
 * grown at full ration in the warmest usual water since. A row with a tank but
 * without a count or weight stands for a tank at the farm's ceiling. */
void fish_now_counted(const Farm *farm, const BookAlarm *alarm, int32_t day,
                      Arena *arena, FishNow *out);

/* Kilos of a tank: likely, least, most. */
typedef struct FishNowKg {
    double value, low, high;
} FishNowKg;
FishNowKg fish_now_kg(const FishNowTank *tank);

/* The lightest and the heaviest fish of a tank, g; 0 where none swim. */
void fish_now_weights(const FishNowTank *tank, double *out_least_g,
                      double *out_most_g);

#endif
