/* Un-ionised ammonia: the poisonous share of total ammonia nitrogen (TAN).
 *
 * All amounts are milligrams of nitrogen per litre (NH3-N), never of the
 * molecule: 1 mg/L NH3-N is 1.216 mg/L NH3. */
#ifndef LEAT_NATURE_WATER_AMMONIA_H
#define LEAT_NATURE_WATER_AMMONIA_H

#include <stdbool.h>

/* pKa of ammonium in fresh water.
 *
 *     pKa = 0.09018 + 2729.92 / T,  T in K
 *
 * temp_degc  0..50; ionic strength near 0 (below 0.02 the error is under 5 %)
 * Source: [EMERSON1975] Emerson, Russo, Lund & Thurston 1975. */
double water_ammonia_pka(double temp_degc);

/* Share of TAN that is NH3, 0..1.
 *
 *     f = 1 / (1 + 10^(pKa - pH))
 *
 * Source: [EMERSON1975]. */
double water_unionised_frac(double temp_degc, double ph);

/* Criteria for all freshwater life with salmonids and mussels, mg/L TAN: an
 * hour's mean, and thirty days' mean. A scale to compare with, stricter than
 * farmed warm-water fish need.
 *
 *     CMC = min(0.275/(1+10^(7.204-pH)) + 39.0/(1+10^(pH-7.204)),
 *               0.7249 (0.0114/(1+10^(7.204-pH)) + 1.6181/(1+10^(pH-7.204)))
 *               23.12 10^(0.036 (20-T)))
 *     CCC = 0.8876 (0.0278/(1+10^(7.688-pH)) + 1.1994/(1+10^(pH-7.688)))
 *           2.126 10^(0.028 (20-max(T, 7)))
 *
 * Source: [EPA2013] (formula from memory, checked by its printed criteria). */
double water_tan_hour_mg_l(double temp_degc, double ph);
double water_tan_month_mg_l(double temp_degc, double ph);

/* What fish bear for long, mg/L NH3-N: above it a grower stops and looks. Fry
 * bear less. Source: [IFAS_FA16] for 0.05; fry 0.02 common practice. */
double water_ammonia_caution_mg_l(bool is_fry);

#endif
