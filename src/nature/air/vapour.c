/* Moist air. */
#include "nature/air/vapour.h"

#include <assert.h>
#include <math.h>

static const double ZERO_DEGC_K = 273.15;

double air_saturation_kpa(double temp_degc)
{
    assert(temp_degc > -80.0 && temp_degc < 150.0);
    return 0.6108 * exp(17.27 * temp_degc / (temp_degc + 237.3));
}

double air_saturation_slope_kpa_k(double temp_degc)
{
    double base = temp_degc + 237.3;
    return 4098.0 * air_saturation_kpa(temp_degc) / (base * base);
}

double air_saturation_ice_kpa(double temp_degc)
{
    assert(temp_degc >= -100.0 && temp_degc <= 200.0);
    double k = temp_degc + ZERO_DEGC_K;
    if (temp_degc < 0.0) {
        return exp(-5.6745359e3 / k + 6.3925247 +
                   k * (-9.677843e-3 +
                        k * (6.2215701e-7 +
                             k * (2.0747825e-9 - k * 9.484024e-13))) +
                   4.1635019 * log(k)) /
               1000.0;
    }
    return exp(-5.8002206e3 / k + 1.3914993 +
               k * (-4.8640239e-2 + k * (4.1764768e-5 - k * 1.4452093e-8)) +
               6.5459673 * log(k)) /
           1000.0;
}

double air_pressure_kpa(double altitude_m)
{
    return 101.3 * pow((293.0 - 0.0065 * altitude_m) / 293.0, 5.26);
}

double air_psychrometric_kpa_k(double pressure_kpa)
{
    return 0.665e-3 * pressure_kpa;
}

double air_vapour_from_wet_kpa(const Psychrometer *read)
{
    return air_saturation_kpa(read->wet_degc) -
           read->coefficient_1_k * read->pressure_kpa *
               (read->dry_degc - read->wet_degc);
}

double air_dew_point_degc(double vapour_kpa)
{
    assert(vapour_kpa > 0.0);
    double x = log(vapour_kpa / 0.6108);
    return 237.3 * x / (17.27 - x);
}

double air_humidity_ratio(double vapour_kpa, double pressure_kpa)
{
    assert(vapour_kpa < pressure_kpa);
    return 0.621945 * vapour_kpa / (pressure_kpa - vapour_kpa);
}

double air_absolute_humidity_g_m3(double vapour_kpa, double temp_degc)
{
    return vapour_kpa * 1000.0 * 1000.0 / (461.5 * (temp_degc + ZERO_DEGC_K));
}

double air_enthalpy_kj_kg(double temp_degc, double humidity_ratio)
{
    return 1.006 * temp_degc + humidity_ratio * (2501.0 + 1.86 * temp_degc);
}

double air_volume_m3_kg(double temp_degc, double humidity_ratio,
                        double pressure_kpa)
{
    return 287.042 * (temp_degc + ZERO_DEGC_K) *
           (1.0 + 1.607858 * humidity_ratio) / (pressure_kpa * 1000.0);
}

double air_humidity_ratio_from_wet(double dry_degc, double wet_degc,
                                   double pressure_kpa)
{
    double t = dry_degc, w = wet_degc;
    double full = air_humidity_ratio(air_saturation_ice_kpa(w), pressure_kpa);
    if (w < 0.0) {
        return ((2830.0 - 0.24 * w) * full - 1.006 * (t - w)) /
               (2830.0 + 1.86 * t - 2.1 * w);
    }
    return ((2501.0 - 2.326 * w) * full - 1.006 * (t - w)) /
           (2501.0 + 1.86 * t - 4.186 * w);
}

double air_wet_bulb_degc(const MoistAir *air)
{
    double vapour_kpa = air->rh_frac * air_saturation_ice_kpa(air->temp_degc);
    double want = air_humidity_ratio(vapour_kpa, air->pressure_kpa);
    /* Dry air is cooled by some 25 K at most at 80 degC; 60 K is below any. */
    double low = fmax(air->temp_degc - 60.0, -99.0), high = air->temp_degc;
    while (high - low > 1e-7) {
        double mid = (low + high) / 2.0;
        double has =
            air_humidity_ratio_from_wet(air->temp_degc, mid, air->pressure_kpa);
        if (has > want) {
            high = mid;
        } else {
            low = mid;
        }
    }
    return (low + high) / 2.0;
}

double air_wet_bulb_quick_degc(double temp_degc, double rh_frac)
{
    double rh = rh_frac * 100.0;
    return temp_degc * atan(0.151977 * sqrt(rh + 8.313659)) +
           atan(temp_degc + rh) - atan(rh - 1.676331) +
           0.00391838 * rh * sqrt(rh) * atan(0.023101 * rh) - 4.686035;
}

double air_deficit_kpa(double temp_degc, double rh_frac)
{
    return air_saturation_kpa(temp_degc) * (1.0 - rh_frac);
}
