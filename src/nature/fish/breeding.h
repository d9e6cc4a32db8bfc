/* Young fish from breeders kept on the farm. */
#ifndef LEAT_NATURE_FISH_BREEDING_H
#define LEAT_NATURE_FISH_BREEDING_H

#include "base/figure.h"
#include "nature/fish/species.h"

/* Fry per female in a cycle of 16-20 days by temperature; 0 for a fish that is
 * bought as fingerlings. Low: a third to half of females spawn in a cycle
 * (19-67 %). Source: [SRAC_TILAPIA], [GUERRERO1979]. */
Figure fish_fry_per_female(const FishSpecies *species, double temp_degc);

/* Days between two crops of fry: 18 (16-30). */
Figure fish_fry_cycle_days(void);

/* Fry needed at the start for a count at sale, stage by stage: fry 20 % loss,
 * fingerlings 5 %, grow-out 2 %. Common practice of the trade. */
double fish_fry_for_sale(double sale_count);

#endif
