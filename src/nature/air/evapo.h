/* Water that a short green sward would use: outside, by day or hour, and in a
 * tunnel; and the heat that the sky takes. */
#ifndef LEAT_NATURE_AIR_EVAPO_H
#define LEAT_NATURE_AIR_EVAPO_H

#include <stdbool.h>

/* Heat lost to the sky, net, MJ/m2 in a day.
 *     Rnl = 4.903e-9 (Tmax^4 + Tmin^4)/2 (0.34 - 0.14 sqrt(ea))
 *           (1.35 Rs/Rso - 0.35),  T in kelvin (C + 273.16), Rs/Rso at most 1
 * Source: [FAO56] chapter 3, equation 39. */
typedef struct SkyDay {
    double max_degc;
    double min_degc;
    double vapour_kpa;
    double clear_frac; /* Rs/Rso, held to 0.3..1 */
} SkyDay;
double air_sky_loss_mj_m2_d(const SkyDay *day);

/* ... in an hour: 2.043e-10 T^4 and the same two factors. At night clear_frac
 * is that of the hours before sunset. */
typedef struct SkyHour {
    double temp_degc;
    double vapour_kpa;
    double clear_frac;
} SkyHour;
double air_sky_loss_mj_m2_h(const SkyHour *hour);

/* Net radiation of a sward: (1 - 0.23) Rs - Rnl.
 * Source: [FAO56] chapter 3, equations 38 and 40. */
double air_net_radiation_mj_m2(double sun_mj_m2, double sky_loss_mj_m2);

/* Heat into the ground from one month's mean temperature to the next but one,
 * MJ/m2/d: G = 0.07 (T[i+1] - T[i-1]). Source: [FAO56] equation 43. */
double air_ground_heat_mj_m2_d(double before_degc, double after_degc);

/* ... in an hour: 0.1 Rn by day, 0.5 Rn at night.
 * Source: [FAO56] equations 45 and 46. */
double air_ground_heat_mj_m2_h(double net_mj_m2_h, bool is_day);

/* Wind at 2 m from wind at another height over grass, m/s.
 *     u2 = uz 4.87 / ln(67.8 z - 5.42)
 * Source: [FAO56] equation 47. */
double air_wind_2m_m_s(double wind_m_s, double height_m);

/* What both forms need. */
typedef struct EvapoAir {
    double temp_degc;      /* mean of the day or hour */
    double saturation_kpa; /* day: mean of e(Tmax) and e(Tmin) */
    double vapour_kpa;
    double wind_2m_m_s;
    double pressure_kpa;
    double net_mj_m2;    /* of the day or hour */
    double ground_mj_m2; /* of the day or hour */
} EvapoAir;

/* Reference evapotranspiration, mm/d.
 *     ETo = (0.408 D (Rn - G) + g 900/(T + 273) u2 (es - ea))
 *           / (D + g (1 + 0.34 u2))
 * Not below 0. Source: [FAO56] equation 6. */
double air_reference_et_mm_d(const EvapoAir *day);

/* ... mm in an hour, 37 in place of 900. Source: [FAO56] equation 53. */
double air_reference_et_mm_h(const EvapoAir *hour);

/* ... in a plastic tunnel, mm/d: the same with a fixed aerodynamic resistance
 * of 150 s/m, so u2 = 208/150; wind_2m_m_s is not read.
 * Source: [FERNANDEZ2010]. */
double air_tunnel_et_mm_d(const EvapoAir *day);

/* Where only temperatures are known, mm/d.
 *     ET = 0.0023 (Tmean + 17.8) sqrt(Tmax - Tmin) 0.408 Ra
 * Source: [FAO56] equation 52 (Hargreaves). */
double air_et_from_temps_mm_d(double max_degc, double min_degc,
                              double above_air_mj_m2_d);

/* From sun outside and the share that the cover lets in, mm/d.
 *     ETo = (0.288 + 0.0019 J) Go tau,   J <= 220
 *           (1.339 - 0.00288 J) Go tau,  J > 220,   Go = Rs/2.45
 * Fitted at 37 N; use it for such winters and summers only.
 * Source: [FERNANDEZ2010] (coefficients from memory). */
double air_tunnel_et_from_sun_mm_d(double sun_mj_m2_d, double cover_frac,
                                   int day_of_year);

/* Share of absorbed radiation that wet, well-covered ground turns into vapour
 * when the air has come to rest with it:
 *     D / (D + g)
 * Source: [PRIESTLEY1972] (equilibrium part, from memory). */
double air_equilibrium_frac(double temp_degc, double pressure_kpa);

#endif
