/* What the typical year brings in a week, for the rows of the accepted plan:
 * yields, weights of fish, temperatures. */
#ifndef LEAT_WORK_OUTLOOK_H
#define LEAT_WORK_OUTLOOK_H

#include "base/err.h"
#include "sim/climate_year.h"
#include "sim/plant_stand.h"
#include "work/jobs.h"

/* A farm's typical year by day of the year, 1 January first; arrays of 366.
 * Everything is borrowed. */
typedef struct OutlookClimate {
    const BedYear *beds;            /* by row of beds */
    const double *const *tank_degc; /* by row of tanks: its water */
} OutlookClimate;

/* The farm's beds and tanks in its typical year; a bed's light is its tunnel's
 * times its own share, as a plan has it. */
void outlook_climate(const Farm *farm, const ClimateYear *year, Arena *arena,
                     OutlookClimate *out);

typedef struct OutlookAsk {
    const Farm *farm;
    const Book *book; /* with the farm's own figures in it */
    const OutlookClimate *climate;
    int32_t week; /* Monday */
} OutlookAsk;

/* Everything is in the arena. ERR_NOT_FOUND, ERR_RANGE as the book, the fish
 * and their year say. */
NODISCARD Err outlook_make(const OutlookAsk *ask, Arena *arena,
                           JobOutlook *out);

/* The same of so many weeks from that week on, which costs little more than
 * one. out: by week. */
NODISCARD Err outlook_make_weeks(const OutlookAsk *ask, int weeks, Arena *arena,
                                 JobOutlook *out);

typedef struct OutlookStand {
    const Farm *farm;
    const Book *book;
    const ClimateYear *climate;
    int32_t first_week; /* Monday */
    int weeks;
} OutlookStand;

/* The plants of the farm in a typical year. */
NODISCARD Err outlook_stand(const OutlookStand *ask, Arena *arena,
                            PlantStand *out);

#endif
