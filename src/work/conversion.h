/* Feed conversion of a tank from what was told: feed given over weight gained
 * between two samples, with the dead, the sold and the moved in the balance.
 *
 *     conversion = feed / (kg at the end - kg at the start + kg that left
 *                          - kg that came)
 *
 * The trade's own definition: the dead have eaten too. */
#ifndef LEAT_WORK_CONVERSION_H
#define LEAT_WORK_CONVERSION_H

#include "farm/records.h"
#include "journal/told.h"

typedef struct Conversion {
    bool is_known;
    double value;   /* feed per gain */
    int32_t from;   /* day of the first sample, or of the opening count */
    int32_t until;  /* of the last */
    double feed_kg; /* told in between */
    double gain_kg;
    double first_kg; /* that stood there at the first and at the last .. */
    double last_kg;
    double left_kg;      /* .. and that left in between, less what came */
    int32_t fed_days;    /* days on which feed was told */
    const char *lacking; /* why it is not known; "" where it is */
} Conversion;

/* tank: row of farm->tanks. farm: with its standing fish as they were counted,
 * facts: all told since, by day, those struck out left out. Fish that left
 * without a weight weigh what the last sample or count said. */
Conversion conversion_of(const Farm *farm, int32_t tank, const Told *facts,
                         int32_t fact_count);

#endif
