/* Oxygen that fish use and the minutes it leaves. */
#include "check.h"

#include "nature/fish/respiration.h"

/* Worked from the regression printed in Sci. Rep. 11:24130 (2021). */
static void the_regression_gives_its_worked_values(void **state)
{
    (void)state;
    static const double WANT[][3] = {
        {20, 24, 270}, {20, 28, 410},  {20, 32, 676},  {50, 26, 258},
        {50, 30, 435}, {100, 24, 154}, {100, 28, 227}, {100, 32, 425},
    };
    for (int i = 0; i < 8; i++) {
        assert_near(fish_oxygen_regression(WANT[i][0], WANT[i][1]), WANT[i][2],
                    1.0);
    }
}

/* Boyd's law for channel catfish (value from memory) at its worked values; it
 * is also the 420 mg/kg/h quoted for 290 g at 26 degC. */
static void boyd_gives_its_worked_values(void **state)
{
    (void)state;
    assert_near(fish_oxygen_boyd(100.0, 20.0), 367.0, 2.0);
    assert_near(fish_oxygen_boyd(100.0, 25.0), 535.0, 3.0);
    assert_near(fish_oxygen_boyd(100.0, 30.0), 781.0, 4.0);
    assert_near(fish_oxygen_boyd(500.0, 25.0), 308.0, 2.0);
    assert_near(fish_oxygen_boyd(290.0, 26.0), 420.0, 2.0);
}

/* Common practice of the trade: 290 g, 10.9 kg/m3, 26 degC, from 5.8 to 3 mg/L:
 * 86 to 37 minutes by source, 25 when just fed. */
static void heavy_fish_get_a_range_and_never_a_refusal(void **state)
{
    (void)state;
    OxygenStop stop = {.density_kg_m3 = 10.9,
                       .weight_g = 290.0,
                       .temp_degc = 26.0,
                       .oxygen_mg_l = 5.8,
                       .limit_mg_l = 3.0,
                       .hours_since_meal = 9.0};
    OxygenLeft left = fish_oxygen_left(&stop);
    assert_near(left.minutes.high, 86.0, 1.0);
    assert_near(left.minutes.low, 37.0, 1.0);
    assert_true(left.is_widened);
    stop.hours_since_meal = 1.0;
    assert_near(fish_oxygen_left(&stop).minutes.low, 24.5, 0.7);
    stop.weight_g = 2700.0;
    left = fish_oxygen_left(&stop);
    assert_true(isfinite(left.minutes.high) && left.minutes.low > 0.0);
    stop.oxygen_mg_l = 2.7;
    assert_near(fish_oxygen_left(&stop).minutes.high, 0.0, 0.0);
}

/* Worked: 6.5 to 2.0 mg/L at 40 kg/m3 and 250 mg/kg/h takes 27 min. */
static void minutes_follow_from_density_and_use(void **state)
{
    (void)state;
    OxygenStop stop = {.density_kg_m3 = 40.0,
                       .weight_g = 120.0,
                       .temp_degc = 27.0,
                       .oxygen_mg_l = 6.5,
                       .limit_mg_l = 2.0,
                       .hours_since_meal = 12.0};
    OxygenLeft left = fish_oxygen_left(&stop);
    double r = fish_oxygen_use(120.0, 27.0, 12.0).mg_kg_h.high;
    assert_near(left.minutes.low * r, 27.0 * 250.0, 1e-6);
    assert_false(left.is_widened);
    double without = left.minutes.low;
    stop.bacteria_mg_l_h = 2.4;
    assert_true(fish_oxygen_left(&stop).minutes.low < without);
}

static void the_range_is_ordered_everywhere(void **state)
{
    (void)state;
    for (double w = 0.5; w < 4000.0; w *= 1.7) {
        for (double t = 12.0; t < 37.0; t += 1.3) {
            OxygenUse use = fish_oxygen_use(w, t, 20.0);
            assert_true(use.mg_kg_h.low > 10.0);
            assert_true(use.mg_kg_h.low < use.mg_kg_h.value &&
                        use.mg_kg_h.value < use.mg_kg_h.high);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_regression_gives_its_worked_values),
        cmocka_unit_test(boyd_gives_its_worked_values),
        cmocka_unit_test(heavy_fish_get_a_range_and_never_a_refusal),
        cmocka_unit_test(minutes_follow_from_density_and_use),
        cmocka_unit_test(the_range_is_ordered_everywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
