/* How much of the sun comes straight and how much from the whole sky. */
#ifndef LEAT_NATURE_SUN_SPLIT_H
#define LEAT_NATURE_SUN_SPLIT_H

/* Sun above the air on a plane square to it, W/m2.
 *     I0 = 1366.1 (1.00011 + 0.034221 cos B + 0.00128 sin B
 *                  + 0.000719 cos 2B + 0.000077 sin 2B), B = 2 pi (J - 1)/365
 * Source: [SPENCER1971]; 1366.1 W/m2 is the constant of ASTM E490. */
double sun_square_above_air_w_m2(int day_of_year);

/* Clearness of an hour: sun on the flat over that above the air, held to 0..1;
 * cos(zenith) is held at 0.065 and over. */
double sun_clearness(double sun_w_m2, double cos_zenith, int day_of_year);

/* Share of an hour's sun that is diffuse, by clearness kt.
 *     kt <= 0.22   1 - 0.09 kt
 *     kt <= 0.80   0.9511 - 0.1604 kt + 4.388 kt^2 - 16.638 kt^3 + 12.336 kt^4
 *     above        0.165
 * Source: [ERBS1982] hourly. */
double sun_diffuse_frac_hour(double clearness);

/* Share of a day's sun that is diffuse, by the day's clearness KT and sunset.
 *     ws <= 81.4 deg: 1 - 0.2727 KT + 2.4495 KT^2 - 11.9514 KT^3
 *                     + 9.3879 KT^4 below KT 0.715, else 0.143
 *     ws >  81.4 deg: 1 + 0.2832 KT - 2.5557 KT^2 + 0.8448 KT^3 below 0.722,
 *                     else 0.175
 * Source: [ERBS1982] daily (from memory). */
double sun_diffuse_frac_day(double clearness, double sunset_angle_rad);

#endif
