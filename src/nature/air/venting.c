/* Drying a tunnel by opening it. */
#include "nature/air/venting.h"

#include <assert.h>
#include <math.h>

#include "nature/air/vapour.h"

static double water_g_m3(double temp_degc, double rh_frac)
{
    return air_absolute_humidity_g_m3(rh_frac * air_saturation_kpa(temp_degc),
                                      temp_degc);
}

double air_vent_dries_g_m3(const Venting *venting)
{
    return water_g_m3(venting->inside_degc, venting->inside_rh_frac) -
           water_g_m3(venting->outside_degc, venting->outside_rh_frac);
}

double air_vent_end_rh_frac(const Venting *venting)
{
    return water_g_m3(venting->outside_degc, venting->outside_rh_frac) /
           water_g_m3(venting->inside_degc, 1.0);
}

double air_vent_hours(const Venting *venting, double target_rh_frac)
{
    assert(venting->air_changes_h > 0.0);
    if (venting->inside_rh_frac <= target_rh_frac) {
        return 0.0;
    }
    double end = air_vent_end_rh_frac(venting);
    if (target_rh_frac <= end) {
        return INFINITY;
    }
    return log((venting->inside_rh_frac - end) / (target_rh_frac - end)) /
           venting->air_changes_h;
}
