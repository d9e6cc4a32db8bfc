/* Invented problems: the same for the same case, and well formed. */
#include "check.h"

#include "plan/generate.h"

static void the_same_case_gives_the_same_problem(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_case(48, 7);
    Problem a;
    Problem b;
    generate_problem(&arena, &farm, &a);
    generate_problem(&arena, &farm, &b);
    assert_int_equal(a.option_count, b.option_count);
    assert_int_equal(a.standing_count, b.standing_count);
    for (int i = 0; i < a.bed_count; i++) {
        assert_int_equal(a.beds[i].clean_by, b.beds[i].clean_by);
    }
    farm.seed = 8;
    generate_problem(&arena, &farm, &b);
    int differ = a.standing_count != b.standing_count;
    for (int i = 0; i < a.bed_count; i++) {
        differ += a.beds[i].clean_by != b.beds[i].clean_by;
    }
    assert_true(differ > 0);
}

static void check_option(const Problem *problem, const PlanOption *option)
{
    assert_true(option->first_week == option->sow_week);
    assert_true(option->sow_week <= option->set_week);
    assert_true(option->set_week < option->pick_from);
    assert_true(option->pick_until < option->clear_week);
    assert_true(option->is_standing || option->trays_of > 0 ||
                option->sow_week >= 0);
    assert_true(option->set_week < problem->horizon);
    double mean = 0.0;
    for (int i = 0; i < option->weeks; i++) {
        mean += option->mean[i];
        assert_true(option->low[i] <= option->mean[i]);
        assert_true(option->trays[i] * option->mean[i] <= 0.0);
    }
    assert_true(mean > 0.0);
}

static void every_option_has_its_weeks_in_order_and_a_yield(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    int sizes[] = {48, 96, 480};
    for (int i = 0; i < 3; i++) {
        GenerateCase farm = generate_case(sizes[i], 3);
        Problem problem;
        generate_problem(&arena, &farm, &problem);
        assert_true(problem.option_count > 3000);
        for (int r = 0; r < problem.option_count; r++) {
            check_option(&problem, &problem.options[r]);
        }
    }
}

/* Days are not days: what is set out late in the year stands longer. */
static void winter_batches_stand_longer(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_case(48, 3);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    int weeks[2] = {0, 0};
    for (int r = 0; r < problem.option_count; r++) {
        const PlanOption *option = &problem.options[r];
        if (option->way == 0 && option->kind == 0 && !option->is_standing) {
            int late = option->set_week == 34;
            if (late || option->set_week == 14) {
                weeks[late] = option->pick_from - option->set_week;
            }
        }
    }
    assert_true(weeks[0] > 0);
    assert_true(2 * weeks[1] > 3 * weeks[0]);
}

static void tiny_farms_are_tiny(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    GenerateCase farm = generate_tiny_case(3);
    Problem problem;
    generate_problem(&arena, &farm, &problem);
    assert_true(problem.option_count > 10 && problem.option_count < 100);
    assert_int_equal(problem.tank_count, 2);
    assert_true(problem.stock_count >= 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_case_gives_the_same_problem),
        cmocka_unit_test(every_option_has_its_weeks_in_order_and_a_yield),
        cmocka_unit_test(winter_batches_stand_longer),
        cmocka_unit_test(tiny_farms_are_tiny),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
