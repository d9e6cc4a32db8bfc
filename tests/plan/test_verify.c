/* The separate checker: a sound plan passes, and each limit broken on purpose
 * is named. */
#include "check.h"

#include "plan/evaluate.h"
#include "plan/verify.h"
#include "random_plan.h"

typedef struct Case {
    Arena arena;
    Problem problem;
    PlanSolution plan;
} Case;

static void case_release(Case *c)
{
    arena_release(&c->arena);
}

/* The report holds a text with these words; the others are shown if not. */
static void assert_told(Case *c, const char *words)
{
    VerifyReport report;
    plan_verify(&c->problem, &c->plan, &c->arena, &report);
    for (int i = 0; i < report.count && i < VERIFY_MOST_TEXTS; i++) {
        if (strstr(report.texts[i], words)) {
            return;
        }
    }
    print_error("\"%s\" is not among %d texts\n", words, report.count);
    for (int i = 0; i < report.count && i < 5; i++) {
        print_error("  %s\n", report.texts[i]);
    }
    fail();
}

static void sound_plans_pass_and_come_to_the_same_value(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed < 7; seed++) {
        CLEANUP(case_release) Case c = {0};
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        VerifyReport report;
        plan_verify(&c.problem, &c.plan, &c.arena, &report);
        if (report.count > 0) {
            print_error("%s\n", report.texts[0]);
        }
        assert_int_equal(report.count, 0);
        assert_near(report.value, c.plan.outcome.value,
                    1e-6 * fabs(report.value) + 1e-6);
    }
}

static double *flat(Case *c, double value)
{
    double *out = ARENA_ARRAY(&c->arena, double, c->problem.week_count);
    for (int t = 0; t < c->problem.week_count; t++) {
        out[t] = value;
    }
    return out;
}

/* A placement on the floor or on an edge; fails when there is none. */
static PlanPlacement *find_placed(Case *c, bool is_edge)
{
    for (int i = 0; i < c->plan.placement_count; i++) {
        PlanPlacement *placed = &c->plan.placements[i];
        if (c->problem.options[placed->option].is_edge == is_edge) {
            return placed;
        }
    }
    fail();
    return NULL;
}

static void beds_that_are_held_twice_or_too_small_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanPlacement *placed = find_placed(&c, false);
    PlanPlacement kept = *placed;
    const char *bed = c.problem.beds[kept.bed].id;
    placed->first_section = 2;
    placed->units = 5;
    assert_told(&c, bed);
    assert_told(&c, "which has 3");
    *placed = kept;
    c.plan.placements[c.plan.placement_count++] = kept;
    assert_told(&c, "is held twice in week");
    c.plan.placement_count--;
    placed->bed = 1 - kept.bed;
    assert_told(&c, "is not made for a bed like");
    *placed = kept;
    PlanBed beds[2] = {c.problem.beds[0], c.problem.beds[1]};
    c.problem.beds = beds;
    beds[kept.bed].last_week = c.problem.options[kept.option].set_week;
    assert_told(&c, "when it is not in use");
    placed->units = 0;
    assert_told(&c, "has 0 units");
}

static void edges_shade_nursery_and_hours_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    PlanPlacement *placed = NULL;
    for (uint64_t seed = 1; !placed && seed < 40; seed++) {
        case_release(&c);
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        for (int i = 0; i < c.plan.placement_count && !placed; i++) {
            PlanPlacement *one = &c.plan.placements[i];
            const PlanOption *option = &c.problem.options[one->option];
            placed = option->is_edge && option->trays_of == 0 ? one : NULL;
        }
    }
    assert_non_null(placed);
    int units = placed->units;
    placed->units = 150;
    assert_told(&c, "m of 2.40");
    assert_told(&c, "want sun in week");
    assert_told(&c, "the nursery holds");
    assert_told(&c, "hours of");
    placed->units = units;
    PlanBed beds[2] = {c.problem.beds[0], c.problem.beds[1]};
    c.problem.beds = beds;
    beds[placed->bed].has_edge =
        ARENA_ARRAY(&c.arena, uint8_t, c.problem.week_count);
    assert_told(&c, "when it may not be planted");
}

/* Seedlings that stand may be set, but only as many as there are. */
static void more_seedlings_set_than_stand_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    PlanPlacement *placed = NULL;
    for (uint64_t seed = 1; !placed && seed < 80; seed++) {
        case_release(&c);
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        for (int i = 0; i < c.plan.placement_count && !placed; i++) {
            PlanPlacement *one = &c.plan.placements[i];
            placed = c.problem.options[one->option].trays_of > 0 ? one : NULL;
        }
    }
    assert_non_null(placed);
    const PlanOption *option = &c.problem.options[placed->option];
    PlanSeedlings fewer = c.problem.seedlings[option->trays_of - 1];
    fewer.plants = placed->units * option->plants - 0.25;
    c.problem.seedlings = &fewer;
    assert_told(&c, "seedlings of trays-1 are set");
}

