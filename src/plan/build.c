/* From a farm to the planning problem. */
#include "plan/build_parts.h"

#include "base/date.h"

int32_t build_monday(const Build *build, int week)
{
    return build->from + 7 * week;
}

int build_month(const Build *build, int week)
{
    return date_month(build_monday(build, week) + 3);
}

double *build_weeks(const Build *build)
{
    return ARENA_ARRAY(build->arena, double, build->week_count);
}

Err plan_build(const PlanInputs *inputs, Arena *arena, Problem *out_problem,
               PlanIndex *out_index)
{
    if (inputs->weeks < 4 || inputs->weeks > 104) {
        return err_make(ERR_RANGE, "a plan spans 4 to 104 weeks, not %d",
                        inputs->weeks);
    }
    Problem problem = {.horizon = inputs->weeks,
                       .from = inputs->from,
                       .week_count = inputs->weeks + PLAN_TAIL_WEEKS};
    PlanIndex index = {.from = inputs->from};
    CLEANUP(arena_release) Arena scratch = {0};
    Build build = {.farm = inputs->farm,
                   .book = inputs->book,
                   .climate = inputs->climate,
                   .from = inputs->from,
                   .horizon = problem.horizon,
                   .week_count = problem.week_count,
                   .keep_weeks = inputs->keep_weeks,
                   .is_fish_frozen = inputs->is_fish_frozen,
                   .arena = arena,
                   .scratch = &scratch,
                   .problem = &problem,
                   .index = &index};
    build_beds(&build);
    TRY(build_sales(&build));
    build_hours(&build);
    TRY(build_plants(&build));
    build_cleanings(&build);
    TRY(build_fish(&build));
    *out_problem = problem;
    *out_index = index;
    return ERR_NONE;
}
