/* How the batches of two plans differ. */
#include "plan/record.h"

static bool has_alike(const Problem *problem, const PlanSolution *solution,
                      const PlanPlacement *placed)
{
    const PlanOption *option = &problem->options[placed->option];
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *other = &solution->placements[i];
        const PlanOption *column = &problem->options[other->option];
        if (other->bed == placed->bed && column->way == option->way &&
            column->set_week == option->set_week &&
            column->is_edge == option->is_edge) {
            return true;
        }
    }
    return false;
}

/* Batches of one plan that the other lacks; *first_week falls to the first. */
static int count_alone(const Problem *problem, const PlanSolution *solution,
                       const PlanSolution *other, int *first_week)
{
    int count = 0;
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *placed = &solution->placements[i];
        const PlanOption *option = &problem->options[placed->option];
        if (option->is_standing || has_alike(problem, other, placed)) {
            continue;
        }
        count++;
        if (*first_week == PLAN_NONE || option->set_week < *first_week) {
            *first_week = option->set_week;
        }
    }
    return count;
}

PlanChange plan_change(const Problem *problem, const PlanSolution *before,
                       const PlanSolution *after)
{
    PlanChange change = {.first_week = PLAN_NONE};
    change.added = count_alone(problem, after, before, &change.first_week);
    change.dropped = count_alone(problem, before, after, &change.first_week);
    for (int i = 0; i < after->placement_count; i++) {
        change.stayed +=
            !problem->options[after->placements[i].option].is_standing;
    }
    change.stayed -= change.added;
    return change;
}
