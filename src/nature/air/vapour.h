/* Moist air: saturation, dew point, wet bulb, what a cubic metre holds. */
#ifndef LEAT_NATURE_AIR_VAPOUR_H
#define LEAT_NATURE_AIR_VAPOUR_H

/* Saturation vapour pressure over water, kPa.
 *     e = 0.6108 exp(17.27 T / (T + 237.3))
 * temp_degc  T, -40..80
 * Source: [FAO56] chapter 3, equation 11. */
double air_saturation_kpa(double temp_degc);

/* Its slope, kPa/K.
 *     D = 4098 e / (T + 237.3)^2
 * Source: [FAO56] chapter 3, equation 13. */
double air_saturation_slope_kpa_k(double temp_degc);

/* Saturation vapour pressure, kPa: over ice below 0 degC, over water above.
 * K the temperature in kelvin, p in Pa:
 *     water  ln p = -5.8002206e3/K + 1.3914993 - 4.8640239e-2 K
 *                   + 4.1764768e-5 K^2 - 1.4452093e-8 K^3 + 6.5459673 ln K
 *     ice    ln p = -5.6745359e3/K + 6.3925247 - 9.677843e-3 K
 *                   + 6.2215701e-7 K^2 + 2.0747825e-9 K^3
 *                   - 9.484024e-13 K^4 + 4.1635019 ln K
 * temp_degc  -100..200
 * Source: [HYLAND1983], as printed in [ASHRAE2017] chapter 1. */
double air_saturation_ice_kpa(double temp_degc);

/* Pressure of the air by altitude, kPa.
 *     P = 101.3 ((293 - 0.0065 z) / 293)^5.26
 * Source: [FAO56] chapter 3, equation 7. */
double air_pressure_kpa(double altitude_m);

/* Psychrometric constant, kPa/K: 0.665e-3 P.
 * Source: [FAO56] chapter 3, equation 8. */
double air_psychrometric_kpa_k(double pressure_kpa);

/* Vapour pressure from a dry and a wet thermometer, kPa.
 *     ea = e(Tw) - a P (T - Tw)
 * coefficient_1_k  a: 0.000662 aspirated, 0.000800 in natural draught,
 *                  0.0012 indoors in still air
 * Source: [FAO56] chapter 3, equation 15. */
typedef struct Psychrometer {
    double dry_degc;
    double wet_degc; /* at most dry */
    double pressure_kpa;
    double coefficient_1_k;
} Psychrometer;
double air_vapour_from_wet_kpa(const Psychrometer *read);

/* Dew point, degC: the inverse of air_saturation_kpa.
 *     Td = 237.3 x / (17.27 - x),  x = ln(ea / 0.6108)
 * vapour_kpa  over 0 */
double air_dew_point_degc(double vapour_kpa);

/* kg of water a kg of dry air.
 *     W = 0.621945 pw / (p - pw)
 * Source: [ASHRAE2017] chapter 1. */
double air_humidity_ratio(double vapour_kpa, double pressure_kpa);

/* Water in a cubic metre, g/m3.
 *     AH = 1000 pw / (461.5 (T + 273.15)),  pw in Pa */
double air_absolute_humidity_g_m3(double vapour_kpa, double temp_degc);

/* Heat held, kJ/kg of dry air: h = 1.006 t + W (2501 + 1.86 t).
 * Source: [ASHRAE2017] chapter 1. */
double air_enthalpy_kj_kg(double temp_degc, double humidity_ratio);

/* Room taken by a kg of dry air and its water, m3/kg.
 *     v = 287.042 (t + 273.15) (1 + 1.607858 W) / p,  p in Pa
 * Source: [ASHRAE2017] chapter 1. */
double air_volume_m3_kg(double temp_degc, double humidity_ratio,
                        double pressure_kpa);

typedef struct MoistAir {
    double temp_degc;
    double rh_frac; /* 0..1, over water above 0 degC and over ice below */
    double pressure_kpa;
} MoistAir;

/* Wet bulb temperature, degC, to 1e-6 by halving, where
 *     W = ((2501 - 2.326 t*) Ws* - 1.006 (t - t*)) / (2501 + 1.86 t - 4.186 t*)
 * above freezing and
 *     W = ((2830 - 0.24 t*) Ws* - 1.006 (t - t*)) / (2830 + 1.86 t - 2.1 t*)
 * below. Source: [ASHRAE2017] chapter 1. */
double air_wet_bulb_degc(const MoistAir *air);

/* Humidity ratio from dry and wet temperature, by the same two lines. */
double air_humidity_ratio_from_wet(double dry_degc, double wet_degc,
                                   double pressure_kpa);

/* Wet bulb by regression, degC, at sea level; RH 5..99 %, -20..50 degC, good to
 * 1 K. A check on the other, and quick.
 *     Tw = T atan(0.151977 (RH + 8.313659)^0.5) + atan(T + RH)
 *          - atan(RH - 1.676331) + 0.00391838 RH^1.5 atan(0.023101 RH)
 *          - 4.686035
 * Source: [STULL2011] (from memory). */
double air_wet_bulb_quick_degc(double temp_degc, double rh_frac);

/* How much more the air could take up, kPa: e(T) (1 - RH). */
double air_deficit_kpa(double temp_degc, double rh_frac);

#endif
