/* Bed kinds: beds alike for planting. Computed, never typed. */
#ifndef LEAT_SIM_BED_KINDS_H
#define LEAT_SIM_BED_KINDS_H

#include "base/arena.h"
#include "farm/records.h"

/* Kinds in order of their first bed; everything is in the arena. */
typedef struct BedKinds {
    int count;
    const int *of_bed;        /* by row of beds */
    const int *first_bed;     /* by kind */
    const int *bed_count;     /* by kind */
    const char *const *names; /* by kind: "H1 south"; each its own */
} BedKinds;

/* Alike are beds of the same tunnel, side, light, size, sections, edge and its
 * months, loop and hours of flooding. */
bool bed_kinds_alike(const Farm *farm, const Bed *a, const Bed *b);

void bed_kinds_find(Arena *arena, const Farm *farm, BedKinds *out);

/* The loop whose water a bed has, or -1. */
int bed_loop(const Farm *farm, const Bed *bed);

#endif
