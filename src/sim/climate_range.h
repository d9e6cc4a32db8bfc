/* How far the typical year could be off: its main numbers with low and high. */
#ifndef LEAT_SIM_CLIMATE_RANGE_H
#define LEAT_SIM_CLIMATE_RANGE_H

#include "base/figure.h"
#include "sim/climate_year.h"

/* Origin FIGURE_GUESS throughout. */
typedef struct ClimateRange {
    Figure heater_kwh;        /* the year, all heaters */
    Figure heater_cost;       /* currency */
    Figure *water_least_degc; /* by loop: the coldest day's mean */
    Figure *water_most_degc;  /* by loop: the warmest day's mean */
    Figure *air_least_degc;   /* by tunnel: the coldest night of the year */
    Figure *air_most_degc;    /* by tunnel: the hottest hour of the year */
} ClimateRange;

/* Runs the year once as it stands and twice for each figure that the book
 * judges about tunnels and tanks (a cover's loss, light and infrared; leaves,
 * vents, ground, room): at its low and at its high. What each moves a number,
 * down or up, adds up as for independent causes:
 *     low = value - sqrt(sum of down^2),  high = value + sqrt(sum of up^2)
 * It is the typical year's own doubt; one year differs from the next by more.
 * About nineteen times as long as climate_year_run, and its errors. */
NODISCARD Err climate_range_make(const Farm *farm, const Book *book,
                                 Arena *arena, ClimateRange *out);

#endif
