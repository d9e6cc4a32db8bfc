/* Counter-based random numbers: number i of stream s under a seed is always the
 * same, whatever was drawn before and on how many cores.
 *
 *     value = mix(mix(seed + mix(stream)) + (counter + 1) * golden)
 *
 * with the 64-bit finaliser of SplitMix64.
 * Source: [STEELE2014] Steele, Lea & Flood 2014, Fast splittable pseudorandom
 * number generators, figure 16 (constants from memory, checked by the sequence
 * for seed 1234567 in the tests). */
#ifndef LEAT_BASE_RNG_H
#define LEAT_BASE_RNG_H

#include <stdint.h>

typedef struct Rng {
    uint64_t key;
    uint64_t counter;
} Rng;

Rng rng_make(uint64_t seed, uint64_t stream);
uint64_t rng_u64(Rng *rng);

/* Uniform on [0, 1). */
double rng_f64(Rng *rng);

/* Uniform on 0 .. limit - 1; limit at least 1. */
uint32_t rng_below(Rng *rng, uint32_t limit);

/* Standard normal. */
double rng_normal(Rng *rng);

#endif
