/* Sense of the fish: where they stand today, and where young ones come from. */
#include "farm/checker.h"
#include "nature/fish/species.h"

enum { G_PER_KG = 1000, FEEDS_LOOKED_AT = 1000 };

static void check_species(const Checker *c, TableId table, const void *row,
                          const char *name)
{
    const FishSpecies *species = NULL;
    Err err = fish_species_find(name, &species);
    if (*name && err.kind != ERR_OK) {
        check_tell(c, table, row, "species", "species: %s", err.text);
    }
}

static void check_fish_row(const Checker *c, const Fish *fish)
{
    check_species(c, TABLE_fish, fish, fish->species);
    if (check_is_before(check_first_day(c), fish->counted_on)) {
        check_tell(c, TABLE_fish, fish, "counted_on",
                   "counted_on: no later than the farm's records_from");
    }
    if (fish->tank >= 0 && c->farm->tanks[fish->tank].use == TANK_BREEDERS &&
        !fish->is_kept) {
        check_notice(c, TABLE_fish, fish, "is_kept",
                     "fish batch %s stands in the breeders' tank but is not "
                     "kept: the plan may sell it",
                     fish->id);
    }
    /* A list of feeds so long is no farm's; do not spend hours on it. */
    int32_t feeds = c->farm->feeds_count;
    bool is_fed = feeds == 0 || feeds > FEEDS_LOOKED_AT;
    for (int32_t i = 0; i < feeds && !is_fed; i++) {
        is_fed = fish->mean_g >= c->farm->feeds[i].from_g &&
                 fish->mean_g <= c->farm->feeds[i].to_g;
    }
    if (!is_fed) {
        check_notice(c, TABLE_fish, fish, "mean_g",
                     "no feed is for fish of %.4g g, as batch %s is",
                     fish->mean_g, fish->id);
    }
}

/* Kilos and batches of every tank on the first day. */
static void check_density(const Checker *c)
{
    int32_t count = c->farm->tanks_count;
    double *held_kg = ARENA_ARRAY(c->arena, double, count);
    int32_t *batches = ARENA_ARRAY(c->arena, int32_t, count);
    const Fish **last = ARENA_ARRAY(c->arena, const Fish *, count);
    for (int32_t i = 0; i < c->farm->fish_count; i++) {
        const Fish *fish = &c->farm->fish[i];
        if (fish->tank >= 0) {
            held_kg[fish->tank] += fish->count * fish->mean_g / G_PER_KG;
            batches[fish->tank]++;
            last[fish->tank] = fish;
        }
    }
    for (int32_t i = 0; i < count && c->farm->farm_count == 1; i++) {
        const Tank *tank = &c->farm->tanks[i];
        double most_kg_m3 = c->farm->farm[0].density_ceiling_kg_m3;
        if (held_kg[i] > most_kg_m3 * tank->volume_m3) {
            check_tell(c, TABLE_fish, last[i], "tank",
                       "at most %.4g kg/m3 in tank %s on the first day, not "
                       "%.4g",
                       most_kg_m3, tank->id, held_kg[i] / tank->volume_m3);
        }
        if (tank->batches != COUNT_WRONG && batches[i] > tank->batches) {
            check_tell(c, TABLE_fish, last[i], "tank",
                       "at most %d fish batches in tank %s, not %d",
                       (int)tank->batches, tank->id, (int)batches[i]);
        }
    }
}

static void check_source(const Checker *c, const FishSource *source)
{
    check_species(c, TABLE_fish_sources, source, source->species);
    if (source->most != COUNT_WRONG && source->least > source->most) {
        check_tell(c, TABLE_fish_sources, source, "most",
                   "most: at least the least order, %d", (int)source->least);
    }
    if (source->kind == FISH_BOUGHT && source->price_e4 == 0) {
        check_notice(c, TABLE_fish_sources, source, "price",
                     "fish bought from %s cost nothing", source->id);
    }
    if (source->kind != FISH_OWN) {
        return;
    }
    if (source->breeders == REF_BLANK) {
        check_tell(c, TABLE_fish_sources, source, "breeders",
                   "breeders: the tank that own young fish come from");
    } else if (source->breeders >= 0 &&
               c->farm->tanks[source->breeders].use != TANK_BREEDERS) {
        check_tell(c, TABLE_fish_sources, source, "breeders",
                   "breeders: a tank whose use is breeders");
    }
    if (source->fry_cycle == 0) {
        check_tell(c, TABLE_fish_sources, source, "fry_cycle",
                   "fry_cycle: the fry kept of each spawning");
    }
}

void check_fish(const Checker *c)
{
    for (int32_t i = 0; i < c->farm->fish_count; i++) {
        check_fish_row(c, &c->farm->fish[i]);
    }
    check_density(c);
    for (int32_t i = 0; i < c->farm->fish_sources_count; i++) {
        check_source(c, &c->farm->fish_sources[i]);
    }
}
