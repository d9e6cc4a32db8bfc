/* Seedlings sown as the plan says, for those who follow the plan. */
#include "journal/trays.h"

#include <string.h>

#include "farm/cell.h"
#include "journal/entry.h"

/* Plants that the rows of the plan set from these trays want of them. */
static int32_t wanted_of(const Farm *farm, int32_t trays)
{
    int32_t wanted = 0;
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        if (farm->plan_plants[i].standing == trays) {
            wanted += farm->plan_plants[i].plants + 1;
        }
    }
    return wanted;
}

static const PlanPlant *opening_row(const Farm *opening, const char *id)
{
    int32_t row = cell_row_of(opening, TABLE_plan_plants, id);
    return row >= 0 ? &opening->plan_plants[row] : NULL;
}

static bool is_of_plan(const Farm *opening, const Farm *farm, int32_t trays,
                       Arena *arena)
{
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        const PlanPlant *planned =
            row->standing == trays ? opening_row(opening, row->id) : NULL;
        if (planned && strcmp(farm->plants[trays].id,
                              entries_sowing(opening, planned, arena)) == 0) {
            return true;
        }
    }
    return false;
}

static void leave_to_rows(Farm *farm, int32_t trays)
{
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        int32_t *standing = &farm->plan_plants[i].standing;
        if (*standing == trays) {
            *standing = -1;
        } else if (*standing > trays) {
            (*standing)--;
        }
    }
    memmove(&farm->plants[trays], &farm->plants[trays + 1],
            (size_t)(farm->plants_count - trays - 1) * sizeof *farm->plants);
    farm->plants_count--;
}

void trays_follow(const Farm *opening, Arena *arena, Farm *farm)
{
    farm->plants = arena_grow(arena, farm->plants, (size_t)farm->plants_count,
                              (size_t)farm->plants_count, sizeof *farm->plants);
    farm->plan_plants =
        arena_grow(arena, farm->plan_plants, (size_t)farm->plan_plants_count,
                   (size_t)farm->plan_plants_count, sizeof *farm->plan_plants);
    for (int32_t i = farm->plants_count - 1; i >= 0; i--) {
        const Plant *plant = &farm->plants[i];
        bool is_uncounted = plant->bed < 0 && plant->set_on == DATE_NEVER &&
                            plant->sown_on == plant->counted_on;
        if (is_uncounted && plant->plants == wanted_of(farm, i) &&
            is_of_plan(opening, farm, i, arena)) {
            leave_to_rows(farm, i);
        }
    }
}
