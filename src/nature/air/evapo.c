/* Reference evapotranspiration and loss to the sky. */
#include "nature/air/evapo.h"

#include <math.h>

#include "nature/air/vapour.h"

static double fourth_power_k4(double temp_degc)
{
    double k = temp_degc + 273.16;
    return k * k * k * k;
}

static double sky_factors(double vapour_kpa, double clear_frac)
{
    double clear = fmin(fmax(clear_frac, 0.3), 1.0);
    double dry = fmax(0.0, 0.34 - 0.14 * sqrt(fmax(vapour_kpa, 0.0)));
    return dry * (1.35 * clear - 0.35);
}

double air_sky_loss_mj_m2_d(const SkyDay *day)
{
    double mean_k4 =
        (fourth_power_k4(day->max_degc) + fourth_power_k4(day->min_degc)) / 2.0;
    return 4.903e-9 * mean_k4 * sky_factors(day->vapour_kpa, day->clear_frac);
}

double air_sky_loss_mj_m2_h(const SkyHour *hour)
{
    return 2.043e-10 * fourth_power_k4(hour->temp_degc) *
           sky_factors(hour->vapour_kpa, hour->clear_frac);
}

double air_net_radiation_mj_m2(double sun_mj_m2, double sky_loss_mj_m2)
{
    return (1.0 - 0.23) * sun_mj_m2 - sky_loss_mj_m2;
}

double air_ground_heat_mj_m2_d(double before_degc, double after_degc)
{
    return 0.07 * (after_degc - before_degc);
}

double air_ground_heat_mj_m2_h(double net_mj_m2_h, bool is_day)
{
    return (is_day ? 0.1 : 0.5) * net_mj_m2_h;
}

double air_wind_2m_m_s(double wind_m_s, double height_m)
{
    return wind_m_s * 4.87 / log(67.8 * height_m - 5.42);
}

static double combined_mm(const EvapoAir *air, double wind_m_s, double factor)
{
    double slope = air_saturation_slope_kpa_k(air->temp_degc);
    double gamma = air_psychrometric_kpa_k(air->pressure_kpa);
    double radiation = 0.408 * slope * (air->net_mj_m2 - air->ground_mj_m2);
    double drying = gamma * factor / (air->temp_degc + 273.0) * wind_m_s *
                    (air->saturation_kpa - air->vapour_kpa);
    return fmax(0.0, (radiation + drying) /
                         (slope + gamma * (1.0 + 0.34 * wind_m_s)));
}

double air_reference_et_mm_d(const EvapoAir *day)
{
    return combined_mm(day, day->wind_2m_m_s, 900.0);
}

double air_reference_et_mm_h(const EvapoAir *hour)
{
    return combined_mm(hour, hour->wind_2m_m_s, 37.0);
}

double air_tunnel_et_mm_d(const EvapoAir *day)
{
    return combined_mm(day, 208.0 / 150.0, 900.0);
}

double air_et_from_temps_mm_d(double max_degc, double min_degc,
                              double above_air_mj_m2_d)
{
    double mean_degc = (max_degc + min_degc) / 2.0;
    return fmax(0.0, 0.0023 * (mean_degc + 17.8) *
                         sqrt(fmax(0.0, max_degc - min_degc)) * 0.408 *
                         above_air_mj_m2_d);
}

double air_tunnel_et_from_sun_mm_d(double sun_mj_m2_d, double cover_frac,
                                   int day_of_year)
{
    double inside_mm_d = sun_mj_m2_d / 2.45 * cover_frac;
    double slope = day_of_year <= 220 ? 0.288 + 0.0019 * day_of_year
                                      : 1.339 - 0.00288 * day_of_year;
    return slope * inside_mm_d;
}

double air_equilibrium_frac(double temp_degc, double pressure_kpa)
{
    double slope = air_saturation_slope_kpa_k(temp_degc);
    return slope / (slope + air_psychrometric_kpa_k(pressure_kpa));
}
