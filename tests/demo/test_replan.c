/* On the demo: a plan accepted and worked by for six weeks, and a tray of
 * seedlings that failed; and a plan over a longer span. */
#include "measures.h"

#include "base/date.h"
#include "farm/seedlings.h"
#include "journal/fold.h"
#include "plan/change.h"
#include "plan/evaluate.h"
#include "plan/search.h"
#include "plan/verify.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum { WEEKS = 36, LONGER = 40, FEW_MOVES = 60000, MORE_MOVES = 30000 };
enum { SIX_WEEKS = 42, KEPT = 3 };

/* A search from a plan, evaluated and verified. */
static void search_from(Demo *demo, const PlanYear *year,
                        const PlanSolution *from, int keep_weeks,
                        PlanSolution *out)
{
    SearchSetup setup = {
        .seed = 3, .moves = MORE_MOVES, .from = from, .keep_weeks = keep_weeks};
    Search *search = search_open(&demo->arena, &year->problem, &setup);
    while (search_step(search)) {
    }
    double faults = 0.0;
    (void)search_take(search, &demo->arena, out, &faults);
    assert_true(faults < 0.5);
    assert_ok(plan_evaluate(&year->problem, out, &demo->arena, &out->outcome));
    VerifyReport report;
    plan_verify(&year->problem, out, &demo->arena, &report);
    assert_int_equal(report.count, 0);
}

/* The farm six weeks on, the plan taken as done. */
static Farm *later(Demo *demo, const PlanSolution *plan)
{
    Arena *arena = &demo->arena;
    const PlanYear *year = &demo->year;
    Farm *accepted = ARENA_NEW(arena, Farm);
    PlanStamp stamp = {.accepted_on = year->index.from, .book = "0"};
    plan_record(&year->inputs, &year->problem, &year->index, plan, &stamp,
                arena, accepted);
    Farm *farm = ARENA_NEW(arena, Farm);
    bool is_assumed = false;
    assert_ok(journal_farm_on(accepted, year->index.from + SIX_WEEKS, arena,
                              farm, &is_assumed));
    assert_true(is_assumed);
    return farm;
}

static void take_row(Farm *farm, int row, int *out_rows)
{
    farm->plants_count--;
    for (int i = row; i < farm->plants_count; i++) {
        farm->plants[i] = farm->plants[i + 1];
    }
    for (int i = 0; i < farm->plan_plants_count; i++) {
        int32_t *standing = &farm->plan_plants[i].standing;
        *out_rows += *standing == row;
        *standing = *standing == row ? -1 : *standing - (*standing > row);
    }
}

/* Takes all seedlings of the way that was sown last; the way. *out_rows:
 * batches of the plan that were to be set from them. */
static int32_t lose_seedlings(Farm *farm, int *out_rows)
{
    int32_t way = -1;
    for (int i = farm->plants_count - 1; i >= 0; i--) {
        const Plant *row = &farm->plants[i];
        if (seedlings_are(row) && (way < 0 || row->way == way)) {
            way = row->way;
            take_row(farm, i, out_rows);
        }
    }
    return way;
}

static int held(const PlanSolution *solution, const PlanPlacement *placed)
{
    int units = 0;
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *other = &solution->placements[i];
        bool is_it = other->option == placed->option &&
                     other->bed == placed->bed &&
                     other->first_section <= placed->first_section &&
                     other->first_section + other->units >=
                         placed->first_section + placed->units;
        units += is_it ? placed->units : 0;
    }
    return units;
}

