/* How fish have grown since they were counted. */
#include "desk/fish_grow.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "desk/typical.h"
#include "sim/fish_case.h"
#include "sim/fish_year.h"

enum { WEEK_D = 7, KNOWN_MAX = 256, OLD_D = 330, NEAR_D = 28 };

/* Growth from one day on of fish of about one weight in one tank. */
typedef struct Known {
    const char *species;
    int32_t tank;
    int32_t from;
    int bucket; /* of weight */
    int weeks;
    const double *mean_g; /* by Monday from from's week */
} Known;

typedef struct Growing {
    const Farm *farm;
    Arena *arena;
    bool is_tried;
    const double *const *tank_degc; /* NULL: cannot be told */
    Known known[KNOWN_MAX];
    int count;
} Growing;

static void find_water(Growing *growing)
{
    growing->is_tried = true;
    Typical typical;
    Err err = typical_make(growing->farm, growing->arena, &typical);
    if (err.kind != ERR_OK) {
        return;
    }
    const Farm *farm = growing->farm;
    const double **tanks =
        ARENA_ARRAY(growing->arena, const double *, farm->tanks_count);
    for (int32_t i = 0; i < farm->tanks_count; i++) {
        tanks[i] = typical.climate->tanks[i].mean_degc;
    }
    growing->tank_degc = tanks;
}

/* Twentieths of a doubling: fish within 4 % of each other grow alike. */
static int bucket_of(double mean_g)
{
    return (int)lround(20.0 * log2(mean_g));
}

static const Known *run(Growing *growing, const Fish *row, int32_t until)
{
    if (!growing->is_tried) {
        find_water(growing);
    }
    if (!growing->tank_degc || growing->count == KNOWN_MAX) {
        return NULL;
    }
    Farm alone = *growing->farm;
    Fish fish = *row;
    fish.count = fish.count > 0 ? fish.count : 1;
    alone.fish = &fish;
    alone.fish_count = 1;
    int weeks = (int)((week_of(until) - week_of(row->counted_on)) / WEEK_D) + 1;
    FishSpan span = {week_of(row->counted_on), weeks,
                     growing->tank_degc[row->tank]};
    FishYearCase grown;
    FishYear year;
    Err err = fish_case_standing(growing->arena, &alone, 0, &span, &grown);
    if (err.kind == ERR_OK) {
        err = fish_year_run(growing->arena, &grown, &year);
    }
    if (err.kind != ERR_OK) {
        return NULL;
    }
    double *means = ARENA_ARRAY(growing->arena, double, weeks + 1);
    for (int w = 0; w <= weeks; w++) {
        means[w] = fish_year_mean_g(&year, w);
    }
    growing->known[growing->count] =
        (Known){row->species,           row->tank, row->counted_on,
                bucket_of(row->mean_g), weeks,     means};
    return &growing->known[growing->count++];
}

static const Known *find(Growing *growing, const Fish *row, int32_t until)
{
    for (int i = 0; i < growing->count; i++) {
        const Known *known = &growing->known[i];
        if (known->tank == row->tank && known->from == row->counted_on &&
            known->bucket == bucket_of(row->mean_g) &&
            strcmp(known->species, row->species) == 0 &&
            (until - week_of(known->from)) / WEEK_D < known->weeks) {
            return known;
        }
    }
    return run(growing, row, until);
}

static double factor(void *self, const Fish *row, int32_t day)
{
    Growing *growing = self;
    if (row->tank < 0 || row->mean_g <= 0.0 || day <= row->counted_on) {
        return 1.0;
    }
    const Known *known = find(growing, row, day);
    if (!known) {
        return 1.0;
    }
    double weeks = (double)(day - week_of(known->from)) / WEEK_D;
    int w = (int)weeks;
    double rest = weeks - w;
    double mean_g =
        known->mean_g[w] * (1.0 - rest) + known->mean_g[w + 1] * rest;
    return mean_g / known->mean_g[0];
}

FishGrow fish_grow_of(const Farm *farm, Arena *arena)
{
    Growing *growing = ARENA_NEW(arena, Growing);
    *growing = (Growing){.farm = farm, .arena = arena};
    return (FishGrow){factor, growing};
}

void fish_grow_old(const FishGrow *grow, int32_t day, Arena *arena, Farm *farm)
{
    Fish *rows = arena_grow(arena, farm->fish, (size_t)farm->fish_count,
                            (size_t)farm->fish_count, sizeof *rows);
    for (int32_t i = 0; i < farm->fish_count; i++) {
        if (day - rows[i].counted_on > OLD_D) {
            double by = grow->factor(grow->self, &rows[i], day - NEAR_D);
            rows[i].mean_g *= by;
            rows[i].counted_on = day - NEAR_D;
        }
    }
    farm->fish = rows;
}
