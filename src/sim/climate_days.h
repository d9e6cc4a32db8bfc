/* A typical year from monthly normals: smooth days whose months keep their
 * means, and hours within them.
 *
 * A value runs in straight lines between twelve points in mid-month, set so
 * that each month's days have exactly the month's mean. Straight lines because
 * they act locally: harmonics through twelve means ring into the neighbours of
 * a steep month. Sun is drawn as a share of that above the air, so that it
 * follows the day's length between the points. */
#ifndef LEAT_SIM_CLIMATE_DAYS_H
#define LEAT_SIM_CLIMATE_DAYS_H

/* A common year; tables by day of the year hold CLIMATE_DAYS, the last repeated
 * for leap years. */
enum { CLIMATE_YEAR_DAYS = 365, CLIMATE_DAYS = 366 };

typedef struct ClimateNormals {
    double latitude_deg;
    double altitude_m;
    double max_degc[12];
    double min_degc[12];
    double sun_mj_m2_d[12];
    double rh_frac[12];
    double wind_m_s[12];
    double wet_frac[12]; /* days with rain over all days */
} ClimateNormals;

typedef struct ClimateDay {
    double max_degc;
    double min_degc; /* before sunrise */
    double sun_mj_m2_d;
    double above_air_mj_m2_d;
    double vapour_kpa; /* the same all day */
    double wind_m_s;   /* the same all day */
    double clear_frac; /* sun over that of a clear sky, 0.3..1 */
    double day_length_h;
    double declination_rad;
    double sunset_rad;
} ClimateDay;

/* Month 0..11 of a day 0..364 of a common year. */
int climate_month_of(int day);
int climate_month_days(int month); /* 28..31 */

/* Shares of a month's days, a value for each of 365 days: straight lines whose
 * months keep their means. */
void climate_course(const double means[12], double out[CLIMATE_YEAR_DAYS]);

/* Fills 365 days. A month whose sun is above that above the air is cut to it;
 * only then, or where a line would go below 0, is its mean not kept. */
void climate_days_fill(const ClimateNormals *normals,
                       ClimateDay out[CLIMATE_YEAR_DAYS]);

/* Air temperature at a solar hour 0..24 of day 0..364.
 *     day    T = Tmin + (Tmax - Tmin) sin(pi (t - rise) / (Y + 2 a))
 *     night  from T at sunset down to the next Tmin,
 *            T = (Tmin - Ts e^-b + (Ts - Tmin) e^(-b n/Z)) / (1 - e^-b)
 * Y the day's length (held to 3..21 h), Z = 24 - Y, n hours since sunset,
 * a = 1.86 h, b = 2.20. The night is scaled so as to end at Tmin.
 * Source: [PARTON1981] air at 1.5 m (from memory). */
double climate_hour_degc(const ClimateDay days[CLIMATE_YEAR_DAYS], int day,
                         double solar_h);

/* The same for a day between two others of any year. */
typedef struct ClimateThree {
    const ClimateDay *before; /* Borrowed, as the others. */
    const ClimateDay *today;
    const ClimateDay *after;
} ClimateThree;
double climate_between_degc(const ClimateThree *days, double solar_h);

/* The sun of an hour on the flat, W/m2, in two parts; they add up over the 24
 * hours to the day's sun. hour 0..23 by the sun. */
typedef struct ClimateSun {
    double direct_w_m2[24];
    double diffuse_w_m2[24];
} ClimateSun;
ClimateSun climate_day_sun(const ClimateDay *day, double latitude_deg,
                           int day_of_year);

#endif