static void what_people_work_by_stays_and_what_changes_is_told(void **state)
{
    (void)state;
    Demo demo;
    PlanSolution plan = {0};
    demo_open(DEMO_DIR, WEEKS, &demo);
    short_plan(&demo, FEW_MOVES, &plan);
    Farm *farm = later(&demo, &plan);
    int lost = 0;
    int32_t way = lose_seedlings(farm, &lost);
    assert_true(way >= 0 && lost > 0);
    PlanYear year;
    PlanInputs wanted = {.from = demo.year.index.from + SIX_WEEKS,
                         .weeks = WEEKS - SIX_WEEKS / 7};
    assert_ok(plan_year_make(farm, &wanted, &demo.arena, &year));
    PlanSolution before = {0}, after = {0};
    int left_out = 0;
    plan_recall(&year.inputs, &year.problem, &year.index, &demo.arena, &before,
                &left_out);
    assert_int_equal(left_out, lost);
    assert_ok(
        plan_evaluate(&year.problem, &before, &demo.arena, &before.outcome));
    search_from(&demo, &year, &before, KEPT, &after);
    int kept = 0;
    for (int i = 0; i < before.placement_count; i++) {
        const PlanPlacement *placed = &before.placements[i];
        const PlanOption *option = &year.problem.options[placed->option];
        int begun = option->trays_of > 0 ? option->set_week : option->sow_week;
        if (option->is_standing || begun >= KEPT) {
            continue;
        }
        assert_int_equal(held(&after, placed), placed->units);
        kept++;
    }
    assert_true(kept > 3);
    PlanChange change;
    plan_change(&year.problem, &before, left_out, &after, &demo.arena, &change);
    assert_int_equal(change.left_out, lost);
    assert_true(change.added + change.dropped > 0);
    /* Most of what is further ahead stays too: changes have their price. */
    assert_true(change.stayed > 2 * (change.added + change.dropped));
    double money = 0.0;
    for (int i = 0; i < change.sale_count; i++) {
        money += change.sales[i].money;
    }
    double gained = after.outcome.value - before.outcome.value;
    print_message("lost %s; %d stay, %d come, %d go; sales %+.0f of %+.0f\n",
                  year.problem.way_names[way], change.stayed, change.added,
                  change.dropped, money, gained);
    assert_true(gained >= 0.0);
    demo_close(&demo);
}

/* Sales less misses, seed and extra hours of the first weeks. */
static double value_until(const Problem *problem, const PlanSolution *plan,
                          int until)
{
    double value = 0.0;
    int weeks = problem->week_count;
    for (int t = 0; t < until; t++) {
        for (int o = 0; o < problem->order_count; o++) {
            const PlanOrder *order = &problem->orders[o];
            double kept = plan->outcome.kept[o * weeks + t];
            value += kept * order->price[t] -
                     order->miss * (order->wanted[t] - kept);
        }
        for (int j = 0; j < problem->outlet_count; j++) {
            value += plan->outcome.sold[j * weeks + t] *
                     problem->outlets[j].price[t];
        }
        value -= plan->outcome.extra_h[t] * problem->wage_extra_h;
    }
    return value;
}

static void a_longer_span_changes_the_first_half_year_little(void **state)
{
    (void)state;
    enum { HALF_YEAR = 26 };
    Demo shorter, longer;
    PlanSolution plan = {0}, begun = {0}, found = {0};
    demo_open(DEMO_DIR, WEEKS, &shorter);
    short_plan(&shorter, FEW_MOVES, &plan);
    Farm *accepted = ARENA_NEW(&shorter.arena, Farm);
    PlanStamp stamp = {.accepted_on = shorter.year.index.from, .book = "0"};
    plan_record(&shorter.year.inputs, &shorter.year.problem,
                &shorter.year.index, &plan, &stamp, &shorter.arena, accepted);
    demo_open(DEMO_DIR, LONGER, &longer);
    PlanInputs inputs = longer.year.inputs;
    inputs.farm = accepted;
    int left_out = 0;
    plan_recall(&inputs, &longer.year.problem, &longer.year.index,
                &longer.arena, &begun, &left_out);
    assert_int_equal(left_out, 0);
    search_from(&longer, &longer.year, &begun, 0, &found);
    double before = value_until(&shorter.year.problem, &plan, HALF_YEAR);
    double after = value_until(&longer.year.problem, &found, HALF_YEAR);
    print_message("first half year: %.0f, over a longer span %.0f\n", before,
                  after);
    assert_near(after, before, 0.02 * before);
    demo_close(&longer);
    demo_close(&shorter);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_people_work_by_stays_and_what_changes_is_told),
        cmocka_unit_test(a_longer_span_changes_the_first_half_year_little),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