static void cleanings_left_out_late_or_too_many_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanBed beds[2] = {c.problem.beds[0], c.problem.beds[1]};
    c.problem.beds = beds;
    c.plan.placement_count = 0;
    c.plan.cleaning_count = 2;
    c.plan.cleanings[0] = (PlanCleaning){0, 5};
    c.plan.cleanings[1] = (PlanCleaning){1, 6};
    beds[0].clean_by = 7;
    beds[1].clean_by = 7;
    assert_told(&c, "2 beds of loop-1 are cleaned in weeks 5 and 6");
    beds[1].clean_by = 4;
    assert_told(&c, "bed-2 is cleaned in week 6, due by week 4");
    c.plan.cleaning_count = 1;
    assert_told(&c, "bed-2 is cleaned 0 times by week 4");
    PlanStanding batch = {.option = c.problem.option_count - 1, .bed = 0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanPlacement *placed = find_placed(&c, false);
    batch.bed = placed->bed;
    c.plan.cleaning_count = 1;
    c.plan.cleanings[0] =
        (PlanCleaning){batch.bed, c.problem.options[placed->option].set_week};
    assert_told(&c, "while plants stand on it");
}

static void lanes_and_counts_that_do_not_add_up_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    const char *id = c.problem.stocks[c.plan.runs[0].stock].id;
    c.plan.runs[0].count++;
    assert_told(&c, id);
    assert_told(&c, "fish with a route, of");
    c.plan.runs[0].count--;
    c.plan.runs[0].tank = 1;
    c.plan.runs[0].to_tank = 1;
    c.plan.runs[0].move_week = PLAN_NONE;
    assert_told(&c, "is in tank-1, not in tank-2");
}

static void tanks_over_their_limits_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanTank tanks[2] = {c.problem.tanks[0], c.problem.tanks[1]};
    PlanLoop loop = c.problem.loops[0];
    c.problem.tanks = tanks;
    c.problem.loops = &loop;
    for (int b = 0; b < PLAN_LANES; b++) {
        PlanRun *run = &c.plan.runs[b];
        *run = (PlanRun){
            0, b, 0, PLAN_NONE, 0, c.problem.week_count, PLAN_NONE, run->count};
    }
    tanks[0].most_kg = 0.5;
    assert_told(&c, "tank-1 holds");
    tanks[0].air_g_h = flat(&c, 0.01);
    assert_told(&c, "tank-1 needs");
    loop.nitrify_g_d = flat(&c, 0.01);
    assert_told(&c, "the beds of loop-1 get");
    tanks[0].most_batches = 0;
    assert_told(&c, "tank-1 holds 1 batches in week 0, at most 0");
}

static void events_out_of_their_time_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanTank tanks[2] = {c.problem.tanks[0], c.problem.tanks[1]};
    uint8_t *never = ARENA_ARRAY(&c.arena, uint8_t, c.problem.week_count);
    int fish = c.problem.way_count;
    c.problem.tanks = tanks;
    PlanRun *runs = c.plan.runs;
    runs[0] = (PlanRun){0, 0, 0, 3, 1, 8, fish, runs[0].count};
    runs[1] = (PlanRun){0, 1, 0, 5, 1, 8, fish + 1, runs[1].count};
    assert_told(&c, "tank-1 is graded in week 3 and again in week 5");
    assert_told(&c, "is sold as fish 450 at");
    tanks[1].may_grade = never;
    assert_told(&c, "allows no grading");
    tanks[1].may_catch = never;
    assert_told(&c, "allows no catch");
    runs[0].move_week = 8;
    assert_told(&c, "moves in week 8");
    runs[0].to_tank = 0;
    assert_told(&c, "moves from tank-1 to tank-1");
}

static void fish_too_far_apart_in_size_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    int young = c.problem.stocks[0].is_standing ? 1 : 0;
    int least = c.problem.stocks[young].least;
    int end = c.problem.week_count;
    c.plan.run_count = 0;
    for (int i = 0; i < 2 * PLAN_LANES; i++) {
        int b = i % PLAN_LANES;
        int stock = i / PLAN_LANES == 0 ? 1 - young : young;
        int heads = stock == young ? least : c.problem.stocks[stock].most;
        c.plan.runs[c.plan.run_count++] = (PlanRun){
            stock, b,   0,         PLAN_NONE,
            0,     end, PLAN_NONE, heads * (b + 1) / 4 - heads * b / 4};
    }
    assert_told(&c, "too far apart");
    for (int b = 0; b < PLAN_LANES; b++) {
        c.plan.runs[PLAN_LANES + b].count = b == 3;
    }
    assert_told(&c, "is stocked with 1 fish");
}

