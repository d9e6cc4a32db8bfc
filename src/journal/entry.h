/* Entries: facts about the farm, in the order they were told.
 *
 * The standing tables are told first, as opening entries of the day they were
 * counted on. Where a later day is asked for and nothing more was told, the
 * accepted plan's steps up to that day are entries too, marked as such. */
#ifndef LEAT_JOURNAL_ENTRY_H
#define LEAT_JOURNAL_ENTRY_H

#include "base/arena.h"
#include "farm/records.h"

typedef enum EntryKind {
    ENTRY_PLANTS_STAND,   /* a batch counted where it stands, or set out */
    ENTRY_SEEDLINGS_SOWN, /* more seedlings of a sowing, in trays */
    ENTRY_SEEDLINGS_SET,  /* some or all seedlings of a batch set out */
    ENTRY_PLANTS_CLEARED,
    ENTRY_FISH_STAND, /* a batch counted in its tank, or stocked */
    ENTRY_FISH_MOVED, /* some of a batch to another tank */
    ENTRY_FISH_SOLD,  /* some of a batch left the farm */
    ENTRY_BED_CLEANED,
} EntryKind;

typedef struct Entry {
    int32_t day;
    int32_t number; /* in the order told */
    EntryKind kind;
    bool is_from_plan; /* not told: the plan taken as done */
    const char *batch; /* Borrowed: the plant or fish batch; "" for a bed */
    Plant plant;       /* ENTRY_PLANTS_STAND; ENTRY_SEEDLINGS_SOWN: what is
                          added to its batch; ENTRY_SEEDLINGS_SET: the batch that
                          they become, plants 0 for all of them */
    Fish fish;         /* ENTRY_FISH_STAND; else the part that moves: its tank
                          is the one left, count and mean_g those of the day
                          the batch was counted */
    int32_t to_tank;   /* ENTRY_FISH_MOVED */
    int32_t bed;       /* ENTRY_BED_CLEANED */
} Entry;

typedef struct Entries {
    Entry *items; /* Borrowed from the arena; by day, then as told */
    int32_t count;
} Entries;

/* Whether a row of the plan stands as seedlings in trays before that day: sown
 * for it and not yet set. */
bool entries_are_in_trays(const Farm *farm, const PlanPlant *row, int32_t day);

/* The plants of such a row, set on that day. */
Plant entries_planned_plant(const PlanPlant *row, int32_t day);

/* The name of the sowing that such a row is part of: all of a way in a week. */
const char *entries_sowing(const Farm *farm, const PlanPlant *row,
                           Arena *arena);

/* Opening entries, then the accepted plan's steps before day. */
Entries entries_as_planned(const Farm *farm, int32_t day, Arena *arena);

#endif
