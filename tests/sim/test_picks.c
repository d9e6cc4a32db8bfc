/* Picks as a year comes: they wait, hurry, are cut young, end. */
#include "check.h"

#include "base/date.h"
#include "sim/picks.h"

static int32_t monday(int week)
{
    return date_from_civil((CivilDate){2027, 3, 1}) + 7 * week;
}

static PlantRule rule_of(WayShape shape)
{
    return (PlantRule){.shape = shape,
                       .first_pick_degc_d = {.value = 500.0},
                       .every_degc_d = 100.0,
                       .picks = 4.0,
                       .span_d = 63.0,
                       .stand_degc_d = 150.0,
                       .units = {.value = 2.0},
                       .chill_d = NAN,
                       .flow_start = 0.5,
                       .flow_rise = 0.3,
                       .flow_fall = 0.7,
                       .flow_end = 0.4};
}

/* Units of each of ten weeks in which growth rises evenly. */
static PickState run(const PickCase *is, double a_week, double units[10])
{
    PickState state = pick_start();
    for (int w = 0; w < 10; w++) {
        PickWeek week = {.monday = monday(w),
                         .from_degc_d = a_week * w,
                         .to_degc_d = a_week * (w + 1),
                         .quality_frac = 1.0};
        units[w] = pick_week(is, &week, &state);
    }
    return state;
}

static PickCase case_of(const PlantRule *rule)
{
    return (PickCase){.rule = rule,
                      .plants = 30.0,
                      .set_day = monday(0),
                      .clear_day = DATE_NEVER,
                      .pick_from = DATE_ALWAYS,
                      .pick_weeks = 2};
}

static void a_crop_of_one_pick_is_spread_over_its_weeks(void **state)
{
    (void)state;
    PlantRule rule = rule_of(SHAPE_ONCE);
    PickCase is = case_of(&rule);
    double units[10];
    /* 63 a week: 500 by 441 + 3/7 of 63 only in week 8 (504). */
    run(&is, 63.0, units);
    assert_near(units[7], 0.0, 0.0);
    assert_near(units[8], 1.0, 1e-12);
    assert_near(units[9], 1.0, 1e-12);
}

static void it_waits_for_its_planned_week_as_long_as_it_stands(void **state)
{
    (void)state;
    PlantRule rule = rule_of(SHAPE_ONCE);
    rule.stand_degc_d = 400.0;
    PickCase is = case_of(&rule);
    is.pick_from = monday(7);
    double units[10];
    run(&is, 90.0, units); /* ready in week 5 */
    assert_near(units[5] + units[6], 0.0, 0.0);
    assert_near(units[7], 1.0, 1e-12);
    /* Where it stands for less it is picked early and whole. */
    rule.stand_degc_d = 120.0;
    run(&is, 90.0, units); /* on the Monday of week 7: 630, over 620 */
    double all = 0.0;
    int first = -1;
    for (int w = 0; w < 10; w++) {
        all += units[w];
        first = first < 0 && units[w] > 0.0 ? w : first;
    }
    assert_near(all, 2.0, 1e-12);
    assert_int_equal(first, 6);
}

static void what_is_cleared_unripe_is_cut_young_or_lost(void **state)
{
    (void)state;
    PlantRule rule = rule_of(SHAPE_ONCE);
    PickCase is = case_of(&rule);
    double units[10];
    is.clear_day = monday(8);
    run(&is, 60.0, units); /* by Thursday of week 7: 445.7 of 500 */
    assert_near(units[7], 2.0 * (420.0 + 60.0 * 3.0 / 7.0) / 500.0, 1e-12);
    run(&is, 40.0, units); /* 297 of 500: nothing to sell */
    for (int w = 0; w < 10; w++) {
        assert_near(units[w], 0.0, 0.0);
    }
}

static void cuts_come_as_growth_does_and_no_more_than_there_are(void **state)
{
    (void)state;
    PlantRule rule = rule_of(SHAPE_CUTS);
    PickCase is = case_of(&rule);
    double units[10], all = 0.0;
    run(&is, 190.0, units); /* two cuts a week at most */
    for (int w = 0; w < 10; w++) {
        all += units[w];
    }
    assert_near(all, 8.0, 1e-12);
}

/* A flow that runs to its end gives all its picks, by its shape's mean of 1. */
static void a_flow_gives_all_its_picks(void **state)
{
    (void)state;
    PlantRule rule = rule_of(SHAPE_FLOW);
    PickCase is = case_of(&rule);
    double units[10], all = 0.0;
    PickState end = run(&is, 101.0, units);
    for (int w = 0; w < 10; w++) {
        all += units[w];
    }
    assert_near(all, 8.0, 0.5);
    assert_near(end.flow_degc_d, 400.0, 1e-9);
}

static void frost_chill_and_bolting_end_it(void **state)
{
    (void)state;
    PlantRule rule = rule_of(SHAPE_FLOW);
    rule.chill_d = 3.0;
    rule.bolt.heat_sum_degc_d = 40.0;
    PickCase is = case_of(&rule);
    PickWeek week = {.monday = monday(2), .quality_frac = 1.0};
    PickState frost = pick_start(), chill = pick_start(), bolt = pick_start();
    week.is_frost = true;
    (void)pick_week(&is, &week, &frost);
    assert_int_equal(frost.end, PLANT_FREEZES);
    week.is_frost = false;
    week.chill_d = 2.0;
    (void)pick_week(&is, &week, &chill);
    assert_int_equal(chill.end, PLANT_GROWS);
    (void)pick_week(&is, &week, &chill);
    assert_int_equal(chill.end, PLANT_CHILLS);
    week.chill_d = 0.0;
    week.heat_degc_d = 41.5;
    (void)pick_week(&is, &week, &bolt);
    assert_int_equal(bolt.end, PLANT_BOLTS);
    week.from_degc_d = 600.0;
    week.to_degc_d = 700.0;
    assert_near(pick_week(&is, &week, &bolt), 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_crop_of_one_pick_is_spread_over_its_weeks),
        cmocka_unit_test(it_waits_for_its_planned_week_as_long_as_it_stands),
        cmocka_unit_test(what_is_cleared_unripe_is_cut_young_or_lost),
        cmocka_unit_test(cuts_come_as_growth_does_and_no_more_than_there_are),
        cmocka_unit_test(a_flow_gives_all_its_picks),
        cmocka_unit_test(frost_chill_and_bolting_end_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
