/* The carbonate system: alkalinity, dissolved inorganic carbon (DIC), pH and
 * carbon dioxide. Alkalinity is conservative; pH is always solved for.
 *
 *     A = [HCO3-] + 2 [CO3--] + [OH-] - [H+]
 *
 * Ammonia and phosphate are left out: negligible below pH 8.5. Concentrations
 * are mol/L (taken as mol/kg), pH is of activity. */
#ifndef LEAT_NATURE_WATER_CARBONATE_H
#define LEAT_NATURE_WATER_CARBONATE_H

/* Equilibrium constants as base-10 logarithms, and activity coefficients. */
typedef struct CarbonateConstants {
    double log_k1;  /* CO2 + H2O = HCO3- + H+ */
    double log_k2;  /* HCO3- = CO3-- + H+ */
    double log_kh;  /* CO2 of air into water, mol/L/atm */
    double log_kw;  /* H2O = H+ + OH- */
    double log_ksp; /* calcite */
    double g1;      /* of ions of charge 1 */
    double g2;      /* of charge 2 */
} CarbonateConstants;

/* temp_degc 0..50; ionic_mol_l ionic strength I, 0..0.1 (0: ideal water).
 *
 * With T in K:
 *     log K2   = -(107.8871 + 0.03252849 T - 5151.79/T - 38.92561 log T
 *                  + 563713.9/T^2)
 *     log K1K2 = -(464.1965 + 0.09344813 T - 26986.16/T - 165.75951 log T
 *                  + 2248628.9/T^2)
 *     log KH   = 108.3865 + 0.01985076 T - 6919.53/T - 40.45154 log T
 *                + 669365/T^2
 *     log Ksp  = -171.9065 - 0.077993 T + 2839.319/T + 71.595 log T
 *     log Kw   = 293.29227 + 0.1360833 T - 10576.913/T - 123.73158 log T
 *                - 6.996455e-5 T^2
 *     log g    = -A z^2 (sqrt I/(1 + sqrt I) - 0.3 I)
 *     A = 1.82483e6 / (eps T)^1.5
 *     eps = 2727.586 + 0.6224107 T - 466.9151 ln T - 52000.87/T
 * Source: [PLUMMER1982] Plummer & Busenberg 1982; Kw [PHREEQC3]; activity
 * [DAVIES1962] with the dielectric constant of [TRUESDELL1974] (memory). */
CarbonateConstants carbonate_constants(double temp_degc, double ionic_mol_l);

/* Ionic strength of calcium bicarbonate water of that alkalinity, mol/L: half
 * as much again as the alkalinity; a guess for farm water. */
double carbonate_ionic_mol_l(double alkalinity_eq_l);

typedef struct CarbonateWater {
    double ph;
    double alkalinity_eq_l;
    double dic_mol_l;
    double co2_mol_l;
    double hco3_mol_l;
    double co3_mol_l;
} CarbonateWater;

/* pH 3..12 by bisection from alkalinity and DIC. */
CarbonateWater carbonate_solve(const CarbonateConstants *constants,
                               double alkalinity_eq_l, double dic_mol_l);

/* DIC and the rest from alkalinity and a measured pH. Where alkalinity is less
 * than the pH alone would give, carbon is 0. */
CarbonateWater carbonate_from_ph(const CarbonateConstants *constants,
                                 double alkalinity_eq_l, double ph);

/* Water in balance with air that holds that partial pressure of CO2, atm. */
CarbonateWater carbonate_in_air(const CarbonateConstants *constants,
                                double alkalinity_eq_l, double co2_atm);

/* Saturation index of calcite, log10; below 0 limestone still dissolves. */
double carbonate_calcite_index(const CarbonateConstants *constants,
                               const CarbonateWater *water,
                               double calcium_mol_l);

/* Units that the trade uses: alkalinity as mg/L CaCO3, gas as mg/L CO2. */
double eq_l_from_mg_l_caco3(double mg_l);
double mg_l_caco3_from_eq_l(double eq_l);
double mg_l_co2_from_mol_l(double mol_l);
double mol_l_from_mg_l_co2(double mg_l);

#endif
