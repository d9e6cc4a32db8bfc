/* The ceiling: no plan beats it, and it moves as a grower would expect. */
#include "check.h"

#include <math.h>

#include "plan/generate.h"
#include "plan/linear.h"
#include "plan/linear_parts.h"
#include "plan/linear_routes.h"
#include "plan/linear_solver.h"
#include "plan/verify.h"
#include "random_plan.h"

static double ceiling_of(Arena *arena, const GenerateCase *farm)
{
    Problem problem;
    LinearCeiling ceiling;
    generate_problem(arena, farm, &problem);
    assert_ok(linear_ceiling(&problem, NULL, NULL, arena, &ceiling));
    return ceiling.value;
}

static void more_beds_never_lower_the_ceiling(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    for (uint64_t seed = 1; seed < 4; seed++) {
        GenerateCase farm = generate_tiny_case(seed);
        Problem problem;
        LinearCeiling few;
        LinearCeiling many;
        generate_problem(&arena, &farm, &problem);
        assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &few));
        PlanKind *kinds = ARENA_ARRAY(&arena, PlanKind, problem.kind_count);
        for (int c = 0; c < problem.kind_count; c++) {
            double *more = ARENA_ARRAY(&arena, double, problem.week_count);
            for (int t = 0; t < problem.week_count; t++) {
                more[t] = problem.kinds[c].sections[t] + 1.0;
            }
            kinds[c] = problem.kinds[c];
            kinds[c].sections = more;
        }
        problem.kinds = kinds;
        assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &many));
        assert_true(many.value >= few.value - 1e-6);
        /* The first step of "one more would earn" is never beaten. */
        double told = 0.0;
        for (int i = 0; i < problem.kind_count * problem.week_count; i++) {
            told += few.prices.section[i];
        }
        assert_true(told > 0.0);
        assert_true(many.value - few.value <= told + 1e-6);
    }
}

/* The year is short somewhere, and slack somewhere else. */
static void scarce_weeks_have_a_price_and_others_none(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_case(12, 3);
    farm.ways = 6;
    farm.horizon = 26;
    farm.tail = 10;
    Problem problem;
    LinearCeiling ceiling;
    generate_problem(&arena, &farm, &problem);
    assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &ceiling));
    int scarce = 0;
    int count = problem.kind_count * problem.week_count;
    for (int i = 0; i < count; i++) {
        assert_true(ceiling.prices.section[i] >= 0.0);
        scarce += ceiling.prices.section[i] > 1e-6;
    }
    assert_true(scarce > 0 && scarce < count);
}

typedef struct RouteCheck {
    LinearPlan *plan;
    const double *prices;
    int count;
} RouteCheck;

/* What a route is told to earn is its gain less the price of its entries. */
static void check_route(void *self, const PricedRun *found)
{
    RouteCheck *check = self;
    LinearModel *model = &check->plan->model;
    int first = model->entry_count;
    linear_add_run(check->plan, &found->run);
    double profit = model->columns[model->column_count - 1].gain;
    for (int e = first; e < model->entry_count; e++) {
        profit -=
            model->entries[e].value * check->prices[model->entries[e].row];
    }
    assert_near(found->profit, profit, 1e-9 * (1.0 + fabs(profit)));
    check->count++;
}

/* The same for any prices: routes are valued in one way and entered in
 * another. */
static void routes_earn_what_their_entries_say(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 9; seed++) {
        CLEANUP(arena_release) Arena arena = {0};
        GenerateCase farm = generate_tiny_case(seed);
        farm.horizon = 17;
        Rng rng = rng_make(seed, 4);
        Problem problem;
        LinearPlan plan;
        generate_problem(&arena, &farm, &problem);
        problem.fish.feed_price_kg = 1.37;
        linear_plan_init(&plan, &arena, &problem, false);
        linear_add_hours(&plan);
        linear_add_sales(&plan);
        linear_add_pools(&plan);
        linear_add_plants(&plan);
        linear_add_fish(&plan);
        double *prices = ARENA_ARRAY(&arena, double, plan.model.row_count);
        for (int i = 0; i < plan.model.row_count; i++) {
            prices[i] = 0.1 * rng_normal(&rng);
        }
        RouteCheck check = {&plan, prices, 0};
        linear_price_routes(&plan, prices, -1e9, &check, check_route);
        assert_true(check.count > 10);
    }
}

