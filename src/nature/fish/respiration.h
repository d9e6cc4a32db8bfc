/* Oxygen that fish use, as a range over published laws, and the minutes left
 * when pump and air stop. */
#ifndef LEAT_NATURE_FISH_RESPIRATION_H
#define LEAT_NATURE_FISH_RESPIRATION_H

#include <stdbool.h>

#include "base/figure.h"

/* The laws by themselves, mg O2 per kg and hour; 0.1-5000 g, 10-38 degC.
 *
 * Regression: 2014.45 + 2.75 W - 165.2 T + 0.007 W^2 + 3.93 T^2 - 0.21 W T,
 *   holds to 150 g and for 24-32 degC. Source: [SCIREP2021].
 * Boyd: log10 r = -0.999 - 0.000957 W + 6e-7 W^2 + 0.0327 T - 8.7e-6 T^2
 *   + 3e-7 T^3, mg/g/h; beyond 800 g its value there. [BOYD1985] (memory).
 *   It gives the 420 mg/kg/h often quoted for 290 g at 26 degC.
 * Allometric: 331 (W/50)^-0.25 2^((T-28)/10) below 28 degC, 1.2 for 2 above;
 *   the exponent of [FRANKLIN1995], anchored at the regression's 50 g, 28 degC.
 */
double fish_oxygen_regression(double weight_g, double temp_degc);
double fish_oxygen_boyd(double weight_g, double temp_degc);
double fish_oxygen_allometric(double weight_g, double temp_degc);

typedef struct OxygenUse {
    Figure mg_kg_h;  /* value: geometric middle of low and high */
    bool is_widened; /* outside a law's range: wider, and to be marked */
} OxygenUse;

/* Low: the slowest law. High: the fastest, times 1.5 within 8 hours of a meal.
 * The regression counts within its range; beyond it, to 300 g, for the low end
 * only. hours_since_meal below 0: not known, taken as just fed. */
OxygenUse fish_oxygen_use(double weight_g, double temp_degc,
                          double hours_since_meal);

typedef struct OxygenLeft {
    Figure minutes;
    bool is_widened;
} OxygenLeft;

typedef struct OxygenStop {
    double density_kg_m3;
    double weight_g;
    double temp_degc;
    double oxygen_mg_l;
    double limit_mg_l;
    double hours_since_meal;
    double bacteria_mg_l_h; /* used by bacteria in the tank */
} OxygenStop;

/* Minutes to the limit with no inflow and no air; 0 where it is passed. Never
 * refused.
 *
 *     t = 60 (C - limit)/(density r/1000 + R)
 */
OxygenLeft fish_oxygen_left(const OxygenStop *stop);

#endif
