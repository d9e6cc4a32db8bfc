/* Top-up water and iron. */
#include "nature/water/topup.h"

#include <assert.h>
#include <math.h>

double water_iron_dose_g(double volume_m3, double target_mg_l,
                         double strength_frac)
{
    assert(strength_frac > 0.0);
    return target_mg_l * volume_m3 / strength_frac; /* mg/L = g/m3 */
}

/* Volume of source at surplus over the water's level that raises it by most. */
static double share_m3(double volume_m3, double surplus, double most)
{
    return surplus > most ? volume_m3 * most / (surplus - most) : INFINITY;
}

Err water_top_up_limit(const TopUp *top_up, TopUpLimit *out)
{
    if (!(top_up->chlorine_most_mg_l > 0.0 && top_up->change_most_degc > 0.0)) {
        return err_make(ERR_RANGE,
                        "limits of %.3f mg/L chlorine and %.2f degC "
                        "an hour must be above 0",
                        top_up->chlorine_most_mg_l, top_up->change_most_degc);
    }
    double apart_degc = fabs(top_up->source_degc - top_up->tank_degc);
    TopUpLimit limit = {
        .by_chlorine_m3 = share_m3(top_up->volume_m3, top_up->chlorine_mg_l,
                                   top_up->chlorine_most_mg_l),
        .by_temperature_m3 =
            share_m3(top_up->volume_m3, apart_degc, top_up->change_most_degc),
    };
    limit.most_m3 = fmin(limit.by_chlorine_m3, limit.by_temperature_m3);
    *out = limit;
    return ERR_NONE;
}

double water_chlorine_most_mg_l(void)
{
    return 0.01;
}

double water_change_most_degc(void)
{
    return 1.0;
}
