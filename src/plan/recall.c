/* The accepted plan of a farm as choices in the problem. */
#include "plan/recall_fish.h"
#include "plan/record.h"

#include <limits.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"

/* Whether both come from the same seedlings, or both from seed. */
static bool is_same_origin(const PlanInputs *inputs, const PlanIndex *index,
                           const PlanOption *option, const PlanPlant *row)
{
    if (option->trays_of == 0) {
        return row->standing < 0;
    }
    int trays = index->trays_rows[option->trays_of - 1];
    const Plant *seedlings = &inputs->farm->plants[trays];
    /* Sown by the plan, and counted in their trays since. */
    bool is_that_sowing = row->standing < 0 && row->way == seedlings->way &&
                          week_of(row->sow_on) == week_of(seedlings->sown_on);
    return row->standing == trays || is_that_sowing;
}

/* Columns that are set in each week, chained: a plan has a thousand batches, a
 * problem tens of thousands of columns. */
typedef struct ByWeek {
    int *first; /* by week; PLAN_NONE: no more */
    int *next;  /* by column */
} ByWeek;

static ByWeek columns_by_week(const Problem *problem, Arena *arena)
{
    ByWeek by = {ARENA_ARRAY(arena, int, problem->week_count),
                 ARENA_ARRAY(arena, int, problem->option_count)};
    for (int t = 0; t < problem->week_count; t++) {
        by.first[t] = PLAN_NONE;
    }
    for (int i = problem->option_count - 1; i >= 0; i--) {
        int week = problem->options[i].set_week;
        if (week >= 0 && week < problem->week_count) {
            by.next[i] = by.first[week];
            by.first[week] = i;
        }
    }
    return by;
}

/* The column of a planned batch: same way, kind, place and week of setting;
 * of its picking shapes the one that clears nearest. */
static int find_option(const PlanInputs *inputs, const Problem *problem,
                       const PlanIndex *index, const ByWeek *by,
                       const PlanPlant *row)
{
    int found = PLAN_NONE;
    int best = INT32_MAX;
    int set_week = plan_week_at(index, row->set_on);
    int clear_week = plan_week_at(index, row->clear_on);
    int last_pick = plan_week_at(index, row->pick_until);
    bool is_within = set_week >= 0 && set_week < problem->week_count;
    for (int i = is_within ? by->first[set_week] : PLAN_NONE; i != PLAN_NONE;
         i = by->next[i]) {
        const PlanOption *option = &problem->options[i];
        bool is_alike =
            !option->is_standing && option->way == row->way &&
            is_same_origin(inputs, index, option, row) &&
            option->kind == problem->beds[row->bed].kind &&
            option->is_edge == (row->place == PLACE_EDGE) &&
            plan_is_shaded(inputs->farm, row->bed, option) == row->is_shaded;
        int apart = abs(option->clear_week - clear_week) +
                    abs(option->pick_until - last_pick);
        if (is_alike && apart < best) {
            best = apart;
            found = i;
        }
    }
    return found;
}

static bool recall_plant(const PlanInputs *inputs, const Problem *problem,
                         const PlanIndex *index, const ByWeek *by,
                         const PlanPlant *row, PlanPlacement *out)
{
    int option = find_option(inputs, problem, index, by, row);
    if (option == PLAN_NONE) {
        return false;
    }
    *out = (PlanPlacement){.option = option,
                           .bed = row->bed,
                           .first_section = row->first_section,
                           .units = row->place == PLACE_EDGE ? row->plants
                                                             : row->sections};
    return true;
}

void plan_recall(const PlanInputs *inputs, const Problem *problem,
                 const PlanIndex *index, Arena *arena, PlanSolution *out,
                 int *out_left_out)
{
    const Farm *farm = inputs->farm;
    PlanSolution solution = {0};
    int left_out = 0;
    solution.placements =
        ARENA_ARRAY(arena, PlanPlacement, farm->plan_plants_count);
    solution.placement_rows = ARENA_ARRAY(arena, int, farm->plan_plants_count);
    ByWeek by = columns_by_week(problem, arena);
    for (int i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        bool is_free =
            seedlings_feed(farm, row) && farm->plants[row->standing].bed < 0;
        bool is_set = row->set_on < index->from;
        if (is_set || (row->standing >= 0 && !is_free)) {
            continue; /* it is in the problem, whatever is planned */
        }
        if (recall_plant(inputs, problem, index, &by, row,
                         &solution.placements[solution.placement_count])) {
            solution.placement_rows[solution.placement_count++] = i;
        } else {
            left_out++;
        }
    }
    left_out += plan_recall_fish(farm, problem, index, arena, &solution);
    solution.cleanings =
        ARENA_ARRAY(arena, PlanCleaning, farm->plan_cleans_count);
    for (int i = 0; i < farm->plan_cleans_count; i++) {
        int week = plan_week_at(index, farm->plan_cleans[i].on);
        if (week >= 0 && week < problem->horizon) {
            solution.cleanings[solution.cleaning_count++] =
                (PlanCleaning){farm->plan_cleans[i].bed, week};
        }
    }
    *out = solution;
    *out_left_out = left_out;
}
