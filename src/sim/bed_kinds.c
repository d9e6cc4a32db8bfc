/* Bed kinds: beds alike for planting. */
#include "sim/bed_kinds.h"

#include <math.h>
#include <string.h>

int bed_loop(const Farm *farm, const Bed *bed)
{
    return bed->zone < 0 ? -1 : farm->zones[bed->zone].loop;
}

static bool has_same_hours(const Farm *farm, const Bed *a, const Bed *b)
{
    if (a->zone < 0 || b->zone < 0) {
        return a->zone < 0 && b->zone < 0;
    }
    for (int m = 0; m < 12; m++) {
        double apart =
            farm->zones[a->zone].hours_d[m] - farm->zones[b->zone].hours_d[m];
        if (fabs(apart) > 1e-9) {
            return false;
        }
    }
    return true;
}

bool bed_kinds_alike(const Farm *farm, const Bed *a, const Bed *b)
{
    return a->tunnel == b->tunnel && strcmp(a->side, b->side) == 0 &&
           a->edge == b->edge && a->edge_months == b->edge_months &&
           a->sections == b->sections && has_same_hours(farm, a, b) &&
           fabs(a->light_frac - b->light_frac) < 1e-9 &&
           fabs(a->length_m * a->width_m - b->length_m * b->width_m) < 1e-9 &&
           bed_loop(farm, a) == bed_loop(farm, b);
}

static const char *plain_name(Arena *arena, const Farm *farm, const Bed *bed)
{
    const char *tunnel =
        bed->tunnel < 0 ? "open" : farm->tunnels[bed->tunnel].id;
    return bed->side[0] == '\0' ? arena_copy_text(arena, tunnel)
                                : arena_text(arena, "%s %s", tunnel, bed->side);
}

/* Kinds of one tunnel and side take a number from the second on. */
static void name_kind(Arena *arena, const Farm *farm, const Bed *bed, int kind,
                      const char **names)
{
    const char *stem = plain_name(arena, farm, bed);
    const char *name = stem;
    int number = 1;
    for (int k = 0; k < kind; k++) {
        if (strcmp(names[k], name) == 0) {
            name = arena_text(arena, "%s %d", stem, ++number);
            k = -1;
        }
    }
    names[kind] = name;
}

void bed_kinds_find(Arena *arena, const Farm *farm, BedKinds *out)
{
    int *of_bed = ARENA_ARRAY(arena, int, farm->beds_count);
    int *first_bed = ARENA_ARRAY(arena, int, farm->beds_count);
    int *bed_count = ARENA_ARRAY(arena, int, farm->beds_count);
    const char **names = ARENA_ARRAY(arena, const char *, farm->beds_count);
    int count = 0;
    for (int b = 0; b < farm->beds_count; b++) {
        const Bed *bed = &farm->beds[b];
        int kind = 0;
        while (kind < count &&
               !bed_kinds_alike(farm, bed, &farm->beds[first_bed[kind]])) {
            kind++;
        }
        if (kind == count) {
            first_bed[count++] = b;
            name_kind(arena, farm, bed, kind, names);
        }
        of_bed[b] = kind;
        bed_count[kind]++;
    }
    *out = (BedKinds){count, of_bed, first_bed, bed_count,
                      (const char *const *)names};
}
