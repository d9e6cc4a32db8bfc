/* How long oxygen in a still tank lasts. */
#include "nature/water/oxygen_fall.h"

#include <assert.h>
#include <math.h>

static const double NOTHING_1_H = 1e-9;

/* Where the water would come to rest; without transfer it never does. */
static double end_mg_l(const OxygenFall *fall)
{
    return fall->full_mg_l - fall->use_mg_l_h / fall->transfer_1_h;
}

double water_oxygen_fall_h(const OxygenFall *fall)
{
    double room = fall->start_mg_l - fall->limit_mg_l;
    if (!(room > 0.0)) {
        return 0.0;
    }
    if (fall->transfer_1_h < NOTHING_1_H) {
        return fall->use_mg_l_h > 0.0 ? room / fall->use_mg_l_h : INFINITY;
    }
    double end = end_mg_l(fall);
    if (end >= fall->limit_mg_l) {
        return INFINITY;
    }
    return -log1p(-room / (fall->start_mg_l - end)) / fall->transfer_1_h;
}

double water_oxygen_after_mg_l(const OxygenFall *fall, double hours)
{
    if (fall->transfer_1_h < NOTHING_1_H) {
        return fmax(0.0, fall->start_mg_l - fall->use_mg_l_h * hours);
    }
    double end = end_mg_l(fall);
    double away = (fall->start_mg_l - end) * exp(-fall->transfer_1_h * hours);
    return fmax(0.0, end + away);
}

double water_air_rate_1_h(const AirTransfer *air, double volume_m3)
{
    static const double FULL_AT_20_G_M3 = 9.09;
    assert(volume_m3 > 0.0);
    return 1000.0 * air->standard_kg_h * air->alpha_frac /
           (FULL_AT_20_G_M3 * volume_m3);
}
