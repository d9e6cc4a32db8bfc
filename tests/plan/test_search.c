/* Plans of invented farms pass the separate checker; the same seed gives the
 * same bytes; more of a farm never makes its plan worse. */
#include "plan/search.h"

#include "check.h"
#include "plan/evaluate.h"
#include "plan/generate.h"
#include "plan/verify.h"

#ifdef LONG_TEST
enum { FARMS = 1000 };
#else
enum { FARMS = 24 };
#endif

enum { MOVES = 15000 };

static GenerateCase small_farm(uint64_t seed)
{
    GenerateCase farm = generate_case(6 + (int)(seed % 7), seed);
    farm.kinds = 2 + (int)(seed % 4);
    farm.ways = 6 + (int)(seed % 15);
    farm.horizon = 20 + (int)(seed % 33);
    farm.tanks = seed % 5 == 0 ? 0 : 2 + (int)(seed % 3);
    farm.crowding = 0.6 + 0.2 * (double)(seed % 4);
    farm.seedlings = (int)(seed % 3);
    return farm;
}

/* A searched plan with its outcome; the faults that were left. */
static double plan_farm(const Problem *problem, const SearchSetup *setup,
                        Arena *arena, PlanSolution *out)
{
    Search *search = search_open(arena, problem, setup);
    while (search_step(search)) {
    }
    double faults = 0.0;
    double value = search_take(search, arena, out, &faults);
    assert_ok(plan_evaluate(problem, out, arena, &out->outcome));
    assert_true(out->outcome.value >= value - 1e-6 * (1.0 + fabs(value)));
    return faults;
}

static void plans_pass_the_separate_checker(void **state)
{
    (void)state;
    int clean = 0;
    for (uint64_t seed = 1; seed <= FARMS; seed++) {
        Arena arena = {0};
        GenerateCase farm = small_farm(seed);
        Problem problem;
        generate_problem(&arena, &farm, &problem);
        SearchSetup setup = {.seed = seed, .moves = MOVES};
        PlanSolution plan;
        double faults = plan_farm(&problem, &setup, &arena, &plan);
        VerifyReport report;
        plan_verify(&problem, &plan, &arena, &report);
        for (int i = 0; faults <= 0.0 && i < report.count && i < 5; i++) {
            print_error("farm %d: %s\n", (int)seed, report.texts[i]);
        }
        if ((report.count > 0) != (faults > 0.0)) {
            print_error("farm %d: faults %g, %d %s\n", (int)seed, faults,
                        report.count, report.texts[0]);
        }
        /* The search knows whether it kept every limit. */
        assert_int_equal(report.count > 0, faults > 0.0);
        assert_near(report.value, plan.outcome.value,
                    1e-6 * (1.0 + fabs(report.value)));
        clean += report.count == 0;
        arena_release(&arena);
    }
    /* A farm may be handed over with more fish than its tanks bear. */
    assert_true(clean >= FARMS * 9 / 10);
}

static void the_same_seed_gives_the_same_bytes(void **state)
{
    (void)state;
    PlanSolution plans[3];
    Arena arena = {0};
    GenerateCase farm = small_farm(3);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    for (int i = 0; i < 3; i++) {
        SearchSetup setup = {.seed = 77, .start = i / 2, .moves = MOVES};
        plan_farm(&problem, &setup, &arena, &plans[i]);
    }
    size_t count = (size_t)plans[0].placement_count;
    assert_int_equal(plans[0].placement_count, plans[1].placement_count);
    assert_memory_equal(plans[0].placements, plans[1].placements,
                        count * sizeof *plans[0].placements);
    assert_int_equal(plans[0].run_count, plans[1].run_count);
    assert_memory_equal(plans[0].runs, plans[1].runs,
                        (size_t)plans[0].run_count * sizeof *plans[0].runs);
    /* Another start is another plan. */
    bool is_same = plans[0].placement_count == plans[2].placement_count &&
                   memcmp(plans[0].placements, plans[2].placements,
                          count * sizeof *plans[0].placements) == 0;
    assert_false(is_same);
    arena_release(&arena);
}

/* Plans the changed farm from the plan of the other; its value. */
static double plan_from(const Problem *changed, const PlanSolution *other,
                        Arena *arena)
{
    SearchSetup setup = {.seed = 5, .moves = MOVES / 3, .from = other};
    PlanSolution plan;
    assert_true(plan_farm(changed, &setup, arena, &plan) <= 0.0);
    return plan.outcome.value;
}

