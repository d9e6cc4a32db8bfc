/* Counter-based random numbers. */
#include "base/rng.h"

#include <assert.h>
#include <math.h>

static const uint64_t GOLDEN = 0x9e3779b97f4a7c15u;

static uint64_t mix(uint64_t z)
{
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

Rng rng_make(uint64_t seed, uint64_t stream)
{
    return (Rng){.key = stream == 0 ? seed : mix(seed + mix(stream))};
}

uint64_t rng_u64(Rng *rng)
{
    rng->counter++;
    return mix(rng->key + rng->counter * GOLDEN);
}

double rng_f64(Rng *rng)
{
    return (double)(rng_u64(rng) >> 11) * 0x1.0p-53;
}

uint32_t rng_below(Rng *rng, uint32_t limit)
{
    assert(limit > 0);
    /* High half of a 32 x 32 bit product: bias below 2^-32 x limit. */
    return (uint32_t)(((rng_u64(rng) >> 32) * limit) >> 32);
}

double rng_normal(Rng *rng)
{
    /* Box and Muller; 1 - u keeps the logarithm off zero. */
    double radius = sqrt(-2.0 * log(1.0 - rng_f64(rng)));
    return radius * cos(2.0 * acos(-1.0) * rng_f64(rng));
}
