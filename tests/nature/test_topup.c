/* Top-up water and iron. */
#include "check.h"

#include "nature/water/topup.h"

/* Common practice of the trade: 33 m3 to 2 mg/L with an 11 % chelate: 600 g. */
static void iron_follows_the_label_strength(void **state)
{
    (void)state;
    assert_near(water_iron_dose_g(33.0, 2.0, 0.11), 600.0, 1e-9);
    assert_near(water_iron_dose_g(33.0, 2.0, 0.06), 1100.0, 1e-9);
}

/* Closing property: mixed at the limit, the water holds just the limit. */
static void mixing_at_the_limit_gives_the_limit(void **state)
{
    (void)state;
    TopUp top_up = {.volume_m3 = 11.7,
                    .tank_degc = 26.3,
                    .source_degc = 15.9,
                    .chlorine_mg_l = 0.31,
                    .chlorine_most_mg_l = water_chlorine_most_mg_l(),
                    .change_most_degc = water_change_most_degc()};
    TopUpLimit limit;
    assert_ok(water_top_up_limit(&top_up, &limit));
    double x = limit.by_chlorine_m3;
    assert_near(x * 0.31 / (x + 11.7), 0.01, 1e-12);
    x = limit.by_temperature_m3;
    assert_near((11.7 * 26.3 + x * 15.9) / (x + 11.7), 25.3, 1e-9);
    assert_near(limit.most_m3, fmin(limit.by_chlorine_m3, x), 0.0);
}

static void clean_water_of_the_same_warmth_has_no_limit(void **state)
{
    (void)state;
    TopUp top_up = {.volume_m3 = 3.3,
                    .tank_degc = 24.0,
                    .source_degc = 24.4,
                    .chlorine_most_mg_l = 0.01,
                    .change_most_degc = 1.0};
    TopUpLimit limit;
    assert_ok(water_top_up_limit(&top_up, &limit));
    assert_true(isinf(limit.most_m3));
    top_up.change_most_degc = 0.0;
    assert_err(water_top_up_limit(&top_up, &limit), ERR_RANGE, "above 0");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(iron_follows_the_label_strength),
        cmocka_unit_test(mixing_at_the_limit_gives_the_limit),
        cmocka_unit_test(clean_water_of_the_same_warmth_has_no_limit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