static void more_hours_or_outlet_room_never_lower_the_value(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 3; seed++) {
        Arena arena = {0};
        GenerateCase farm = small_farm(seed);
        Problem problem;
        generate_problem(&arena, &farm, &problem);
        SearchSetup setup = {.seed = seed, .moves = MOVES};
        PlanSolution plan;
        assert_true(plan_farm(&problem, &setup, &arena, &plan) <= 0.0);
        double least = plan.outcome.value - 1e-6 * fabs(plan.outcome.value);
        Problem changed = problem;
        double *paid = ARENA_ARRAY(&arena, double, problem.week_count);
        for (int t = 0; t < problem.week_count; t++) {
            paid[t] = problem.hours_paid[t] + 3.7;
        }
        changed.hours_paid = paid;
        assert_true(plan_from(&changed, &plan, &arena) >= least);
        changed = problem;
        PlanOutlet *outlets =
            ARENA_ARRAY(&arena, PlanOutlet, problem.outlet_count);
        for (int j = 0; j < problem.outlet_count; j++) {
            double *room = ARENA_ARRAY(&arena, double, problem.week_count);
            for (int t = 0; t < problem.week_count; t++) {
                room[t] = 1.6 * problem.outlets[j].room[t];
            }
            outlets[j] = problem.outlets[j];
            outlets[j].room = room;
        }
        changed.outlets = outlets;
        assert_true(plan_from(&changed, &plan, &arena) >= least);
        arena_release(&arena);
    }
}

static void one_more_bed_never_lowers_the_value(void **state)
{
    (void)state;
    Arena arena = {0};
    GenerateCase farm = small_farm(2);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    SearchSetup setup = {.seed = 2, .moves = MOVES};
    PlanSolution plan;
    assert_true(plan_farm(&problem, &setup, &arena, &plan) <= 0.0);
    Problem changed = problem;
    PlanBed *beds = ARENA_ARRAY(&arena, PlanBed, problem.bed_count + 1);
    memcpy(beds, problem.beds, (size_t)problem.bed_count * sizeof *beds);
    beds[problem.bed_count] = beds[0];
    beds[problem.bed_count].id = "one more";
    beds[problem.bed_count].clean_by = PLAN_NONE;
    changed.beds = beds;
    changed.bed_count = problem.bed_count + 1;
    assert_true(plan_from(&changed, &plan, &arena) >=
                plan.outcome.value - 1e-6 * fabs(plan.outcome.value));
    arena_release(&arena);
}

/* Choices before the week kept are the same in the other plan. */
static void kept_weeks_stay_as_they_were(void **state)
{
    (void)state;
    enum { KEPT = 6 };
    Arena arena = {0};
    GenerateCase farm = small_farm(4);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    SearchSetup setup = {.seed = 4, .moves = MOVES};
    PlanSolution plan, other;
    plan_farm(&problem, &setup, &arena, &plan);
    setup = (SearchSetup){
        .seed = 9, .moves = MOVES, .from = &plan, .keep_weeks = KEPT};
    plan_farm(&problem, &setup, &arena, &other);
    const PlanSolution *both[] = {&plan, &other};
    int units[2] = {0, 0};
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < both[i]->placement_count; j++) {
            const PlanPlacement *p = &both[i]->placements[j];
            bool is_kept = problem.options[p->option].sow_week < KEPT;
            units[i] += is_kept ? p->units * (p->option % 97 + p->bed) : 0;
        }
    }
    assert_true(units[0] > 0);
    assert_int_equal(units[0], units[1]);
    arena_release(&arena);
}

/* From an empty plan so few moves fill a tenth of the beds. */
static void a_short_search_on_a_large_farm_comes_near_a_long_one(void **state)
{
    (void)state;
    double value[2];
    for (int i = 0; i < 2; i++) {
        Arena arena = {0};
        GenerateCase farm = generate_case(48, 7);
        Problem problem;
        farm.tanks = 0;
        generate_problem(&arena, &farm, &problem);
        SearchSetup setup = {.seed = 3, .moves = i == 0 ? 6000 : 300000};
        PlanSolution plan;
        assert_near(plan_farm(&problem, &setup, &arena, &plan), 0.0, 1e-9);
        value[i] = plan.outcome.sales - plan.outcome.plant_cost;
        arena_release(&arena);
    }
    assert_true(value[0] > 0.9 * value[1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plans_pass_the_separate_checker),
        cmocka_unit_test(the_same_seed_gives_the_same_bytes),
        cmocka_unit_test(more_hours_or_outlet_room_never_lower_the_value),
        cmocka_unit_test(one_more_bed_never_lowers_the_value),
        cmocka_unit_test(a_short_search_on_a_large_farm_comes_near_a_long_one),
        cmocka_unit_test(kept_weeks_stay_as_they_were),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
