/* How long water stays warm when its heater is cold, with beds flooding and
 * without, as a range. */
#ifndef LEAT_SIM_ALARM_HEAT_H
#define LEAT_SIM_ALARM_HEAT_H

#include "sim/alarm_air.h"

/* Where cold begins to matter, degC, each from low to high. */
typedef struct AlarmColdLimits {
    double feed_low_degc, feed_high_degc;
    double danger_low_degc, danger_high_degc;
    double lethal_low_degc, lethal_high_degc;
} AlarmColdLimits;

/* The limits of the tenderest species among the fish of these tanks; of Nile
 * tilapia where there are none. Feed: where the published tables begin. */
AlarmColdLimits alarm_cold_limits(const BookAlarm *alarm,
                                  const FishNowTank *tanks, int count);

typedef struct AlarmHeatAsk {
    const Farm *farm;       /* Borrowed; may have faults */
    const BookAlarm *alarm; /* Borrowed. */
    int32_t loop;           /* whose tanks and sump cool together, or -1: */
    int32_t tank;           /* a tank by itself */
    double start_low_degc, start_high_degc;
    double night_low_degc, night_high_degc; /* air outside, steady */
    AlarmColdLimits limits;
    int32_t day; /* beds in use on it */
} AlarmHeatAsk;

typedef struct AlarmCold {
    AlarmSpan feed;   /* no feed below */
    AlarmSpan danger; /* young fish begin to die */
    AlarmSpan lethal;
    double morning_low_degc, morning_high_degc; /* after twelve hours */
} AlarmCold;

typedef struct AlarmHeat {
    double water_m3;
    double loss_off_w_k; /* likely; beds off, lids as they are */
    double loss_on_w_k;  /* with beds flooding */
    int32_t without_lid; /* tanks of it */
    AlarmCold off;       /* beds off */
    AlarmCold on;        /* beds flooding */
    AlarmCold lidded;    /* beds off and a lid or film on every tank */
} AlarmHeat;

/* Loss: walls and tops of the tanks by their kind to the tunnel they stand in
 * or to the air outside at the worst (a room's own warmth only lengthens it),
 * the sump with a lid; with beds on, wet gravel by touch, radiation and vapour.
 * No sun, no help from pumps or fish. */
AlarmHeat alarm_heat(const AlarmHeatAsk *ask);

#endif
