/* How long oxygen in a still tank lasts when fish use more than comes in. */
#ifndef LEAT_NATURE_WATER_OXYGEN_FALL_H
#define LEAT_NATURE_WATER_OXYGEN_FALL_H

#include "nature/water/oxygen.h"

typedef struct OxygenFall {
    double start_mg_l;
    double limit_mg_l;
    double full_mg_l;    /* what the water would take up without any use */
    double transfer_1_h; /* by surface and aerators, 0 or more */
    double use_mg_l_h;   /* by fish and bacteria, 0 or more */
} OxygenFall;

/* Hours to the limit; 0 where it is passed, INFINITY where what comes in holds
 * the water above it. The mixed tank
 *
 *     dC/dt = k (C* - C) - u
 *     t = -ln(1 - (C0 - L)/(C0 - Ce))/k,  Ce = C* - u/k
 *
 * solved exactly; t = (C0 - L)/u where nothing comes in. */
double water_oxygen_fall_h(const OxygenFall *fall);

/* Oxygen after so many hours, mg/L, not below 0. */
double water_oxygen_after_mg_l(const OxygenFall *fall, double hours);

/* What an aerator is to a tank, 1/h: SOTR alpha / (C*20 V), C*20 9.09 mg/L. The
 * 2.4 % a degree that transfer rises with warmth is left out: what is known
 * of an aerator is coarser. Source: [ASCE2-91]. */
double water_air_rate_1_h(const AirTransfer *air, double volume_m3);

#endif
