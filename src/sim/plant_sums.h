/* Sums over a year that turns round for ever.
 *
 * A sum has PLANT_SUM_SIZE entries: 0, then the running total to the end of
 * each day of two years. It is made by writing a day's amount (never negative)
 * to entry day + 1 of the first year and closing it. */
#ifndef LEAT_SIM_PLANT_SUMS_H
#define LEAT_SIM_PLANT_SUMS_H

#include <stdint.h>

enum { PLANT_SUM_SIZE = 2 * 365 + 1, PLANT_NEVER = INT32_MAX / 4 };

/* Turns a year of daily amounts into the running totals. */
void plant_sum_close(double *sum);

/* The amount of days from doy (0..364) on; days of any length, 0 or more. */
double plant_sum_of(const double *sum, int32_t doy, int32_t days);

/* The fewest days from doy on whose amount reaches target; PLANT_NEVER where
 * none ever does. */
int32_t plant_sum_days(const double *sum, int32_t doy, double target);

#endif
