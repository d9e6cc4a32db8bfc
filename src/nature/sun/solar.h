/* Where the sun stands on a day, how long the day is, and how much sun there is
 * above the air and below it: the simple forms, good for days and hours.
 *
 * North and east are positive, the day of the year counts from 1 (1..366).
 * Radiation is on the flat. The declination is good to 1.2 degree, which is
 * minutes of day length; see sun/position.h where more is wanted. */
#ifndef LEAT_NATURE_SUN_SOLAR_H
#define LEAT_NATURE_SUN_SOLAR_H

#define SUN_PI 3.14159265358979323846

double sun_rad_from_deg(double angle_deg);

/* How much nearer the sun makes it shine stronger, as a ratio.
 *     dr = 1 + 0.033 cos(2 pi J / 365)
 * Source: [FAO56] chapter 3, equation 23. */
double sun_distance_factor(int day_of_year);

/* Declination, rad.
 *     delta = 0.409 sin(2 pi J / 365 - 1.39)
 * Source: [FAO56] chapter 3, equation 24. */
double sun_declination_rad(int day_of_year);

/* Hour angle of sunset, rad, 0 in polar night to pi in midnight sun.
 *     ws = arccos(-tan(phi) tan(delta)), the argument held to -1..1
 * Source: [FAO56] chapter 3, equation 25; holding it is ours. */
double sun_sunset_angle_rad(double latitude_deg, double declination_rad);

/* From sunrise to sunset, h.
 *     N = 24 ws / pi
 * Source: [FAO56] chapter 3, equation 34. */
double sun_day_length_h(double latitude_deg, int day_of_year);

/* Sun above the air, MJ/m2/d.
 *     Ra = (24 x 60 / pi) 0.0820 dr (ws sin(phi) sin(delta)
 *                                    + cos(phi) cos(delta) sin(ws))
 * Source: [FAO56] chapter 3, equation 21. */
double sun_above_air_mj_m2_d(double latitude_deg, int day_of_year);

/* Between two hour angles (rad, 0 at solar noon, afternoon positive), MJ/m2;
 * parts before sunrise and after sunset count nothing.
 *     Ra = (12 x 60 / pi) 0.0820 dr ((w2 - w1) sin(phi) sin(delta)
 *                                    + cos(phi) cos(delta) (sin w2 - sin w1))
 * Source: [FAO56] chapter 3, equation 28. */
double sun_above_air_between_mj_m2(double latitude_deg, int day_of_year,
                                   double from_rad, double to_rad);

/* How far a sundial is ahead of a steady clock, h.
 *     Sc = 0.1645 sin 2b - 0.1255 cos b - 0.025 sin b, b = 2 pi (J - 81) / 364
 * Source: [FAO56] chapter 3, equations 32 and 33. */
double sun_equation_of_time_h(int day_of_year);

typedef struct SunClock {
    double longitude_deg;      /* of the place */
    double zone_longitude_deg; /* of the clock: 15 for each hour ahead of UTC */
    double clock_h;            /* by that clock, 0..24 */
} SunClock;

/* Hour angle, rad.
 *     w = pi / 12 ((t + 0.06667 (L - Lz) + Sc) - 12),  L east
 * Source: [FAO56] chapter 3, equation 31. */
double sun_hour_angle_rad(const SunClock *clock, int day_of_year);

/* On the ground below a clear sky, from that above the air.
 *     Rso = (0.75 + 2e-5 z) Ra,  z in m
 * Source: [FAO56] chapter 3, equation 37. */
double sun_clear_sky_mj_m2(double above_air_mj_m2, double altitude_m);

/* On the ground by the share of the day with sunshine, n/N.
 *     Rs = (0.25 + 0.50 n/N) Ra
 * Source: [FAO56] chapter 3, equation 35. */
double sun_from_sunshine_mj_m2_d(double above_air_mj_m2_d,
                                 double sunshine_frac);

typedef struct DayTemps {
    double max_degc;
    double min_degc;
} DayTemps;

/* On the ground by the span of the day's temperatures, no more than below a
 * clear sky at sea level.
 *     Rs = k sqrt(Tmax - Tmin) Ra,  k 0.16 inland, 0.19 by the sea
 * Source: [FAO56] chapter 3, equation 50. */
double sun_from_temps_mj_m2_d(double above_air_mj_m2_d, DayTemps temps,
                              double coast_coefficient);

/* An hour's share of the day's sun on the ground, 1/h, at its hour angle.
 *     r = (pi / 24) (a + b cos w) (cos w - cos ws) / (sin ws - ws cos ws)
 *     a = 0.409 + 0.5016 sin(ws - 60 deg), b = 0.6609 - 0.4767 sin(ws - 60 deg)
 * 0 outside the day. The hours of a day add up to 1 within a few per cent.
 * Source: [COLLARES1979] (from memory). */
double sun_hour_share(double hour_angle_rad, double sunset_angle_rad);

/* The direction to the sun as a unit vector: east, north, up (below the
 * horizon up is negative). */
typedef struct SunDirection {
    double east;
    double north;
    double up;
} SunDirection;

SunDirection sun_direction(double latitude_deg, double declination_rad,
                           double hour_angle_rad);

/* Photosynthetic light of a day from its sun, mol/m2/d.
 *     DLI = 0.45 x 4.57 Rs, 0.45 the share of energy in 400-700 nm
 *     (0.42-0.50), 4.57 umol a J
 * Source: [MCCREE1972] (from memory). */
double sun_dli_mol_m2_d(double sun_mj_m2_d);

#endif
