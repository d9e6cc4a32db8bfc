/* The water of a day: what was read last at each tank and loop against what was
 * foreseen, what suits the fish that stand in it, what to do. */
#ifndef LEAT_WORK_WATER_DAY_H
#define LEAT_WORK_WATER_DAY_H

#include "base/working.h"
#include "journal/told.h"
#include "work/judge.h"

typedef enum WaterMark {
    WATER_NOT_READ,
    WATER_IN_RANGE,
    WATER_LOW,
    WATER_HIGH,
    WATER_OLD, /* read too long ago to say anything */
} WaterMark;

const char *water_mark_word(WaterMark mark); /* "in range" .. */

typedef struct WaterPoint {
    int32_t day;
    int minute; /* of it; -1: not told */
    double value;
} WaterPoint;

typedef struct WaterReading {
    int quantity;    /* READ_.. */
    double value;    /* read last; NAN */
    int64_t read_at; /* when, UTC seconds; 0: not read */
    double age_h;
    double foreseen; /* by the typical year; NAN where nothing is */
    double low;      /* what suits the fish and the gravel; NAN: no limit */
    double high;
    WaterMark mark;
    WaterPoint *points; /* told in the days before, oldest first */
    int32_t point_count;
} WaterReading;

typedef struct WaterPlace {
    int32_t tank; /* row of farm->tanks, or -1: a loop's sump */
    int32_t loop; /* row of farm->loops; -1 */
    WaterReading readings[WATER_QUANTITIES];
    Judge judge;     /* by what was read, old readings left out */
    bool wants_base; /* base is due: leat dose tells how much */
} WaterPlace;

typedef struct WaterDayAsk {
    const Farm
        *farm; /* Borrowed, as all of these; its readings are the newest */
    const Book *book;
    const FishNow *fish;
    const double *tank_degc; /* by tank: foreseen today */
    const double *loop_degc; /* by loop */
    int64_t at;              /* UTC seconds */
    const Told *facts;       /* readings told, by day */
    int32_t fact_count;
    Workings *workings; /* NULL for none */
} WaterDayAsk;

typedef struct WaterDay {
    WaterPlace *places; /* loops' sumps, each before its tanks, by walk; then
                           tanks outside loops */
    int32_t count;
} WaterDay;

void water_day_make(const WaterDayAsk *ask, Arena *arena, WaterDay *out);

#endif
