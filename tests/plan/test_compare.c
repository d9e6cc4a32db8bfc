/* Two plans side by side: what differs is told, what is alike is not, and sales
 * that bring the same are made alike. */
#include "check.h"

#include "plan/compare.h"
#include "plan/evaluate.h"
#include "plan/sell_alike.h"
#include "random_plan.h"

typedef struct Case {
    Arena arena;
    Problem problem;
    PlanSolution plan;
    PlanCompare compare;
} Case;

static void case_release(Case *c)
{
    arena_release(&c->arena);
}

static PlanSolution copy_of(Case *c, int room)
{
    PlanSolution copy = c->plan;
    copy.placements = arena_grow(
        &c->arena, c->plan.placements, (size_t)c->plan.placement_count,
        (size_t)(c->plan.placement_count + room), sizeof *copy.placements);
    return copy;
}

static void evaluate(Case *c, PlanSolution *plan)
{
    assert_ok(plan_evaluate(&c->problem, plan, &c->arena, &plan->outcome));
}

/* The first batch on the floor that the plan chose. */
static int floor_batch(const Case *c)
{
    for (int i = 0; i < c->plan.placement_count; i++) {
        const PlanOption *option =
            &c->problem.options[c->plan.placements[i].option];
        if (!option->is_edge && option->trays_of == 0) {
            return i;
        }
    }
    fail();
    return 0;
}

static void a_plan_beside_itself_differs_in_nothing(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 7; seed++) {
        CLEANUP(case_release) Case c = {0};
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        plan_compare(&c.problem, &c.plan, &c.plan, &c.plan, &c.arena,
                     &c.compare);
        assert_int_equal(c.compare.order_count, 0);
        assert_int_equal(c.compare.batch_count, 0);
        assert_int_equal(c.compare.step_count, 0);
        assert_int_equal(c.compare.clean_count, 0);
        assert_int_equal(c.compare.feed_count, 0);
        assert_int_equal(c.compare.break_count, 0);
        assert_int_equal(c.compare.verdict, COMPARE_FITS);
        assert_near(c.compare.value_after, c.plan.outcome.value, 1e-6);
        assert_near(c.compare.value_before, c.compare.value_after, 1e-9);
    }
}

static void a_batch_left_out_is_the_one_line_that_differs(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 7; seed++) {
        CLEANUP(case_release) Case c = {0};
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        int at = floor_batch(&c);
        PlanPlacement dropped = c.plan.placements[at];
        const PlanOption *option = &c.problem.options[dropped.option];
        PlanSolution less = copy_of(&c, 0);
        less.placements[at] = less.placements[--less.placement_count];
        evaluate(&c, &less);
        plan_compare(&c.problem, &c.plan, &less, &c.plan, &c.arena, &c.compare);
        assert_int_equal(c.compare.batch_count, 1);
        const CompareBatch *line = &c.compare.batches[0];
        assert_int_equal(line->way, option->way);
        assert_int_equal(line->bed, dropped.bed);
        assert_int_equal(line->week, option->set_week);
        assert_int_equal(line->units_before - line->units_after, dropped.units);
        assert_near(line->plants_before - line->plants_after,
                    dropped.units * option->plants, 1e-9);
        assert_int_equal(c.compare.verdict, COMPARE_FITS);
        assert_near(c.compare.value_after, less.outcome.value, 1e-6);
        for (int i = 0; i < c.compare.order_count; i++) {
            const CompareOrder *order = &c.compare.orders[i];
            int turned = 0;
            for (int w = 0; w < order->change_count; w++) {
                turned += order->changes[w].turn == TURN_GAINED;
                turned -= order->changes[w].turn == TURN_LOST;
            }
            assert_int_equal(order->kept_after - order->kept_before, turned);
        }
    }
}

static void a_place_held_twice_is_one_hard_break_of_all_its_weeks(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanPlacement placed = c.plan.placements[floor_batch(&c)];
    const PlanOption *option = &c.problem.options[placed.option];
    PlanSolution twice = copy_of(&c, 1);
    twice.placements[twice.placement_count++] = placed;
    evaluate(&c, &twice);
    plan_compare(&c.problem, &c.plan, &twice, &c.plan, &c.arena, &c.compare);
    assert_int_equal(c.compare.verdict, COMPARE_HARD);
    const CompareBreak *line = &c.compare.breaks[0];
    assert_int_equal(line->what.kind, VERIFY_PLACE);
    assert_true(line->is_new);
    assert_string_equal(line->what.place, c.problem.beds[placed.bed].id);
    assert_string_equal(line->what.way, c.problem.way_names[option->way]);
    assert_string_equal(line->what.other, line->what.way);
    assert_int_equal(line->what.section, placed.first_section + 1);
    assert_int_equal(line->last_section, placed.first_section + placed.units);
    int end = option->clear_week < c.problem.week_count ? option->clear_week
                                                        : c.problem.week_count;
    assert_int_equal(line->first_week, option->set_week);
    assert_int_equal(line->last_week, end - 1);
    /* What today breaks already is not new, whoever breaks it. */
    plan_compare(&c.problem, &c.plan, &twice, &twice, &c.arena, &c.compare);
    assert_int_equal(c.compare.verdict, COMPARE_FITS);
    assert_false(c.compare.breaks[0].is_new);
    /* And one that is mended is counted by its weeks and sections. */
    plan_compare(&c.problem, &twice, &c.plan, &twice, &c.arena, &c.compare);
    assert_int_equal(c.compare.break_count, 0);
    assert_true(c.compare.mended >= (end - option->set_week) * placed.units);
}

