/* How many seeds and trays: exact binomial, not "divide by germination". */
#ifndef LEAT_NATURE_PLANT_SEEDS_H
#define LEAT_NATURE_PLANT_SEEDS_H

#include <stdint.h>

/* ceil(plants / share_frac): enough on average, short about half the time. */
int32_t seeds_on_average(int32_t plants, double share_frac);

/* P[Bin(seeds, share_frac) >= plants]: chance that the sowing suffices. */
double seeds_chance_frac(int32_t seeds, int32_t plants, double share_frac);

/* The fewest seeds with seeds_chance_frac >= confidence_frac; share_frac in
 * (0, 1] (germination times survival), confidence_frac in (0, 1). At most
 * SEEDS_MOST plants. */
enum { SEEDS_MOST = 1000000 };
int32_t seeds_to_sow(int32_t plants, double share_frac, double confidence_frac);

/* Seeds in one cell for at least one plant with that confidence:
 *     ceil(ln(1 - confidence) / ln(1 - germination)) */
int32_t seeds_per_cell(double germination_frac, double confidence_frac);

/* Trays for that many cells' worth of seed, rounded up. */
int32_t seeds_trays(int32_t seeds, int32_t cells, int32_t seeds_a_cell);

#endif
