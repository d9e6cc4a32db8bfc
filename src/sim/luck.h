/* What a possible year draws for figures: how fast a batch grows, what it
 * yields, how many come up.
 *
 * A figure's low and high hold the middle 80 % of what is met, so a draw is
 *
 *     value + (high - value) z/1.2816   for z >= 0,
 *     value + (value - low) z/1.2816    for z < 0
 *
 * with z standard normal, held to +-2.5: one in ten lies below low, one in ten
 * above high, half below value. Draws are counted: seed, year, what is drawn
 * and the name of the thing fix each, whatever else is drawn and on how many
 * cores. */
#ifndef LEAT_SIM_LUCK_H
#define LEAT_SIM_LUCK_H

#include "base/figure.h"
#include "base/rng.h"

typedef enum LuckKind {
    LUCK_GROWTH,
    LUCK_UNITS,
    LUCK_SALEABLE,
    LUCK_SETTING, /* plants lost after setting out */
    LUCK_SEED,    /* germination of a season's lot */
    LUCK_NURSERY,
    LUCK_COUNT,  /* how many of the seeds that were sown */
    LUCK_WARMTH, /* fish: feed by temperature */
    LUCK_APPETITE,
    LUCK_CONVERSION,
} LuckKind;

typedef struct LuckYear {
    uint64_t seed;
    uint32_t year;
} LuckYear;

/* Standard normal, held to +-2.5, for a thing by its name. */
double luck_normal(const LuckYear *year, LuckKind kind, const char *name);

/* A normal of which a share (0..1) is common to all batches of the season and
 * the rest this batch's own; its variance is 1. */
double luck_shared(const LuckYear *year, LuckKind kind, const char *season,
                   const char *batch, double share_frac);

/* The figure as a year with z has it. Where low or high is NAN: the value. */
double luck_figure(const Figure *figure, double z);

#endif