static void hands_that_are_too_few_are_a_soft_break(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    int weeks = c.problem.week_count;
    double *paid = ARENA_ARRAY(&c.arena, double, weeks);
    double *extra = ARENA_ARRAY(&c.arena, double, weeks);
    PlanSolution nothing = {.runs = c.plan.runs,
                            .run_count = c.plan.run_count,
                            .cleanings = c.plan.cleanings,
                            .cleaning_count = c.plan.cleaning_count};
    evaluate(&c, &nothing);
    evaluate(&c, &c.plan);
    for (int t = 0; t < weeks; t++) {
        paid[t] = nothing.outcome.hours[t] + 0.001;
    }
    c.problem.hours_paid = paid;
    c.problem.hours_extra = extra;
    evaluate(&c, &nothing);
    evaluate(&c, &c.plan);
    plan_compare(&c.problem, &nothing, &c.plan, &nothing, &c.arena, &c.compare);
    assert_int_equal(c.compare.verdict, COMPARE_SOFT);
    assert_int_equal(c.compare.breaks[0].what.kind, VERIFY_HOURS);
    assert_true(c.compare.breaks[0].what.got > c.compare.breaks[0].what.most);
}

static double distance(const Case *c, const double *a, const double *b)
{
    double sum = 0.0;
    for (int i = 0; i < c->problem.order_count * c->problem.week_count; i++) {
        sum += fabs(a[i] - b[i]);
    }
    return sum;
}

/* Two buyers who want and pay the same; what one got the other gets. */
static void what_buyers_of_one_price_changed_among_them_comes_back(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    double swapped = 0.0;
    random_plan_of(3, &c.arena, &c.problem, &c.plan);
    PlanOrder *orders =
        arena_grow(&c.arena, c.problem.orders, (size_t)c.problem.order_count,
                   (size_t)c.problem.order_count, sizeof *orders);
    double *wanted = ARENA_ARRAY(&c.arena, double, c.problem.week_count);
    for (int t = 0; t < c.problem.week_count; t++) {
        wanted[t] = 7.0 * orders[0].wanted[t]; /* more than there is */
    }
    orders[0].wanted = wanted;
    orders[1] = orders[0];
    orders[1].id = "the-other";
    c.problem.orders = orders;
    evaluate(&c, &c.plan);
    int weeks = c.problem.week_count;
    PlanOutcome other = c.plan.outcome;
    other.kept = arena_grow(
        &c.arena, other.kept, (size_t)(c.problem.order_count * weeks),
        (size_t)(c.problem.order_count * weeks), sizeof *other.kept);
    for (int t = 0; t < weeks; t++) {
        double kept = other.kept[t];
        swapped += fabs(kept - other.kept[weeks + t]);
        other.kept[t] = other.kept[weeks + t];
        other.kept[weeks + t] = kept;
    }
    assert_true(swapped > 0.1);
    /* As if something else had been made of it as well: not a copy. */
    double *made = arena_grow(
        &c.arena, other.made, (size_t)(c.problem.goods_count * weeks),
        (size_t)(c.problem.goods_count * weeks), sizeof *made);
    for (int i = 0; i < c.problem.goods_count * weeks; i++) {
        made[i] += 1.0;
    }
    other.made = made;
    plan_sell_alike(&c.problem, &c.plan.outcome, &c.arena, &other);
    assert_near(distance(&c, other.kept, c.plan.outcome.kept), 0.0, 1e-9);
}

static void sales_made_alike_keep_value_and_limits_and_come_nearer(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 12; seed++) {
        CLEANUP(case_release) Case c = {0};
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        PlanSolution less = copy_of(&c, 0);
        int at = floor_batch(&c);
        less.placements[at] = less.placements[--less.placement_count];
        evaluate(&c, &less);
        PlanSolution alike = less;
        plan_sell_alike(&c.problem, &c.plan.outcome, &c.arena, &alike.outcome);
        assert_near(alike.outcome.value, less.outcome.value, 1e-6);
        assert_true(distance(&c, alike.outcome.kept, c.plan.outcome.kept) <=
                    distance(&c, less.outcome.kept, c.plan.outcome.kept) +
                        1e-9);
        VerifyReport report;
        plan_verify(&c.problem, &alike, &c.arena, &report);
        if (report.count > 0) {
            print_error("farm %d: %s\n", (int)seed, report.texts[0]);
        }
        assert_int_equal(report.count, 0);
        assert_near(report.value, less.outcome.value, 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_plan_beside_itself_differs_in_nothing),
        cmocka_unit_test(a_batch_left_out_is_the_one_line_that_differs),
        cmocka_unit_test(a_place_held_twice_is_one_hard_break_of_all_its_weeks),
        cmocka_unit_test(hands_that_are_too_few_are_a_soft_break),
        cmocka_unit_test(
            what_buyers_of_one_price_changed_among_them_comes_back),
        cmocka_unit_test(
            sales_made_alike_keep_value_and_limits_and_come_nearer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
