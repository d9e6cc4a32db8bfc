/* The linear model, exact form: for given routes, and fixed to a plan. */
#include "plan/linear_parts.h"

void linear_exact_model(LinearPlan *plan, Arena *arena, const Problem *problem,
                        const PlanRun *runs, int count)
{
    linear_plan_init(plan, arena, problem, true);
    linear_add_hours(plan);
    linear_add_sales(plan);
    linear_add_pools(plan);
    linear_add_plants(plan);
    linear_add_fish(plan);
    linear_add_events(plan, runs, count);
    for (int i = 0; i < count; i++) {
        linear_add_run(plan, &runs[i]);
    }
}

/* What the choices of a plan come to, by column. */
typedef struct Chosen {
    int *units;   /* [option] */
    int *cleans;  /* [kind][week] */
    int *stocked; /* [stock] */
    int *lanes;   /* [stock][lane] */
} Chosen;

static void count_choices(const Problem *problem, const PlanSolution *solution,
                          Arena *arena, Chosen *out)
{
    *out = (Chosen){
        ARENA_ARRAY(arena, int, problem->option_count),
        ARENA_ARRAY(arena, int, problem->kind_count * problem->week_count),
        ARENA_ARRAY(arena, int, problem->stock_count),
        ARENA_ARRAY(arena, int, problem->stock_count *PLAN_LANES)};
    for (int i = 0; i < solution->placement_count; i++) {
        out->units[solution->placements[i].option] +=
            solution->placements[i].units;
    }
    for (int i = 0; i < solution->cleaning_count; i++) {
        const PlanCleaning *clean = &solution->cleanings[i];
        int kind = problem->beds[clean->bed].kind;
        out->cleans[kind * problem->week_count + clean->week]++;
    }
    for (int i = 0; i < solution->run_count; i++) {
        const PlanRun *run = &solution->runs[i];
        out->stocked[run->stock] += run->count;
        out->lanes[run->stock * PLAN_LANES + run->lane] += run->count;
    }
}

/* The value that the plan gives to a choice; false: the column is no choice. */
static bool chosen_value(const Chosen *chosen, const PlanSolution *solution,
                         int weeks, LinearTag tag, double *out)
{
    switch ((int)tag.part) {
    case LINEAR_UNITS:
        *out = chosen->units[tag.a];
        return true;
    case LINEAR_CLEAN:
        *out = chosen->cleans[tag.a * weeks + tag.week];
        return true;
    case LINEAR_STOCKED:
        *out = chosen->stocked[tag.a];
        return true;
    case LINEAR_IS_STOCKED:
        *out = chosen->stocked[tag.a] > 0;
        return true;
    case LINEAR_LANE:
        *out = chosen->lanes[tag.a * PLAN_LANES + tag.b];
        return true;
    case LINEAR_RUN:
        *out = solution->runs[tag.a].count;
        return true;
    case LINEAR_HEADS:
    case LINEAR_GRADING:
    case LINEAR_CATCH:
        /* Only runs of the plan have brought these in. */
        *out = 1.0;
        return true;
    default:
        return false;
    }
}

void linear_exact_proof(LinearPlan *plan, Arena *arena, const Problem *problem,
                        const PlanSolution *solution)
{
    Chosen chosen;
    PlanSolution used = *solution;
    used.runs = ARENA_ARRAY(arena, PlanRun, solution->run_count);
    used.run_count = 0;
    for (int i = 0; i < solution->run_count; i++) {
        if (solution->runs[i].count > 0) {
            used.runs[used.run_count++] = solution->runs[i];
        }
    }
    linear_exact_model(plan, arena, problem, used.runs, used.run_count);
    count_choices(problem, &used, arena, &chosen);
    for (int j = 0; j < plan->model.column_count; j++) {
        LinearColumn *column = &plan->model.columns[j];
        double value = 0.0;
        if (chosen_value(&chosen, &used, plan->weeks, column->tag, &value)) {
            column->lower = value;
            column->upper = value;
        }
    }
}
