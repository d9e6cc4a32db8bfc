/* From entries to the farm as it stands on a day. */
#include "journal/fold.h"

#include <string.h>

#include "farm/cell.h"
#include "farm/seedlings.h"
#include "journal/fish_rows.h"

typedef struct Fold {
    Farm *farm; /* its plants, fish and beds are our own copies */
    Arena *arena;
} Fold;

static int32_t find_fish(const Farm *farm, const char *batch, int32_t tank)
{
    for (int32_t i = 0; i < farm->fish_count; i++) {
        if (farm->fish[i].tank == tank &&
            strcmp(farm->fish[i].id, batch) == 0) {
            return i;
        }
    }
    return -1;
}

static void add_fish(const Fold *fold, const Fish *part, int32_t tank)
{
    Farm *farm = fold->farm;
    int32_t at = find_fish(farm, part->id, tank);
    if (at >= 0) {
        fish_row_change(&farm->fish[at], part, 1.0);
        return;
    }
    farm->fish[farm->fish_count] = *part;
    farm->fish[farm->fish_count].tank = tank;
    farm->fish_count++;
}

static Err take_fish(const Fold *fold, const Entry *entry, Fish *out_part)
{
    Farm *farm = fold->farm;
    int32_t at = find_fish(farm, entry->batch, entry->fish.tank);
    if (at < 0 || farm->fish[at].count < entry->fish.count) {
        return err_make(ERR_INPUT,
                        "fish batch %s: %d fish leave tank %s, which does not "
                        "hold so many of it",
                        entry->batch, (int)entry->fish.count,
                        entry->fish.tank >= 0 ? farm->tanks[entry->fish.tank].id
                                              : "-");
    }
    Fish part = farm->fish[at];
    part.count = entry->fish.count;
    part.mean_g = entry->fish.mean_g;
    part.cv_frac = 0.0;
    fish_row_change(&farm->fish[at], &part, -1.0);
    if (farm->fish[at].count == 0) {
        farm->fish[at] = farm->fish[--farm->fish_count];
    }
    *out_part = part;
    return ERR_NONE;
}

static void clear_plant(Farm *farm, const char *batch)
{
    int32_t at = cell_row_of(farm, TABLE_plants, batch);
    if (at >= 0) {
        memmove(&farm->plants[at], &farm->plants[at + 1],
                (size_t)(farm->plants_count - at - 1) * sizeof *farm->plants);
        farm->plants_count--;
    }
}

static void sow(const Fold *fold, const Entry *entry)
{
    Farm *farm = fold->farm;
    int32_t at = cell_row_of(farm, TABLE_plants, entry->batch);
    if (at >= 0) {
        farm->plants[at].plants += entry->plant.plants;
    } else {
        farm->plants[farm->plants_count++] = entry->plant;
    }
}

/* Takes seedlings out of their trays and puts them where they are set. Trays
 * whose number nobody counted are emptied by their first setting; batches are
 * told in whole plants, so that the last of them may find one too few. */
static void set_seedlings(const Fold *fold, const Entry *entry)
{
    Farm *farm = fold->farm;
    int32_t at = cell_row_of(farm, TABLE_plants, entry->batch);
    Plant *trays = at >= 0 ? &farm->plants[at] : NULL;
    int32_t left = trays ? trays->plants - entry->plant.plants : 0;
    if (left > 0 && trays->bed < 0) {
        trays->trays *= (double)left / trays->plants;
        trays->plants = left;
    } else {
        clear_plant(farm, entry->batch);
    }
    farm->plants[farm->plants_count++] = entry->plant;
}

static Err apply(const Fold *fold, const Entry *entry)
{
    Fish part = {.id = ""};
    switch (entry->kind) {
    case ENTRY_PLANTS_STAND:
        fold->farm->plants[fold->farm->plants_count++] = entry->plant;
        return ERR_NONE;
    case ENTRY_SEEDLINGS_SOWN:
        sow(fold, entry);
        return ERR_NONE;
    case ENTRY_SEEDLINGS_SET:
        set_seedlings(fold, entry);
        return ERR_NONE;
    case ENTRY_PLANTS_CLEARED:
        clear_plant(fold->farm, entry->batch);
        return ERR_NONE;
    case ENTRY_FISH_STAND:
        add_fish(fold, &entry->fish, entry->fish.tank);
        return ERR_NONE;
    case ENTRY_FISH_MOVED:
        TRY(take_fish(fold, entry, &part));
        add_fish(fold, &part, entry->to_tank);
        return ERR_NONE;
    case ENTRY_FISH_SOLD:
        return take_fish(fold, entry, &part);
    case ENTRY_BED_CLEANED:
        fold->farm->beds[entry->bed].cleaned_on = entry->day;
        return ERR_NONE;
    }
    return ERR_NONE;
}

Err journal_fold(const Farm *farm, const Entries *entries, int32_t day,
                 Arena *arena, Farm *out)
{
    Farm copy = *farm;
    copy.plants = ARENA_ARRAY(arena, Plant, entries->count);
    copy.plants_count = 0;
    copy.fish = ARENA_ARRAY(arena, Fish, entries->count);
    copy.fish_count = 0;
    copy.beds = arena_grow(arena, farm->beds, (size_t)farm->beds_count,
                           (size_t)farm->beds_count, sizeof *farm->beds);
    Fold fold = {&copy, arena};
    for (int32_t i = 0; i < entries->count; i++) {
        if (entries->items[i].day <= day) {
            TRY(apply(&fold, &entries->items[i]));
        }
    }
    fish_rows_tell_apart(&copy, arena);
    *out = copy;
    return ERR_NONE;
}

/* The accepted plan's batches as they are now: those cleared are gone, those
 * set stand. */
static void follow_plan(const Farm *told, int32_t day, Arena *arena, Farm *farm)
{
    PlanPlant *rows = ARENA_ARRAY(arena, PlanPlant, told->plan_plants_count);
    int32_t count = 0;
    for (int32_t i = 0; i < told->plan_plants_count; i++) {
        PlanPlant row = told->plan_plants[i];
        if (row.clear_on <= day) {
            continue;
        }
        bool is_set = row.set_on < day || row.standing < 0;
        bool is_fed = seedlings_feed(told, &row);
        const char *batch = row.standing >= 0 && !(is_fed && is_set)
                                ? told->plants[row.standing].id
                                : row.id;
        bool is_sown = entries_are_in_trays(told, &row, day);
        row.standing =
            cell_row_of(farm, TABLE_plants,
                        is_sown ? entries_sowing(told, &row, arena) : batch);
        rows[count++] = row;
    }
    farm->plan_plants = rows;
    farm->plan_plants_count = count;
}

static int32_t last_count(const Farm *farm)
{
    int32_t last = farm->farm[0].records_from;
    for (int32_t i = 0; i < farm->plants_count; i++) {
        last = farm->plants[i].counted_on > last ? farm->plants[i].counted_on
                                                 : last;
    }
    return last;
}

Err journal_farm_on(const Farm *farm, int32_t day, Arena *arena, Farm *out,
                    bool *out_is_assumed)
{
    bool is_assumed = farm->plan_count > 0 && day > last_count(farm);
    if (!is_assumed) {
        *out = *farm;
        *out_is_assumed = false;
        return ERR_NONE;
    }
    Entries entries = entries_as_planned(farm, day, arena);
    TRY(journal_fold(farm, &entries, day, arena, out));
    follow_plan(farm, day, arena, out);
    *out_is_assumed = true;
    return ERR_NONE;
}
