/* The best plan by trying all. */
#include "brute_force.h"

#include "check.h"

#include "plan/evaluate.h"
#include "plan/verify.h"

GenerateCase brute_force_case(uint64_t seed)
{
    GenerateCase farm = generate_tiny_case(seed);
    farm.ways = 1;
    farm.sections = 2;
    farm.tanks = 0;
    farm.horizon = 7;
    farm.tail = 6;
    return farm;
}

typedef struct Trial {
    const Problem *problem;
    Arena *arena;
    PlanSolution now;
    PlanSolution *best;
    bool has_best;
    int tried;
} Trial;

static void judge(Trial *trial)
{
    CLEANUP(arena_release) Arena scratch = {0};
    VerifyReport report;
    plan_verify_choices(trial->problem, &trial->now, &scratch, &report);
    trial->tried++;
    if (report.count > 0) {
        return;
    }
    PlanOutcome outcome;
    assert_ok(plan_evaluate(trial->problem, &trial->now, &scratch, &outcome));
    if (trial->has_best && outcome.value <= trial->best->outcome.value) {
        return;
    }
    trial->has_best = true;
    PlanSolution *best = trial->best;
    *best = trial->now;
    best->placements = arena_grow(
        trial->arena, trial->now.placements, (size_t)trial->now.placement_count,
        (size_t)trial->now.placement_count + 1, sizeof *best->placements);
    best->cleanings = arena_grow(
        trial->arena, trial->now.cleanings, (size_t)trial->now.cleaning_count,
        (size_t)trial->now.cleaning_count + 1, sizeof *best->cleanings);
    assert_ok(
        plan_evaluate(trial->problem, best, trial->arena, &best->outcome));
}

static bool is_hopeless(const Trial *trial, int before)
{
    CLEANUP(arena_release) Arena scratch = {0};
    VerifyReport report;
    plan_verify_choices(trial->problem, &trial->now, &scratch, &report);
    return report.count > before;
}

/* Every option on, from section first with so many units, or not at all. */
static void try_option(Trial *trial, int option)
{
    const Problem *problem = trial->problem;
    while (option < problem->option_count &&
           problem->options[option].is_standing) {
        option++;
    }
    if (option >= problem->option_count) {
        judge(trial);
        return;
    }
    try_option(trial, option + 1);
    int bed = problem->options[option].kind;
    for (int i = 0; i < 3; i++) {
        trial->now.placements[trial->now.placement_count++] =
            (PlanPlacement){.option = option,
                            .bed = bed,
                            .first_section = i % 2,
                            .units = 1 + i / 2};
        if (!is_hopeless(trial, 0)) {
            try_option(trial, option + 1);
        }
        trial->now.placement_count--;
    }
}

static void try_cleanings(Trial *trial, int bed)
{
    if (bed == trial->problem->bed_count) {
        if (!is_hopeless(trial, 0)) {
            try_option(trial, 0);
        }
        return;
    }
    int clean_by = trial->problem->beds[bed].clean_by;
    if (clean_by == PLAN_NONE) {
        try_cleanings(trial, bed + 1);
        return;
    }
    for (int t = 0; t <= clean_by; t++) {
        trial->now.cleanings[trial->now.cleaning_count++] =
            (PlanCleaning){bed, t};
        try_cleanings(trial, bed + 1);
        trial->now.cleaning_count--;
    }
}

int brute_force(const Problem *problem, Arena *arena, PlanSolution *out)
{
    CLEANUP(arena_release) Arena scratch = {0};
    Trial trial = {.problem = problem, .arena = arena, .best = out};
    trial.now = (PlanSolution){
        .placements =
            ARENA_ARRAY(&scratch, PlanPlacement, problem->option_count),
        .cleanings = ARENA_ARRAY(&scratch, PlanCleaning, problem->bed_count)};
    try_cleanings(&trial, 0);
    assert_true(trial.has_best);
    return trial.tried;
}
