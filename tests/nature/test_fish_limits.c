/* What fish bear. */
#include "check.h"

#include "nature/fish/limits.h"
#include "nature/water/ammonia.h"

static void fish_are_handled_in_mild_water_only(void **state)
{
    (void)state;
    assert_true(fish_may_grade(24.3, 5.4));
    assert_false(fish_may_grade(19.7, 6.5));
    assert_false(fish_may_grade(30.4, 6.5));
    assert_false(fish_may_grade(24.3, 4.8));
    assert_true(fish_may_catch(17.6));
    assert_false(fish_may_catch(16.6));
    assert_false(fish_may_catch(30.4));
    assert_int_equal(fish_weeks_between_handlings(), 4);
}

/* Abdalla & McNabb 1998: half growth at 0.73; LC50 1.36 at 3 g, 2.65 at 45 g.
 * Benli & Koksal: larvae 1.009. */
static void larger_fish_bear_more_ammonia(void **state)
{
    (void)state;
    FishAmmonia larva = fish_ammonia_limits(0.02);
    FishAmmonia small = fish_ammonia_limits(3.0);
    FishAmmonia large = fish_ammonia_limits(310.0);
    assert_near(larva.deadly_mg_l, 1.009, 0.005);
    assert_near(small.deadly_mg_l, 1.36, 1e-9);
    assert_near(large.deadly_mg_l, 2.65, 1e-9);
    assert_near(large.half_mg_l, 0.73, 1e-9);
    assert_near(large.caution_mg_l, water_ammonia_caution_mg_l(false), 0.0);
    assert_near(larva.caution_mg_l, water_ammonia_caution_mg_l(true), 0.0);
    for (double w = 0.01; w < 900.0; w *= 1.4) {
        FishAmmonia limits = fish_ammonia_limits(w);
        assert_true(limits.caution_mg_l < limits.half_mg_l);
        assert_true(limits.half_mg_l < limits.deadly_mg_l);
    }
}

/* 28.18 mg/L nitrite at 35 mg/L chloride, 44.67 at 70 (96 h LC50, 1.8 g). */
static void chloride_makes_nitrite_less_deadly(void **state)
{
    (void)state;
    assert_near(fish_nitrite_deadly_mg_l(35.0) / 0.30447, 28.18, 0.01);
    assert_near(fish_nitrite_deadly_mg_l(70.0) / 0.30447, 44.67, 0.01);
    assert_true(fish_nitrite_deadly_mg_l(0.0) > 1.0);
    assert_true(fish_nitrite_caution_mg_l(0.0) <
                fish_nitrite_caution_mg_l(30.0));
    assert_near(fish_nitrite_caution_mg_l(500.0), 1.0, 0.0);
}

static void oxygen_limits_follow_each_other(void **state)
{
    (void)state;
    assert_true(fish_oxygen_deadly_mg_l().value <
                fish_oxygen_danger_mg_l().value);
    assert_true(fish_oxygen_danger_mg_l().value <
                fish_oxygen_no_feed_mg_l().value);
    assert_true(fish_carbon_dioxide_mg_l().low >= 20.0);
    assert_true(fish_feed_after_netting_frac() < 1.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fish_are_handled_in_mild_water_only),
        cmocka_unit_test(larger_fish_bear_more_ammonia),
        cmocka_unit_test(chloride_makes_nitrite_less_deadly),
        cmocka_unit_test(oxygen_limits_follow_each_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
