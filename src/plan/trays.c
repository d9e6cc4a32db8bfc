/* What a plan makes of the seedlings that stand in trays. */
#include "plan/trays.h"

#include <math.h>
#include <string.h>

static PlanTrays line_of(const Problem *problem, const PlanSolution *solution,
                         int trays)
{
    const PlanSeedlings *seedlings = &problem->seedlings[trays];
    PlanTrays line = {.id = seedlings->id,
                      .way = seedlings->way,
                      .plants = (int)lround(seedlings->plants),
                      .first_week = PLAN_NONE};
    double set = 0.0;
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *placed = &solution->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        if (option->trays_of != trays + 1) {
            continue;
        }
        set += placed->units * option->plants;
        if (line.first_week == PLAN_NONE ||
            option->set_week < line.first_week) {
            line.first_week = option->set_week;
        }
    }
    line.set = (int)floor(fmin(set + 0.5, seedlings->plants));
    return line;
}

int plan_trays(const Problem *problem, const PlanIndex *index,
               const PlanSolution *solution, Arena *arena, PlanTrays **out)
{
    int most = problem->seedlings_count + index->unused_count;
    PlanTrays *lines = ARENA_ARRAY(arena, PlanTrays, most);
    int count = 0;
    for (int i = 0; i < problem->seedlings_count; i++) {
        lines[count++] = line_of(problem, solution, i);
    }
    for (int u = 0; u < index->unused_count; u++) {
        const PlanUnused *unused = &index->unused[u];
        PlanTrays *line = NULL;
        for (int i = 0; i < count && !line; i++) {
            line = strcmp(lines[i].id, unused->id) == 0 ? &lines[i] : NULL;
        }
        if (!line) {
            line = &lines[count++];
            *line = (PlanTrays){.id = unused->id,
                                .way = unused->way,
                                .plants = unused->plants,
                                .first_week = PLAN_NONE};
        }
        line->why = unused->why;
    }
    *out = lines;
    return count;
}
