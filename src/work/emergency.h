/* What a stopped pump, blower or heater, or a power cut does, and for how long
 * fish and plants bear it: figures for the card of work/emergency_card.h.
 *
 * It answers for any farm that could be read: what is missing is told and taken
 * at the book's figures of an emergency. */
#ifndef LEAT_WORK_EMERGENCY_H
#define LEAT_WORK_EMERGENCY_H

#include "base/err.h"
#include "sim/alarm_air.h"
#include "sim/alarm_heat.h"

enum { EMERGENCY_NOTICES_MAX = 12 };

typedef struct EmergencyAsk {
    const Farm *farm;           /* Borrowed; may have faults */
    const Book *book;           /* Borrowed; with the farm's own figures */
    const ClimateYear *climate; /* Borrowed; NULL where the farm has faults */
    HangsOn on;
    int32_t row;             /* of pumps, aerators or heaters */
    int64_t at;              /* UTC seconds when it stopped */
    int32_t day;             /* the same, the farm's civil day */
    double hours_since_meal; /* below 0: not known */
    const double *told;      /* Borrowed: WATER_QUANTITIES values, NAN where
                                not told */
    int32_t told_tank;       /* of which they are told; -1: of all */
    double outside_degc;     /* the night's; NAN: not told */
} EmergencyAsk;

typedef struct EmergencyTank {
    int32_t tank; /* row of farm->tanks */
    WaterNow water;
    AlarmAir air;
    double least_g, most_g; /* of its fish */
    double top_up_m3;       /* at once, by chlorine and cold; NAN: not known */
} EmergencyTank;

typedef struct EmergencyCold {
    int32_t loop; /* or -1: */
    int32_t tank; /* a tank by itself; -1 for a loop */
    double start_low_degc, start_high_degc;
    AlarmColdLimits limits;
    AlarmHeat heat;
} EmergencyCold;

typedef struct Emergency {
    EmergencyAsk ask;
    Hangs hangs;
    FishNow fish;
    EmergencyTank *tanks; /* touched, the worst first. Owned by the arena. */
    int tank_count;
    int with_fish;        /* of them, which come first */
    EmergencyCold *colds; /* Owned by the arena. */
    int cold_count;
    double night_low_degc, night_high_degc;
    WaterFrom night_from; /* told, usual, assumed */
    AlarmSpan plants;     /* grown plants in drained gravel, hours */
    AlarmSpan young;      /* those in their first fortnight */
    const char *notices[EMERGENCY_NOTICES_MAX]; /* what it stands on */
    int notice_count;
} Emergency;

/* Never fails: what it cannot know it assumes and says so. */
void emergency_make(const EmergencyAsk *ask, Arena *arena, Emergency *out);

/* Another thing that it stands on. */
void emergency_notice(Emergency *emergency, const char *text);

#endif
