/* Where the sun stands at an instant, good to about 0.02 degree from 1950 to
 * 2050 (the point that NREL prints for its far finer method is met to 0.01). */
#ifndef LEAT_NATURE_SUN_POSITION_H
#define LEAT_NATURE_SUN_POSITION_H

#include <stdint.h>

typedef struct SunPlace {
    double latitude_deg;  /* north positive */
    double longitude_deg; /* east positive */
    double pressure_kpa;  /* for refraction; 0: without */
    double temp_degc;
} SunPlace;

typedef struct SunPosition {
    double zenith_deg;    /* as seen, refraction included; 0 overhead */
    double elevation_deg; /* 90 - zenith */
    double azimuth_deg;   /* from north, eastward, 0..360 */
    double declination_deg;
    double right_ascension_deg;  /* 0..360 */
    double equation_of_time_min; /* sundial ahead of a steady clock */
    double distance_au;
} SunPosition;

/* unix_s  UTC seconds since 1970-01-01
 *
 * With T in Julian centuries of 36525 days from 2000-01-01 12:00:
 *     L0 = 280.46646 + T (36000.76983 + 0.0003032 T)
 *     M  = 357.52911 + T (35999.05029 - 0.0001537 T)
 *     e  = 0.016708634 - T (0.000042037 + 0.0000001267 T)
 *     C  = sin M (1.914602 - T (0.004817 + 0.000014 T))
 *          + sin 2M (0.019993 - 0.000101 T) + 0.000289 sin 3M
 *     Om = 125.04 - 1934.136 T,  lambda = L0 + C - 0.00569 - 0.00478 sin Om
 *     eps = 23.439291 - 0.0130042 T + 0.00256 cos Om
 *     R  = 1.000001018 (1 - e^2) / (1 + e cos(M + C))
 *     theta = 280.46061837 + 360.98564736629 d + 0.000387933 T^2, d = 36525 T
 * refraction in minutes of arc, h the true elevation in deg, P in kPa:
 *     1.02 / tan(h + 10.3 / (h + 5.11)) x (P / 101) (283 / (273 + t))
 * parallax 8.794 arc seconds.
 * Source: [MEEUS1998] chapters 12, 16, 25, 28 (from memory). */
SunPosition sun_position(const SunPlace *place, int64_t unix_s);

#endif
