/* One flood and drain of beds. */
#include "nature/flow/bed_cycle.h"

#include <assert.h>
#include <math.h>

#include "nature/flow/outlet.h"

/* With no hole the level changes by the inflow alone. */
static double hours_closed(double space_m2, double inflow_m3_h, double rise_m)
{
    double hours = space_m2 * rise_m / inflow_m3_h;
    return hours >= 0.0 ? hours : INFINITY;
}

static double hours_open(const BedCycle *cycle, double hole_m3_h,
                         double inflow_m3_h, double from_m, double to_m)
{
    double space_m2 = cycle->area_m2 * cycle->porosity_frac;
    double c = hole_m3_h; /* at 1 m of head */
    double s0 = sqrt(from_m);
    double s1 = sqrt(to_m);
    double start = inflow_m3_h - c * s0;
    double end = inflow_m3_h - c * s1;
    bool is_rising = to_m > from_m;
    if (is_rising ? end <= 0.0 : (end > 0.0 || start >= 0.0)) {
        return INFINITY;
    }
    double flow_term = inflow_m3_h > 0.0 ? inflow_m3_h * log(start / end) : 0.0;
    return 2.0 * space_m2 / (c * c) * (c * (s0 - s1) + flow_term);
}

double flow_bed_hours(const BedCycle *cycle, double inflow_m3_h, double from_m,
                      double to_m)
{
    double hole_m3_h = flow_orifice_m3_h(cycle->drain_mm, 1.0);
    if (!(hole_m3_h > 0.0)) {
        return hours_closed(cycle->area_m2 * cycle->porosity_frac, inflow_m3_h,
                            to_m - from_m);
    }
    return hours_open(cycle, hole_m3_h, inflow_m3_h, from_m, to_m);
}

Err flow_bed_cycle(const BedCycle *cycle, BedTimes *out)
{
    assert(cycle->area_m2 > 0.0 && cycle->depth_m > 0.0 &&
           cycle->porosity_frac > 0.0 && cycle->flow_m3_h > 0.0);
    BedCycle filling = *cycle;
    filling.drain_mm = cycle->drain_mm * sqrt(cycle->bleed_frac);
    BedTimes times = {
        .bed_m3 = cycle->area_m2 * cycle->depth_m * cycle->porosity_frac,
        .fill_min = 60.0 * flow_bed_hours(&filling, cycle->flow_m3_h, 0.0,
                                          cycle->depth_m),
        .drain_min = 60.0 * flow_bed_hours(cycle, 0.0, cycle->depth_m, 0.0),
    };
    if (!isfinite(times.fill_min)) {
        return err_make(ERR_RANGE,
                        "the bed never fills: at %.2f m its drain of %.0f mm "
                        "passes all %.2f m3/h",
                        cycle->depth_m, filling.drain_mm, cycle->flow_m3_h);
    }
    if (!isfinite(times.drain_min)) {
        return err_make(ERR_RANGE, "the bed never drains: no hole");
    }
    /* What drained meanwhile is back in the sump. */
    times.drawn_m3 = cycle->beds_in_step * times.bed_m3;
    times.left_m3 = cycle->sump_m3 - times.drawn_m3;
    double cycles_d = 24.0 * 60.0 / (times.fill_min + times.drain_min);
    times.loading_m_d = cycles_d * times.bed_m3 / cycle->area_m2;
    *out = times;
    return ERR_NONE;
}
