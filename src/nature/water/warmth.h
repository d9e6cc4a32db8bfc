/* What of water depends on its temperature alone, read off a table; and the pH
 * of a water from that of an hour before. For computations that ask for it
 * millions of times: each value is that of the function it is tabled from. */
#ifndef LEAT_NATURE_WATER_WARMTH_H
#define LEAT_NATURE_WATER_WARMTH_H

/* At one temperature. Carbon in mol/m3; activities of H+ in mol/L. */
typedef struct WaterWarmth {
    double oxygen_g_m3; /* saturation, at the table's pressure */
    double k1;          /* [HCO3-] a / [CO2] */
    double k12;         /* [CO3--] a^2 / [CO2] */
    double kw_mol_m3;   /* [OH-] a */
    double proton;      /* [H+] in mol/m3 over a */
    double co2_mol_m3;  /* in balance with the table's air */
    double ammonia;     /* Ka: NH3/TAN = Ka / (Ka + a) */
    double film;        /* nitrifying film over that at 20 degC: 1.027^(T-20) */
    double mineral;     /* breakdown of solids over that at 20 degC */
    double transfer;    /* 1.024^(T-20) */
    double breath;      /* resting fish over that at 28 degC */
    double calcite;     /* [Ca] [CO3] in balance with calcite, (mol/m3)^2 */
} WaterWarmth;

enum { WARMTH_ROWS = 201 };

/* Every quarter of a degree from 0 to 50. */
typedef struct WarmthTable {
    WaterWarmth rows[WARMTH_ROWS];
} WarmthTable;

typedef struct WarmthCase {
    double pressure_kpa;
    double ionic_mol_l; /* 0..0.1, taken as constant */
    double co2_ppm;     /* of the air */
    double mineral_rise;
} WarmthCase;

/* From water_oxygen_saturation, carbonate_constants, water_ammonia_pka and the
 * laws of nitrogen.h, oxygen.h and respiration.h. */
void warmth_fill(const WarmthCase *given, WarmthTable *out);

/* Straight between rows (within 1e-4 of the functions); outside 0..50 degC the
 * end's. */
WaterWarmth warmth_at(const WarmthTable *table, double temp_degc);

typedef struct PhPoint {
    double a;          /* activity of H+, mol/L */
    double co2_mol_m3; /* dissolved carbon dioxide */
    double slope;      /* of CO2 by DIC at constant alkalinity, 0..1 */
} PhPoint;

/* Solves alkalinity(a) = alkalinity for a, by Newton's method on ln a from a
 * value near it, to 1e-6 of pH; a is held to pH 3..12.
 *
 *     A = C (K1 a + 2 K12)/(a^2 + K1 a + K12) + Kw/a - a/g1
 *
 * alkalinity_mol_m3 eq/m3, any sign; dic_mol_m3 at least 0 (where the
 * alkalinity is below what carbon gives, the pH falls to its floor). */
PhPoint warmth_ph(const WaterWarmth *at, double alkalinity_mol_m3,
                  double dic_mol_m3, double near_a);

/* DIC of water of that alkalinity and pH, mol/m3, at least 0. */
double warmth_dic(const WaterWarmth *at, double alkalinity_mol_m3, double ph);

#endif
