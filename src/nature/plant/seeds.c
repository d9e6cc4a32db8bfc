/* How many seeds and trays: exact binomial. */
#include "nature/plant/seeds.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

/* A share such as 0.9 * 0.95 may come out a hair above a whole number of
 * seeds; that hair is not a seed. */
static int32_t round_up(double value)
{
    return (int32_t)ceil(value - 1e-9);
}

int32_t seeds_on_average(int32_t plants, double share_frac)
{
    assert(plants >= 0 && plants <= SEEDS_MOST);
    assert(share_frac > 0.0 && share_frac <= 1.0);
    return round_up(plants / share_frac);
}

/* ln of the chance that exactly hits of tries come up. */
static double log_exactly(int32_t tries, int32_t hits, double share_frac)
{
    return lgamma(tries + 1.0) - lgamma(hits + 1.0) -
           lgamma(tries - hits + 1.0) + hits * log(share_frac) +
           (tries - hits) * log1p(-share_frac);
}

double seeds_chance_frac(int32_t seeds, int32_t plants, double share_frac)
{
    assert(share_frac > 0.0 && share_frac <= 1.0);
    if (plants <= 0) {
        return 1.0;
    }
    if (seeds < plants) {
        return 0.0;
    }
    if (share_frac >= 1.0) {
        return 1.0;
    }
    /* Sum the tail that lies beyond the most likely count: its terms only
     * shrink from the first on. */
    bool is_scarce = plants > seeds * share_frac;
    int32_t first = is_scarce ? plants : plants - 1;
    double term = exp(log_exactly(seeds, first, share_frac));
    double odds = share_frac / (1.0 - share_frac);
    double sum = 0.0;
    for (int32_t hits = first; hits >= 0 && hits <= seeds;) {
        sum += term;
        if (term < 1e-18) {
            break;
        }
        if (is_scarce) {
            term *= odds * (seeds - hits) / (hits + 1.0);
            hits++;
        } else {
            term *= hits / (odds * (seeds - hits + 1.0));
            hits--;
        }
    }
    double chance = is_scarce ? sum : 1.0 - sum;
    return chance < 0.0 ? 0.0 : chance > 1.0 ? 1.0 : chance;
}

int32_t seeds_to_sow(int32_t plants, double share_frac, double confidence_frac)
{
    assert(plants >= 0 && plants <= SEEDS_MOST);
    assert(confidence_frac > 0.0 && confidence_frac < 1.0);
    int32_t low = plants;
    if (seeds_chance_frac(low, plants, share_frac) >= confidence_frac) {
        return low;
    }
    int32_t high = plants;
    while (seeds_chance_frac(high, plants, share_frac) < confidence_frac) {
        low = high;
        high += high / 4 + 1;
    }
    while (high - low > 1) {
        int32_t middle = low + (high - low) / 2;
        if (seeds_chance_frac(middle, plants, share_frac) >= confidence_frac) {
            high = middle;
        } else {
            low = middle;
        }
    }
    return high;
}

int32_t seeds_per_cell(double germination_frac, double confidence_frac)
{
    assert(germination_frac > 0.0 && germination_frac <= 1.0);
    assert(confidence_frac > 0.0 && confidence_frac < 1.0);
    if (germination_frac >= 1.0) {
        return 1;
    }
    int32_t seeds =
        round_up(log1p(-confidence_frac) / log1p(-germination_frac));
    return seeds < 1 ? 1 : seeds;
}

int32_t seeds_trays(int32_t seeds, int32_t cells, int32_t seeds_a_cell)
{
    assert(seeds >= 0 && cells > 0 && seeds_a_cell > 0);
    int32_t tray = cells * seeds_a_cell;
    return (seeds + tray - 1) / tray;
}
