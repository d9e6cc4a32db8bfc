/* Bolting: when a leaf crop turns to flower and is lost.
 *
 * Two roads, either alone or both for one crop:
 *   heat  on days at least so long, warmth above a limit adds up, and the plant
 *         bolts when the sum is full (lettuce, rocket, spinach, coriander);
 *   cold  after so many days below a limit the plant is ready, and bolts on the
 *         first day at least so long (celery, parsley, chard). */
#ifndef LEAT_NATURE_PLANT_BOLT_H
#define LEAT_NATURE_PLANT_BOLT_H

#include <stdbool.h>

typedef struct BoltRule {
    double heat_day_h;      /* day length from which heat counts */
    double heat_degc;       /* daily mean above which it counts */
    double heat_sum_degc_d; /* full at this sum; 0: never by heat */
    double cold_degc;       /* daily mean below which a day counts as cold */
    double cold_d;          /* ready after this many days; 0: never by cold */
    double cold_day_h;      /* then bolts from this day length on */
} BoltRule;

typedef struct BoltState {
    double heat_degc_d; /* warmth gathered */
    double cold_d;      /* cold days gathered */
} BoltState;

/* Adds a day and says whether the plant has bolted by its end. */
bool bolt_day(const BoltRule *rule, double mean_degc, double day_length_h,
              BoltState *state);

#endif
