/* Oxygen in water: saturation and transfer from air. */
#include "nature/water/oxygen.h"

#include <assert.h>
#include <math.h>

static const double KELVIN = 273.15;
static const double ATM_KPA = 101.325;

double water_pressure_kpa(double altitude_m)
{
    assert(altitude_m > -1000.0 && altitude_m < 11000.0);
    return ATM_KPA * pow(1.0 - 2.25577e-5 * altitude_m, 5.25588);
}

static double at_one_atm_mg_l(double t_k, double salinity_g_kg)
{
    double i = 1.0 / t_k;
    double fresh = -139.34411 +
                   i * (1.575701e5 + i * (-6.642308e7 +
                                          i * (1.243800e10 - 8.621949e11 * i)));
    double salt = 1.7674e-2 + i * (-10.754 + 2140.7 * i);
    return exp(fresh - salinity_g_kg * salt);
}

double water_oxygen_saturation_mg_l(const OxygenWater *water)
{
    double t = water->temp_degc;
    assert(t > -5.0 && t < 60.0);
    double t_k = t + KELVIN;
    double p = water->pressure_kpa / ATM_KPA;
    double pw = exp(11.8571 - 3840.70 / t_k - 216961.0 / (t_k * t_k));
    double th = 0.000975 - 1.426e-5 * t + 6.436e-8 * t * t;
    return at_one_atm_mg_l(t_k, water->salinity_g_kg) * p * (1.0 - pw / p) *
           (1.0 - th * p) / ((1.0 - pw) * (1.0 - th));
}

double water_air_gives_kg_h(const AirTransfer *air, const OxygenWater *water,
                            double oxygen_mg_l)
{
    double t = water->temp_degc;
    double here = water_oxygen_saturation_mg_l(water);
    double at_20 = at_one_atm_mg_l(20.0 + KELVIN, 0.0);
    double lack = air->beta_frac * here - oxygen_mg_l;
    return fmax(0.0, air->standard_kg_h * air->alpha_frac * lack / at_20 *
                         pow(1.024, t - 20.0));
}
