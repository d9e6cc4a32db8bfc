/* One flood and drain of beds, in closed form. */
#ifndef LEAT_NATURE_FLOW_BED_CYCLE_H
#define LEAT_NATURE_FLOW_BED_CYCLE_H

#include "base/err.h"

typedef struct BedCycle {
    double area_m2;       /* of one bed */
    double depth_m;       /* flooded */
    double porosity_frac; /* above 0 */
    double flow_m3_h;     /* to one bed while it floods */
    double drain_mm;      /* bore of its drain hole, Cd 0.6 */
    double bleed_frac;    /* share of the drain that is open while it floods:
                             0 closed, 1 the same hole always open */
    double sump_m3;       /* water in the sump before */
    int beds_in_step;     /* beds that flood together */
} BedCycle;

typedef struct BedTimes {
    double bed_m3; /* water one full bed holds */
    double fill_min;
    double drain_min;   /* after the flow stops */
    double drawn_m3;    /* sump lowered when all beds of the step are full */
    double left_m3;     /* in the sump then; below 0: it cannot supply */
    double loading_m_d; /* water over the bed a day if cycles follow on */
} BedTimes;

/* Fill against the open drain, then drain:
 *
 *     S dh/dt = q - c sqrt h,  S = A n,  c = 0.6 a sqrt(2 g)
 *     t = 2 S/c^2 (c (s0 - s1) + q ln((q - c s0)/(q - c s1))),  s = sqrt h
 *
 * ERR_RANGE: a bed that never fills because the drain passes the flow. */
NODISCARD Err flow_bed_cycle(const BedCycle *cycle, BedTimes *out);

/* Hours for depth to run from one level to another through the drain with an
 * inflow; INFINITY where it never gets there. */
double flow_bed_hours(const BedCycle *cycle, double inflow_m3_h, double from_m,
                      double to_m);

#endif
