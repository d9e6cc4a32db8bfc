/* Entries from the standing tables and from the accepted plan. */
#include "journal/entry.h"

#include <stdlib.h>

#include "base/date.h"
#include "farm/seedlings.h"

typedef struct List {
    Entry *items;
    int32_t count;
} List;

static void add(List *list, const Entry *entry)
{
    list->items[list->count] = *entry;
    list->items[list->count].number = list->count;
    list->count++;
}

static int32_t room(const Farm *farm)
{
    return farm->plants_count + farm->fish_count + farm->beds_count +
           2 * farm->plan_plants_count + farm->plan_moves_count +
           farm->plan_cleans_count;
}

static void add_opening(const Farm *farm, List *list)
{
    for (int32_t i = 0; i < farm->plants_count; i++) {
        const Plant *plant = &farm->plants[i];
        add(list, &(Entry){.day = plant->counted_on,
                           .kind = ENTRY_PLANTS_STAND,
                           .batch = plant->id,
                           .plant = *plant});
    }
    for (int32_t i = 0; i < farm->fish_count; i++) {
        const Fish *fish = &farm->fish[i];
        add(list, &(Entry){.day = fish->counted_on,
                           .kind = ENTRY_FISH_STAND,
                           .batch = fish->id,
                           .fish = *fish});
    }
    for (int32_t i = 0; i < farm->beds_count; i++) {
        if (farm->beds[i].cleaned_on != DATE_ALWAYS) {
            add(list, &(Entry){.day = farm->beds[i].cleaned_on,
                               .kind = ENTRY_BED_CLEANED,
                               .batch = "",
                               .bed = i});
        }
    }
}

Plant entries_planned_plant(const PlanPlant *row, int32_t day)
{
    return (Plant){.id = row->id,
                   .way = row->way,
                   .bed = row->bed,
                   .place = row->place,
                   .sections = row->sections,
                   .plants = row->plants,
                   .sown_on = DATE_ALWAYS,
                   .set_on = day,
                   .counted_on = day};
}

/* A batch that the plan sets, from seed or from trays that stand. */
static void add_set(const Farm *farm, const PlanPlant *row, List *list)
{
    bool is_fed = seedlings_feed(farm, row);
    Entry entry = {.day = row->set_on,
                   .kind = is_fed ? ENTRY_SEEDLINGS_SET : ENTRY_PLANTS_STAND,
                   .is_from_plan = true,
                   .batch = is_fed ? farm->plants[row->standing].id : row->id,
                   .plant = entries_planned_plant(row, row->set_on)};
    add(list, &entry);
}

bool entries_are_in_trays(const Farm *farm, const PlanPlant *row, int32_t day)
{
    return row->standing < 0 && farm->ways[row->way].tray >= 0 &&
           row->sow_on < day && row->set_on >= day;
}

const char *entries_sowing(const Farm *farm, const PlanPlant *row, Arena *arena)
{
    IsoWeek week = week_to_iso(row->sow_on);
    return arena_text(arena, "%s-sown-%02dW%02d", farm->ways[row->way].id,
                      week.year % 100, week.week);
}

/* What was sown for the plan and is not set yet: seedlings for any bed. The
 * row tells whole plants of what its sections take; sown was for a few more. */
static void add_sown(const Farm *farm, const PlanPlant *row, Arena *arena,
                     List *list)
{
    const char *id = entries_sowing(farm, row, arena);
    add(list, &(Entry){.day = row->sow_on,
                       .kind = ENTRY_SEEDLINGS_SOWN,
                       .is_from_plan = true,
                       .batch = id,
                       .plant = {.id = id,
                                 .way = row->way,
                                 .bed = -1,
                                 .plants = row->plants + 1,
                                 .sown_on = row->sow_on,
                                 .set_on = DATE_NEVER,
                                 .counted_on = row->sow_on}});
}

static void add_plan_plants(const Farm *farm, int32_t day, Arena *arena,
                            List *list)
{
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        if (entries_are_in_trays(farm, row, day)) {
            add_sown(farm, row, arena, list);
        }
        bool is_standing = row->standing >= 0 && !seedlings_feed(farm, row);
        if (!is_standing && row->set_on < day) {
            add_set(farm, row, list);
        }
        if (row->clear_on <= day) {
            add(list,
                &(Entry){.day = row->clear_on,
                         .kind = ENTRY_PLANTS_CLEARED,
                         .is_from_plan = true,
                         .batch = is_standing ? farm->plants[row->standing].id
                                              : row->id});
        }
    }
}

static EntryKind move_kind(const PlanMove *row)
{
    switch (row->kind) {
    case MOVE_STOCK:
        return ENTRY_FISH_STAND;
    case MOVE_GRADE:
        return ENTRY_FISH_MOVED;
    default:
        return ENTRY_FISH_SOLD;
    }
}

static void add_plan_fish(const Farm *farm, int32_t day, List *list)
{
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *row = &farm->plan_moves[i];
        const PlanFish *lane = &farm->plan_fish[row->fish];
        if (row->on >= day) {
            continue;
        }
        Entry entry = {.day = row->on,
                       .kind = move_kind(row),
                       .is_from_plan = true,
                       .batch = lane->batch,
                       .fish = {.id = lane->batch,
                                .tank = row->from_tank,
                                .counted_on = row->on,
                                .count = row->started,
                                .mean_g = lane->mean_g},
                       .to_tank = row->to_tank};
        if (entry.kind == ENTRY_FISH_STAND && lane->source >= 0) {
            const FishSource *source = &farm->fish_sources[lane->source];
            entry.fish.species = source->species;
            entry.fish.sex = source->sex;
            entry.fish.tank = row->to_tank;
        }
        add(list, &entry);
    }
}

static int by_day(const void *left, const void *right)
{
    const Entry *a = left;
    const Entry *b = right;
    if (a->day != b->day) {
        return a->day < b->day ? -1 : 1;
    }
    return (a->number > b->number) - (a->number < b->number);
}

static Entries sorted(const List *list)
{
    if (list->count > 1) {
        qsort(list->items, (size_t)list->count, sizeof *list->items, by_day);
    }
    return (Entries){list->items, list->count};
}

Entries entries_as_planned(const Farm *farm, int32_t day, Arena *arena)
{
    List list = {ARENA_ARRAY(arena, Entry, room(farm)), 0};
    add_opening(farm, &list);
    add_plan_plants(farm, day, arena, &list);
    add_plan_fish(farm, day, &list);
    for (int32_t i = 0; i < farm->plan_cleans_count; i++) {
        if (farm->plan_cleans[i].on < day) {
            add(&list, &(Entry){.day = farm->plan_cleans[i].on,
                                .kind = ENTRY_BED_CLEANED,
                                .is_from_plan = true,
                                .batch = "",
                                .bed = farm->plan_cleans[i].bed});
        }
    }
    return sorted(&list);
}
