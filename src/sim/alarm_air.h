/* How long the oxygen of a tank lasts in an emergency, as the widest honest
 * range: fish of every weight, the slowest and the fastest law, the oldest
 * reading, air that runs, runs on a battery, or has stopped too. */
#ifndef LEAT_SIM_ALARM_AIR_H
#define LEAT_SIM_ALARM_AIR_H

#include "sim/fish_now.h"
#include "sim/hangs.h"
#include "sim/water_now.h"

/* Hours; INFINITY: never, by what is known. */
typedef struct AlarmSpan {
    double low_h;
    double high_h;
} AlarmSpan;

/* To the limits of the book's figures of an emergency. */
typedef struct AlarmHours {
    AlarmSpan act;
    AlarmSpan gasp;
    AlarmSpan dying;
} AlarmHours;

typedef struct AlarmAirAsk {
    const Hangs *hangs;      /* Borrowed. */
    const BookAlarm *alarm;  /* Borrowed. */
    const FishNowTank *fish; /* Borrowed: of this tank */
    const WaterNow *water;   /* Borrowed: of this tank */
    int32_t tank;            /* row of farm->tanks */
    double hours_since_meal; /* below 0: not known, taken as just fed */
    double altitude_m;
} AlarmAirAsk;

typedef struct AlarmAir {
    bool has_fish;
    bool has_volume; /* without it there are no hours */
    FishNowKg kg;
    double density_kg_m3; /* likely */
    double density_most_kg_m3;
    double low_g_h, high_g_h; /* oxygen used, with bacteria */
    bool is_widened;          /* outside a published law's range */
    bool has_air;             /* an aerator serves it, running or on battery */
    bool is_on_battery;
    double battery_low_h, battery_high_h; /* 0: none; INFINITY: power is on */
    AlarmHours with_air; /* as long as air or battery runs, then without */
    AlarmHours without;  /* no air, no inflow from now on */
} AlarmAir;

AlarmAir alarm_air(const AlarmAirAsk *ask);

/* A whole span not later than another's: for sorting the worst first. */
bool alarm_air_is_worse(const AlarmAir *a, const AlarmAir *b);

#endif
