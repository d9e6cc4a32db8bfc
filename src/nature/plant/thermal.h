/* Thermal time: how much of a plant's development a day's warmth brings.
 *
 * One day at temperature T brings rate(T) degree-days:
 *
 *     0                        T <= base
 *     T - base                 base < T <= optimum
 *     optimum - base           optimum < T <= ceiling      (plateau)
 *     optimum - base - (T - ceiling), at least 0           T > ceiling
 *
 * The fold above the ceiling has the slope of the rise, as Perry and Wehner
 * fold cucumber heat units above 90 degF.
 * Source: [PERRY1996] Perry & Wehner 1996, HortTechnology 6(1), heat units
 * with a ceiling. */
#ifndef LEAT_NATURE_PLANT_THERMAL_H
#define LEAT_NATURE_PLANT_THERMAL_H

#include <stdint.h>

typedef struct ThermalRule {
    double base_degc;    /* no development at or below */
    double optimum_degc; /* fastest from here ... */
    double ceiling_degc; /* ... to here; at least the optimum */
} ThermalRule;

/* Degree-days a day that stands at temp_degc throughout. */
double thermal_rate_degc_d(const ThermalRule *rule, double temp_degc);

/* Mean method: rate of (max + min) / 2. */
double thermal_day_mean_degc_d(const ThermalRule *rule, double min_degc,
                               double max_degc);

/* As the mean method, with the minimum first raised to the base and the maximum
 * lowered to the optimum. */
double thermal_day_capped_degc_d(const ThermalRule *rule, double min_degc,
                                 double max_degc);

/* Mean of the rate over a day whose temperature is a sine between min and max;
 * never less than 0. Without optimum and ceiling in reach it equals
 *     ((mean - base) (pi/2 - theta) + alpha cos theta) / pi,
 *     alpha = (max - min) / 2, theta = asin((base - mean) / alpha)
 * where the base lies within the day.
 * Source: [BASKERVILLE1969] Baskerville & Emin 1969, Ecology 50:514 (formula
 * from memory). 48 points; within 0.3 % of a day's range of the formula. */
double thermal_day_sine_degc_d(const ThermalRule *rule, double min_degc,
                               double max_degc);

/* The first count n with days[0] + .. + days[n-1] >= target, walking from
 * first and wrapping round at day_count; -1 when not met within most_days. */
int32_t thermal_days_to(const double *days_degc_d, int32_t day_count,
                        int32_t first, double target_degc_d, int32_t most_days);

/* Ontario heat unit of a day:
 *     day   3.33 (max - 10) - 0.084 (max - 10)^2, at least 0
 *     night 1.8 (min - 4.44), at least 0;   unit = their mean
 * Source: [GRAY1980] Gray, Morgan & Manning 1980 use it for field tomato;
 * coefficients from memory. */
double thermal_ontario_unit(double min_degc, double max_degc);

#endif
