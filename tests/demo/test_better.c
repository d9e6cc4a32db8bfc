/* On the demo: what is added to a farm never lowers the value of a plan that
 * starts from the one without it, and a firm order lowers it by no more than
 * its price of missing. */
#include "measures.h"

#include "plan/evaluate.h"
#include "plan/search.h"
#include "plan/verify.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum { WEEKS = 26, FEW_MOVES = 40000, MORE_MOVES = 8000 };

static const double ROUNDING = 1e-6;

typedef struct Better {
    Demo demo;
    PlanSolution plan;
    Problem other; /* a copy of the problem, for a test to change */
} Better;

static int set_up(void **state)
{
    static Better better;
    demo_open(DEMO_DIR, WEEKS, &better.demo);
    short_plan(&better.demo, FEW_MOVES, &better.plan);
    *state = &better;
    return 0;
}

static int tear_down(void **state)
{
    Better *better = *state;
    demo_close(&better->demo);
    return 0;
}

static int copy_problem(void **state)
{
    Better *better = *state;
    better->other = better->demo.year.problem;
    return 0;
}

/* A week series with more in each week that has some, or in all. */
static double *raised(Better *better, const double *weeks, double by, bool all)
{
    int count = better->other.week_count;
    double *more = ARENA_ARRAY(&better->demo.arena, double, count);
    for (int t = 0; t < count; t++) {
        more[t] = weeks[t] + (all || weeks[t] > 0.0 ? by : 0.0);
    }
    return more;
}

/* Value of the changed problem's plan, started from the plan without. */
static double value_from_plan(Better *better)
{
    Arena *arena = &better->demo.arena;
    SearchSetup setup = {.seed = 3, .moves = MORE_MOVES, .from = &better->plan};
    Search *search = search_open(arena, &better->other, &setup);
    assert_int_equal(search_refused(search), 0);
    while (search_step(search)) {
    }
    PlanSolution found = {0};
    double faults = 0.0;
    (void)search_take(search, arena, &found, &faults);
    assert_true(faults < 0.5);
    assert_ok(plan_evaluate(&better->other, &found, arena, &found.outcome));
    VerifyReport report;
    plan_verify(&better->other, &found, arena, &report);
    assert_int_equal(report.count, 0);
    return found.outcome.value;
}

static void more_outlet_room_never_lowers_the_value(void **state)
{
    Better *better = *state;
    Problem *other = &better->other;
    PlanOutlet *outlets =
        ARENA_ARRAY(&better->demo.arena, PlanOutlet, other->outlet_count);
    for (int j = 0; j < other->outlet_count; j++) {
        outlets[j] = other->outlets[j];
        outlets[j].room = raised(better, outlets[j].room, 3.7, false);
    }
    other->outlets = outlets;
    double value = value_from_plan(better);
    assert_true(value >= better->plan.outcome.value - ROUNDING);
}

static void hours_already_paid_never_lower_the_value(void **state)
{
    Better *better = *state;
    Problem *other = &better->other;
    other->hours_paid = raised(better, other->hours_paid, 11.3, true);
    double value = value_from_plan(better);
    assert_true(value >= better->plan.outcome.value - ROUNDING);
}

static void more_beds_never_lower_the_value(void **state)
{
    Better *better = *state;
    Problem *other = &better->other;
    Arena *arena = &better->demo.arena;
    enum { MORE = 3 };
    int count = other->bed_count;
    PlanBed *beds = ARENA_ARRAY(arena, PlanBed, count + MORE);
    PlanKind *kinds = ARENA_ARRAY(arena, PlanKind, other->kind_count);
    memcpy(beds, other->beds, (size_t)count * sizeof *beds);
    memcpy(kinds, other->kinds, (size_t)other->kind_count * sizeof *kinds);
    for (int i = 0; i < MORE; i++) {
        PlanBed bed = beds[i * 9];
        PlanKind *kind = &kinds[bed.kind];
        bed.id = "one more";
        bed.clean_by = PLAN_NONE;
        kind->sections = raised(better, kind->sections, bed.sections, true);
        kind->edge_m = raised(better, kind->edge_m, bed.edge_m, false);
        beds[count + i] = bed;
    }
    other->beds = beds;
    other->kinds = kinds;
    other->bed_count = count + MORE;
    double value = value_from_plan(better);
    assert_true(value >= better->plan.outcome.value - ROUNDING);
}

static void a_firm_order_costs_no_more_than_missing_it(void **state)
{
    Better *better = *state;
    Problem *other = &better->other;
    Arena *arena = &better->demo.arena;
    int count = other->order_count;
    PlanOrder *orders = ARENA_ARRAY(arena, PlanOrder, count + 1);
    memcpy(orders, other->orders, (size_t)count * sizeof *orders);
    int model = 0;
    while (!orders[model].is_firm) {
        model++;
    }
    PlanOrder order = orders[model];
    order.id = "one more";
    order.wanted = raised(better, order.wanted, 6.3, false);
    orders[count] = order;
    other->orders = orders;
    other->order_count = count + 1;
    double missing = 0.0;
    for (int t = 0; t < other->week_count; t++) {
        missing += order.miss * order.wanted[t];
    }
    double value = value_from_plan(better);
    assert_true(value >= better->plan.outcome.value - missing - ROUNDING);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(more_outlet_room_never_lowers_the_value,
                               copy_problem),
        cmocka_unit_test_setup(hours_already_paid_never_lower_the_value,
                               copy_problem),
        cmocka_unit_test_setup(more_beds_never_lower_the_value, copy_problem),
        cmocka_unit_test_setup(a_firm_order_costs_no_more_than_missing_it,
                               copy_problem),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
