/* Declination, day length and sun above and below the air. */
#include "nature/sun/solar.h"

#include <math.h>

static double held(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

double sun_rad_from_deg(double angle_deg)
{
    return angle_deg * SUN_PI / 180.0;
}

double sun_distance_factor(int day_of_year)
{
    return 1.0 + 0.033 * cos(2.0 * SUN_PI * day_of_year / 365.0);
}

double sun_declination_rad(int day_of_year)
{
    return 0.409 * sin(2.0 * SUN_PI * day_of_year / 365.0 - 1.39);
}

double sun_sunset_angle_rad(double latitude_deg, double declination_rad)
{
    double latitude_rad = sun_rad_from_deg(latitude_deg);
    return acos(held(-tan(latitude_rad) * tan(declination_rad), -1.0, 1.0));
}

double sun_day_length_h(double latitude_deg, int day_of_year)
{
    double declination_rad = sun_declination_rad(day_of_year);
    return 24.0 / SUN_PI * sun_sunset_angle_rad(latitude_deg, declination_rad);
}

double sun_above_air_mj_m2_d(double latitude_deg, int day_of_year)
{
    return sun_above_air_between_mj_m2(latitude_deg, day_of_year, -SUN_PI,
                                       SUN_PI);
}

double sun_above_air_between_mj_m2(double latitude_deg, int day_of_year,
                                   double from_rad, double to_rad)
{
    double latitude_rad = sun_rad_from_deg(latitude_deg);
    double declination_rad = sun_declination_rad(day_of_year);
    double sunset_rad = sun_sunset_angle_rad(latitude_deg, declination_rad);
    double from = held(from_rad, -sunset_rad, sunset_rad);
    double to = held(to_rad, -sunset_rad, sunset_rad);
    double part =
        (to - from) * sin(latitude_rad) * sin(declination_rad) +
        cos(latitude_rad) * cos(declination_rad) * (sin(to) - sin(from));
    return fmax(0.0, 12.0 * 60.0 / SUN_PI * 0.0820 *
                         sun_distance_factor(day_of_year) * part);
}

double sun_equation_of_time_h(int day_of_year)
{
    double b = 2.0 * SUN_PI * (day_of_year - 81) / 364.0;
    return 0.1645 * sin(2.0 * b) - 0.1255 * cos(b) - 0.025 * sin(b);
}

double sun_hour_angle_rad(const SunClock *clock, int day_of_year)
{
    double solar_h =
        clock->clock_h +
        0.06667 * (clock->longitude_deg - clock->zone_longitude_deg) +
        sun_equation_of_time_h(day_of_year);
    return SUN_PI / 12.0 * (solar_h - 12.0);
}

double sun_clear_sky_mj_m2(double above_air_mj_m2, double altitude_m)
{
    return (0.75 + 2e-5 * altitude_m) * above_air_mj_m2;
}

double sun_from_sunshine_mj_m2_d(double above_air_mj_m2_d, double sunshine_frac)
{
    return (0.25 + 0.50 * sunshine_frac) * above_air_mj_m2_d;
}

double sun_from_temps_mj_m2_d(double above_air_mj_m2_d, DayTemps temps,
                              double coast_coefficient)
{
    double span_k = fmax(0.0, temps.max_degc - temps.min_degc);
    return fmin(coast_coefficient * sqrt(span_k) * above_air_mj_m2_d,
                sun_clear_sky_mj_m2(above_air_mj_m2_d, 0.0));
}

double sun_hour_share(double hour_angle_rad, double sunset_angle_rad)
{
    double ws = sunset_angle_rad;
    double daylight = sin(ws) - ws * cos(ws);
    if (fabs(hour_angle_rad) >= ws || daylight <= 0.0) {
        return 0.0;
    }
    double a = 0.409 + 0.5016 * sin(ws - SUN_PI / 3.0);
    double b = 0.6609 - 0.4767 * sin(ws - SUN_PI / 3.0);
    double w = hour_angle_rad;
    return fmax(0.0, SUN_PI / 24.0 * (a + b * cos(w)) * (cos(w) - cos(ws)) /
                         daylight);
}

SunDirection sun_direction(double latitude_deg, double declination_rad,
                           double hour_angle_rad)
{
    double latitude_rad = sun_rad_from_deg(latitude_deg);
    double sin_lat = sin(latitude_rad), cos_lat = cos(latitude_rad);
    double sin_dec = sin(declination_rad), cos_dec = cos(declination_rad);
    double cos_hour = cos(hour_angle_rad);
    return (SunDirection){
        .east = -cos_dec * sin(hour_angle_rad),
        .north = cos_lat * sin_dec - sin_lat * cos_dec * cos_hour,
        .up = sin_lat * sin_dec + cos_lat * cos_dec * cos_hour,
    };
}

double sun_dli_mol_m2_d(double sun_mj_m2_d)
{
    return 0.45 * 4.57 * sun_mj_m2_d;
}
