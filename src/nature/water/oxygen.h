/* How much oxygen water holds, and how much air puts in. */
#ifndef LEAT_NATURE_WATER_OXYGEN_H
#define LEAT_NATURE_WATER_OXYGEN_H

/* Pressure of the standard atmosphere, kPa.
 *
 *     P = 101.325 (1 - 2.25577e-5 h)^5.25588
 *
 * altitude_m  h, -400..4500
 * Source: [ICAO7488] Manual of the ICAO Standard Atmosphere (from memory). */
double water_pressure_kpa(double altitude_m);

typedef struct OxygenWater {
    double temp_degc;     /* 0..40 */
    double pressure_kpa;  /* of the air; 101.325 at the sea */
    double salinity_g_kg; /* 0..40 */
} OxygenWater;

/* Oxygen in water that has stood in moist air, mg/L.
 *
 *     ln C* = -139.34411 + 1.575701e5/T - 6.642308e7/T^2 + 1.243800e10/T^3
 *             - 8.621949e11/T^4 - S (1.7674e-2 - 10.754/T + 2140.7/T^2)
 *     C = C* P (1 - Pw/P)(1 - th P) / ((1 - Pw)(1 - th)),  P in atm
 *     ln Pw = 11.8571 - 3840.70/T - 216961/T^2
 *     th = 0.000975 - 1.426e-5 t + 6.436e-8 t^2,  t in degC
 *
 * Source: [BENSON1984] Benson & Krause 1984, as in [APHA4500O]. */
double water_oxygen_saturation_mg_l(const OxygenWater *water);

typedef struct AirTransfer {
    double standard_kg_h; /* in clean water of 20 degC without oxygen, at sea */
    double alpha_frac;    /* transfer in this water over clean water */
    double beta_frac;     /* saturation in this water over clean water */
} AirTransfer;

/* Oxygen that an aerator really gives, kg/h; 0 where water is saturated.
 *
 *     OTR = SOTR alpha (beta C*T - C) / C*20 1.024^(T - 20)
 *
 * Source: [ASCE2-91] Measurement of Oxygen Transfer in Clean Water. */
double water_air_gives_kg_h(const AirTransfer *air, const OxygenWater *water,
                            double oxygen_mg_l);

#endif
