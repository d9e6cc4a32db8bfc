/* Oxygen that fish of many weights use, as the widest range over published laws
 * and over a span of temperatures: what an emergency must reckon with. */
#ifndef LEAT_NATURE_FISH_OXYGEN_NEED_H
#define LEAT_NATURE_FISH_OXYGEN_NEED_H

#include <stdbool.h>

#include "nature/fish/slices.h"

typedef struct OxygenSpan {
    double low_degc;
    double high_degc;
    double hours_since_meal; /* below 0: not known, taken as just fed */
} OxygenSpan;

typedef struct OxygenNeed {
    double low_g_h;
    double high_g_h;
    bool is_widened; /* a weight or temperature outside a law's range */
} OxygenNeed;

/* mg/kg/h of a fish of that weight within the span. The slow end is the least
 * that any law says at these temperatures or warmer (in steps of half a
 * degree), the fast end the most at these or cooler, so that warmer water never
 * lengthens what is left, though one law holds in part of the range only.
 * Beyond 0.1-5000 g and 10-38 degC the nearest end is taken, halved and
 * doubled; a judgement. */
typedef struct OxygenRate {
    double low_mg_kg_h;
    double high_mg_kg_h;
    bool is_widened;
} OxygenRate;
OxygenRate fish_oxygen_rate_within(double weight_g, const OxygenSpan *span);

/* All fish of the slices; a species uses its oxygen_frac of a tilapia's. */
OxygenNeed fish_oxygen_need(const FishSpecies *species,
                            const FishSlices *slices, const OxygenSpan *span);

#endif
