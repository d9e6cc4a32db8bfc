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

/* What fish bear for long, mg/L NH3-N: above it a grower stops and looks. Fry
 * bear less. Source: [IFAS_FA16] for 0.05; fry 0.02 common practice. */
double water_ammonia_caution_mg_l(bool is_fry);

#endif
