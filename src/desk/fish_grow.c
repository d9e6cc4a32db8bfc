/* How fish have grown since they were counted. */
#include "desk/fish_grow.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "desk/typical.h"
#include "sim/fish_case.h"
#include "nature/fish/law.h"

/* Nobody's fish are followed for more than two years without being weighed. */
enum { KNOWN_MAX = 256, DAYS_MAX = 730, OLD_D = 330, NEAR_D = 28 };

/* Growth from one day on of fish of about one weight in one tank. */
typedef struct Known {
    const char *species;
    int32_t tank;
    int32_t from;
    int bucket; /* of weight */
    int days;
    const double *over_first; /* weight over that of the first day, by day */
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

/* What a fish of the row's weight weighs day by day, at the farm's appetite. */
static const double *follow(Growing *growing, const Fish *row,
                            const FishSpecies *species, int days)
{
    Farm alone = *growing->farm;
    Fish fish = *row;
    alone.fish = &fish;
    alone.fish_count = 1;
    double ration = fish_case_ration_frac(&alone, 0) *
                    fish_case_appetite(&alone, row->species).value;
    const double *degc = growing->tank_degc[row->tank];
    double *over_first = ARENA_ARRAY(growing->arena, double, days + 1);
    double weight_g = row->mean_g;
    for (int d = 0; d <= days; d++) {
        over_first[d] = weight_g / row->mean_g;
        FishWater water =
            fish_good_water(degc[date_day_of_year(row->counted_on + d) - 1]);
        weight_g = fish_day(species, weight_g, &water, ration, 1.0).weight_g;
    }
    return over_first;
}

static const Known *run(Growing *growing, const Fish *row, int days)
{
    if (!growing->is_tried) {
        find_water(growing);
    }
    const FishSpecies *species = NULL;
    if (!growing->tank_degc || growing->count == KNOWN_MAX) {
        return NULL;
    }
    Err err = fish_case_species(growing->arena, growing->farm, row->species,
                                &species);
    if (err.kind != ERR_OK) {
        return NULL;
    }
    growing->known[growing->count] = (Known){
        row->species,           row->tank, row->counted_on,
        bucket_of(row->mean_g), days,      follow(growing, row, species, days)};
    return &growing->known[growing->count++];
}

static const Known *find(Growing *growing, const Fish *row, int days)
{
    for (int i = 0; i < growing->count; i++) {
        const Known *known = &growing->known[i];
        if (known->tank == row->tank && known->from == row->counted_on &&
            known->bucket == bucket_of(row->mean_g) &&
            strcmp(known->species, row->species) == 0 && known->days >= days) {
            return known;
        }
    }
    /* Somewhat further than asked, for the days to come. */
    return run(growing, row, days + NEAR_D);
}

static double factor(void *self, const Fish *row, int32_t day)
{
    Growing *growing = self;
    if (row->tank < 0 || row->mean_g <= 0.0 || day <= row->counted_on) {
        return 1.0;
    }
    int32_t apart = day - row->counted_on;
    int days = apart < DAYS_MAX ? (int)apart : DAYS_MAX;
    const Known *known = find(growing, row, days);
    return known ? known->over_first[days] : 1.0;
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