static bool go_on_twice(void *self, double value, double ceiling)
{
    int *left = self;
    assert_true(ceiling >= value);
    return --*left > 0;
}

static void the_watch_can_stop_it(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_tiny_case(2);
    Problem problem;
    LinearCeiling ceiling;
    int left = 2;
    LinearWatch watch = {&left, go_on_twice};
    generate_problem(&arena, &farm, &problem);
    assert_err(linear_ceiling(&problem, NULL, &watch, &arena, &ceiling),
               ERR_STOPPED, "stopped");
    assert_int_equal(left, 0);
}

static void tanks_that_hold_nothing_are_a_conflict_with_a_name(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_tiny_case(2);
    Problem problem;
    LinearCeiling ceiling;
    generate_problem(&arena, &farm, &problem);
    PlanTank tanks[2] = {problem.tanks[0], problem.tanks[1]};
    uint8_t *never = ARENA_ARRAY(&arena, uint8_t, problem.week_count);
    for (int k = 0; k < 2; k++) {
        tanks[k].most_kg = 0.35;
        tanks[k].may_catch = never;
    }
    problem.tanks = tanks;
    assert_err(linear_ceiling(&problem, NULL, NULL, &arena, &ceiling),
               ERR_CONFLICT, "fish-1-1");
}

static void a_crowded_farm_earns_more_with_more_beds(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_tiny_case(2);
    farm.crowding = 3.0;
    double crowded = ceiling_of(&arena, &farm);
    farm.beds = 6;
    assert_true(ceiling_of(&arena, &farm) > crowded);
}

/* Whatever passes the checker is worth no more than the ceiling. */
static void no_sound_plan_beats_the_ceiling(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 7; seed++) {
        CLEANUP(arena_release) Arena arena = {0};
        GenerateCase farm = generate_tiny_case(seed);
        Rng rng = rng_make(seed, 9);
        Problem problem;
        LinearCeiling ceiling;
        generate_problem(&arena, &farm, &problem);
        assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &ceiling));
        for (int i = 0; i < 3; i++) {
            PlanSolution plan;
            VerifyReport report;
            random_plan(&problem, &rng, 100, &arena, &plan);
            plan_verify(&problem, &plan, &arena, &report);
            assert_int_equal(report.count, 0);
            assert_true(report.value <= ceiling.value + 1e-6);
        }
    }
}

/* All options, the routes of a ceiling, and every row from the start. */
static void whole_relaxation(LinearPlan *plan, Arena *arena,
                             const Problem *problem,
                             const LinearCeiling *ceiling)
{
    linear_plan_init(plan, arena, problem, false);
    linear_add_hours(plan);
    linear_add_sales(plan);
    linear_add_pools(plan);
    linear_add_plants(plan);
    linear_add_fish(plan);
    for (int r = 0; r < problem->option_count; r++) {
        if (!problem->options[r].is_standing &&
            plan->unit_columns[r] == PLAN_NONE) {
            linear_add_option(plan, r);
        }
    }
    for (int i = 0; i < ceiling->route_count; i++) {
        linear_add_run(plan, &ceiling->routes[i]);
    }
}

static void solver_release(LinearSolver *solver)
{
    linear_solver_close(solver);
}

