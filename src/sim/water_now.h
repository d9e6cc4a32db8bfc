/* What is known of a tank's water at a moment: told, read some time ago, usual
 * for the day of the year, or assumed. Each as a range that the age of a
 * reading widens and never narrows. */
#ifndef LEAT_SIM_WATER_NOW_H
#define LEAT_SIM_WATER_NOW_H

#include <stdbool.h>

#include "farm/book.h"
#include "farm/records.h"

enum { WATER_QUANTITIES = READ_IRON + 1 };

typedef enum WaterFrom {
    WATER_UNKNOWN, /* chemistry that nobody read */
    WATER_TOLD,
    WATER_READ,
    WATER_USUAL,   /* by the typical year */
    WATER_ASSUMED, /* by the book's figures of an emergency */
} WaterFrom;

typedef struct WaterKnown {
    double low, high; /* NAN where unknown */
    double value;     /* as told or read; NAN otherwise */
    double age_h;     /* of a reading */
    WaterFrom from;
} WaterKnown;

typedef struct WaterNow {
    WaterKnown of[WATER_QUANTITIES];
} WaterNow;

typedef struct WaterAsk {
    const Farm *farm;       /* Borrowed; may have faults */
    const BookAlarm *alarm; /* Borrowed. */
    int32_t tank;           /* row of farm->tanks, or -1 */
    int32_t loop;           /* of the tank, or the loop itself, or -1 */
    int64_t at;             /* UTC seconds; readings after it do not count */
    const double *told;     /* Borrowed: WATER_QUANTITIES values, NAN where
                               not told; NULL for none */
    double usual_degc;      /* of its water on this day; NAN: not known */
    double altitude_m;
} WaterAsk;

/* Temperature and oxygen always have a range; oxygen counts only where it was
 * read in the tank itself. The other quantities have the value that was told or
 * read last, and no width. */
WaterNow water_now(const WaterAsk *ask);

/* Oxygen of water in balance with air, mg/L; temp_degc is held to 0..40. */
double water_now_full_mg_l(double temp_degc, double altitude_m);

#endif