static void sales_out_of_nothing_are_named(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    PlanOutcome *outcome = &c.plan.outcome;
    const PlanOrder *order = &c.problem.orders[0];
    double kept = outcome->kept[7];
    outcome->kept[7] = order->wanted[7] + 1.5;
    assert_told(&c, "and wants");
    outcome->kept[7] = kept;
    double sold = outcome->sold[7];
    outcome->sold[7] = -1.0;
    assert_told(&c, "and has room for");
    outcome->sold[7] = sold;
    outcome->part_firm[7] += 900.0;
    assert_told(&c, "may be");
    assert_told(&c, "can be counted on");
    assert_told(&c, "are sold and");
    outcome->part_firm[7] -= 900.0;
    outcome->store[7] += 900.0;
    assert_told(&c, "the store holds");
    assert_told(&c, "the stores hold");
    outcome->store[7] -= 900.0;
    outcome->value += 1.0;
    assert_told(&c, "the plan comes to");
}

static void what_is_not_there_is_named_and_nothing_else_is_read(void **state)
{
    (void)state;
    CLEANUP(case_release) Case c = {0};
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    c.plan.placements[0].option = c.problem.option_count;
    assert_told(&c, "names an option or bed that is not there");
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    c.plan.runs[0].sale_week = c.problem.week_count + 1;
    assert_told(&c, "that is not there");
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    c.plan.cleaning_count = 1;
    c.plan.cleanings[0] = (PlanCleaning){9, 0};
    assert_told(&c, "cleaning 0 names");
    random_plan_of(1, &c.arena, &c.problem, &c.plan);
    c.problem.horizon = 0;
    assert_told(&c, "outside weeks");
}

/* Where nobody buys, all that are caught cost; where some do, only the rest. */
static void fish_that_no_buyer_takes_cost_and_others_do_not(void **state)
{
    (void)state;
    int caught_at_all = 0;
    for (uint64_t seed = 1; seed < 7; seed++) {
        CLEANUP(case_release) Case c = {0};
        random_plan_of(seed, &c.arena, &c.problem, &c.plan);
        double heads = 0.0;
        for (int i = 0; i < c.plan.run_count; i++) {
            const PlanRun *run = &c.plan.runs[i];
            const PlanStock *stock = &c.problem.stocks[run->stock];
            heads +=
                run->sale_week < c.problem.week_count
                    ? run->count * stock->lanes[run->lane].alive[run->sale_week]
                    : 0.0;
        }
        caught_at_all += heads > 0.5;
        c.problem.fish.unsold_price = 2.385;
        PlanOutcome some;
        assert_ok(plan_evaluate(&c.problem, &c.plan, &c.arena, &some));
        assert_true(some.unsold_cost >= -1e-6);
        assert_true(some.unsold_cost <= 2.385 * heads + 1e-6);
        c.problem.order_count = 0;
        c.problem.outlet_count = 0;
        assert_ok(
            plan_evaluate(&c.problem, &c.plan, &c.arena, &c.plan.outcome));
        assert_near(c.plan.outcome.unsold_cost, 2.385 * heads, 1e-6);
        VerifyReport report;
        plan_verify(&c.problem, &c.plan, &c.arena, &report);
        assert_int_equal(report.count, 0);
    }
    assert_true(caught_at_all > 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fish_that_no_buyer_takes_cost_and_others_do_not),
        cmocka_unit_test(sound_plans_pass_and_come_to_the_same_value),
        cmocka_unit_test(beds_that_are_held_twice_or_too_small_are_named),
        cmocka_unit_test(edges_shade_nursery_and_hours_are_named),
        cmocka_unit_test(more_seedlings_set_than_stand_are_named),
        cmocka_unit_test(cleanings_left_out_late_or_too_many_are_named),
        cmocka_unit_test(lanes_and_counts_that_do_not_add_up_are_named),
        cmocka_unit_test(tanks_over_their_limits_are_named),
        cmocka_unit_test(events_out_of_their_time_are_named),
        cmocka_unit_test(fish_too_far_apart_in_size_are_named),
        cmocka_unit_test(sales_out_of_nothing_are_named),
        cmocka_unit_test(what_is_not_there_is_named_and_nothing_else_is_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
