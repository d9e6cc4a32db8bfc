/* How the figures of the water's page are made, written by the code that makes
 * them. */
#ifndef LEAT_WORK_WATER_WORKING_H
#define LEAT_WORK_WATER_WORKING_H

#include "work/water_day.h"

/* What an end of the range that suits was made from. */
typedef struct WaterEnd {
    const Figure *limit; /* Borrowed from the book; NULL: none */
    double other;        /* what stands beside it: see the equation */
} WaterEnd;

typedef struct WaterRange {
    WaterEnd low, high;
} WaterRange;

/* Of "water" PLACE: QUANTITY_value, _foreseen, _low and _high, those that are
 * known. */
void water_working_tell(const WaterDayAsk *ask, const char *place,
                        const Judge *judge, const WaterReading *reading,
                        const WaterRange *made);

#endif