/* Rows that wait and columns that are dropped change the way, not the end. */
static void the_ceiling_is_that_of_all_rows_at_once(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 5; seed++) {
        CLEANUP(arena_release) Arena arena = {0};
        CLEANUP(solver_release) LinearSolver solver = {0};
        GenerateCase farm = generate_tiny_case(seed);
        farm.beds = 6;
        farm.horizon = 17;
        Problem problem;
        LinearCeiling ceiling;
        LinearPlan plan;
        generate_problem(&arena, &farm, &problem);
        problem.fish.neighbour_ratio = 1e6;
        assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &ceiling));
        whole_relaxation(&plan, &arena, &problem, &ceiling);
        linear_solver_load(&solver, &plan.model);
        assert_ok(linear_solver_dual(&solver));
        double value = linear_solver_value(&solver);
        assert_true(value <= ceiling.value + 1e-6 * fabs(value));
        assert_near(ceiling.value, value, 4e-4 * fabs(value));
    }
}

/* Dropped while unused and taken back, they give what they gave. */
static void columns_may_leave_the_solver_and_come_back(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    CLEANUP(solver_release) LinearSolver solver = {0};
    GenerateCase farm = generate_tiny_case(3);
    Problem problem;
    LinearPlan plan;
    LinearCeiling none = {0};
    farm.tanks = 0;
    generate_problem(&arena, &farm, &problem);
    whole_relaxation(&plan, &arena, &problem, &none);
    linear_solver_load(&solver, &plan.model);
    assert_ok(linear_solver_dual(&solver));
    double whole = linear_solver_value(&solver);
    const double *x = linear_solver_columns(&solver);
    int columns[3];
    int count = 0;
    for (int r = 0; r < problem.option_count && count < 3; r++) {
        int column = plan.unit_columns[r];
        if (column != PLAN_NONE && x[column] > 0.5) {
            columns[count++] = column;
        }
    }
    assert_int_equal(count, 3);
    linear_solver_drop_columns(&solver, columns, count);
    assert_false(linear_solver_has_column(&solver, columns[1]));
    assert_ok(linear_solver_dual(&solver));
    assert_near(linear_solver_columns(&solver)[columns[1]], 0.0, 0.0);
    assert_true(linear_solver_value(&solver) < whole - 1e-6);
    linear_solver_add_columns(&solver, columns, count);
    assert_ok(linear_solver_primal(&solver));
    assert_near(linear_solver_value(&solver), whole, 1e-6 * fabs(whole));
}

/* Where it begins changes its way and not its end: within what rounds leave. */
static void a_plan_to_begin_from_leaves_the_ceiling_where_it_is(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 6; seed++) {
        CLEANUP(arena_release) Arena arena = {0};
        GenerateCase farm = generate_tiny_case(seed);
        farm.horizon = 23;
        Problem problem;
        LinearCeiling plain;
        LinearCeiling begun;
        PlanSolution plan;
        generate_problem(&arena, &farm, &problem);
        Rng rng = rng_make(seed, 9);
        random_plan(&problem, &rng, 100, &arena, &plan);
        assert_ok(linear_ceiling(&problem, NULL, NULL, &arena, &plain));
        assert_ok(linear_ceiling(&problem, &plan, NULL, &arena, &begun));
        assert_near(begun.value, plain.value, 3e-4 * fabs(plain.value));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_beds_never_lower_the_ceiling),
        cmocka_unit_test(scarce_weeks_have_a_price_and_others_none),
        cmocka_unit_test(routes_earn_what_their_entries_say),
        cmocka_unit_test(the_watch_can_stop_it),
        cmocka_unit_test(the_ceiling_is_that_of_all_rows_at_once),
        cmocka_unit_test(columns_may_leave_the_solver_and_come_back),
        cmocka_unit_test(a_plan_to_begin_from_leaves_the_ceiling_where_it_is),
        cmocka_unit_test(tanks_that_hold_nothing_are_a_conflict_with_a_name),
        cmocka_unit_test(no_sound_plan_beats_the_ceiling),
        cmocka_unit_test(a_crowded_farm_earns_more_with_more_beds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
