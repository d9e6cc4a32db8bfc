/* What a possible year draws for figures. */
#include "sim/luck.h"

#include <math.h>

/* The normal's own: one in ten lies beyond. */
static const double ONE_IN_TEN = 1.2816;
static const double FARTHEST = 2.5;

/* Fowler, Noll and Vo's hash of a name, 64 bit, variant 1a. */
static uint64_t hash_of(const char *name)
{
    uint64_t hash = 0xcbf29ce484222325u;
    for (; *name; name++) {
        hash = (hash ^ (unsigned char)*name) * 0x100000001b3u;
    }
    return hash;
}

double luck_normal(const LuckYear *year, LuckKind kind, const char *name)
{
    /* Streams of the weather begin elsewhere: see WEATHER_STREAM. */
    Rng rng =
        rng_make(year->seed ^ 0x6c65617479656172u, hash_of(name) + year->year);
    rng.counter = 2 * (uint64_t)kind;
    double z = rng_normal(&rng);
    return fmin(FARTHEST, fmax(-FARTHEST, z));
}

double luck_shared(const LuckYear *year, LuckKind kind, const char *season,
                   const char *batch, double share_frac)
{
    return share_frac * luck_normal(year, kind, season) +
           sqrt(1.0 - share_frac * share_frac) * luck_normal(year, kind, batch);
}

double luck_figure(const Figure *figure, double z)
{
    double end = z < 0.0 ? figure->low : figure->high;
    return isnan(end)
               ? figure->value
               : figure->value + fabs(z) / ONE_IN_TEN * (end - figure->value);
}
