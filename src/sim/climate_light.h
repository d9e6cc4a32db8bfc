/* The sun inside a tunnel, by row and hour. */
#ifndef LEAT_SIM_CLIMATE_LIGHT_H
#define LEAT_SIM_CLIMATE_LIGHT_H

#include "nature/sun/cover.h"
#include "sim/climate_days.h"

/* Rows across a tunnel: its southern third (its eastern where the axis runs
 * rather north-south), the middle, its northern (western). */
enum { ROW_SOUTH, ROW_MIDDLE, ROW_NORTH, CLIMATE_ROWS };

/* Which row a side's name means ("south", "middle", "north", "east", "west"); a
 * side that lies along the axis, or any other word, is the middle. */
int climate_row_of(const char *side, double axis_deg);

typedef struct ClimateCover {
    CoverRoof roof;
    CoverCurve direct;
    double frame_frac;    /* what frame, dirt and age let through */
    double diffuse_frac;  /* whole house, age included */
    double kept_frac[12]; /* what shade cloth and wash let through, by month */
} ClimateCover;

typedef struct ClimateCoverCase {
    CoverRoof roof;
    double straight_frac;    /* clean, at right angles */
    double diffuse_frac;     /* whole house, new */
    double ageing_frac_year; /* of the light, lost a year */
    double age_years;
    double kept_frac[12];
} ClimateCoverCase;

/* Frame and dirt are what the whole house's share for diffuse light lacks
 * against the sheet's own. */
void climate_cover_fill(const ClimateCoverCase *given, ClimateCover *out);

/* W/m2 on a row at an hour 0..23. */
double climate_row_w_m2(const ClimateCover *cover, const ClimateSun *sun,
                        const SunDirection *to_sun, int hour, int row);

#endif
