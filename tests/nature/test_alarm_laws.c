/* Oxygen that falls, water that cools, and the widest range of what fish use.
 */
#include "check.h"

#include "nature/fish/oxygen_need.h"
#include "nature/fish/respiration.h"
#include "nature/heat/cooling.h"
#include "nature/water/oxygen_fall.h"

/* Without air: minutes from 6.5 to 2.0 mg/L by density and use, worked out by
 * hand as 60 x 4.5/(density x use/1000). */
static void still_water_falls_in_a_straight_line(void **state)
{
    (void)state;
    static const double CASES[][3] = {
        {10, 150, 180}, {20, 250, 54}, {40, 350, 19}, {60, 500, 9}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        OxygenFall fall = {.start_mg_l = 6.5,
                           .limit_mg_l = 2.0,
                           .full_mg_l = 8.3,
                           .use_mg_l_h = CASES[i][0] * CASES[i][1] / 1000.0};
        assert_near(60.0 * water_oxygen_fall_h(&fall), CASES[i][2], 0.5);
    }
}

/* The straight line of small steps comes to the closed form. */
static void the_closed_form_is_what_small_steps_come_to(void **state)
{
    (void)state;
    OxygenFall fall = {5.83, 2.11, 8.26, 0.37, 4.9};
    double hours = water_oxygen_fall_h(&fall);
    double c = fall.start_mg_l;
    enum { STEPS = 200000 };
    for (int i = 0; i < STEPS; i++) {
        c += hours / STEPS *
             (fall.transfer_1_h * (fall.full_mg_l - c) - fall.use_mg_l_h);
    }
    assert_near(c, fall.limit_mg_l, 1e-4);
    assert_near(water_oxygen_after_mg_l(&fall, hours), fall.limit_mg_l, 1e-9);
}

static void little_air_joins_no_air(void **state)
{
    (void)state;
    OxygenFall none = {5.83, 2.11, 8.26, 0.0, 4.9};
    OxygenFall little = none;
    little.transfer_1_h = 1e-7;
    assert_near(water_oxygen_fall_h(&little), water_oxygen_fall_h(&none), 1e-5);
    OxygenFall more = none;
    more.transfer_1_h = 0.2;
    assert_true(water_oxygen_fall_h(&more) > water_oxygen_fall_h(&none));
    more.transfer_1_h = 4.9 / (8.26 - 2.2);
    assert_true(isinf(water_oxygen_fall_h(&more)));
    more.start_mg_l = 1.7;
    assert_near(water_oxygen_fall_h(&more), 0.0, 0.0);
    none.use_mg_l_h = 0.0;
    assert_true(isinf(water_oxygen_fall_h(&none)));
}

/* 320 W at 0.9 kg/kWh in 6 m3: 288 g/h over 9.09 g/m3 and 6 m3. */
static void an_aerator_is_a_rate_of_its_tank(void **state)
{
    (void)state;
    AirTransfer air = {0.32 * 0.9, 0.7, 1.0};
    assert_near(water_air_rate_1_h(&air, 6.0), 0.7 * 288.0 / 54.54, 1e-3);
}

/* 1 m of water under 20 W/m2/K has a time constant of 58 h; after one of them
 * 1/e of the difference is left. */
static void water_cools_by_its_time_constant(void **state)
{
    (void)state;
    Cooling is = {.start_degc = 21.7,
                  .air_degc = 1.7,
                  .heat_j_k = 4.186e6,
                  .loss_w_k = 20.0};
    double hours = heat_cooling_h(&is, 1.7 + 20.0 / exp(1.0));
    assert_near(hours, 58.1, 0.1);
    assert_near(heat_cooled_degc(&is, hours), 1.7 + 20.0 / exp(1.0), 1e-9);
    assert_true(isinf(heat_cooling_h(&is, 1.2)));
    assert_near(heat_cooling_h(&is, 22.0), 0.0, 0.0);
    is.steady_w = 200.0; /* holds it ten degrees over the air */
    assert_true(isinf(heat_cooling_h(&is, 11.0)));
    is.loss_w_k = 0.0;
    assert_true(isinf(heat_cooling_h(&is, 20.0)));
}

/* 290 g at 26 degC fasted: 179 by the regression to 420 by Boyd's line, the
 * sources that a reckoning by hand takes. */
static void the_widest_range_holds_the_laws_at_one_temperature(void **state)
{
    (void)state;
    OxygenSpan at = {26.0, 26.0, 9.0};
    OxygenRate rate = fish_oxygen_rate_within(290.0, &at);
    assert_near(rate.high_mg_kg_h, 420.0, 5.0);
    assert_true(rate.low_mg_kg_h <= 179.0 && rate.low_mg_kg_h > 120.0);
    assert_true(rate.is_widened);
    OxygenSpan fed = {26.0, 26.0, -1.0};
    assert_near(fish_oxygen_rate_within(290.0, &fed).high_mg_kg_h,
                1.5 * rate.high_mg_kg_h, 1e-9);
}

static void warmer_water_never_lowers_what_fish_use(void **state)
{
    (void)state;
    static const double WEIGHTS[] = {0.03,  0.8,   23.7,   110.0, 151.0,
                                     290.0, 431.0, 1900.0, 7000.0};
    for (size_t i = 0; i < sizeof WEIGHTS / sizeof *WEIGHTS; i++) {
        OxygenRate last = {0};
        for (double t = 2.3; t < 43.0; t += 0.37) {
            OxygenSpan at = {t, t, 3.0};
            OxygenRate rate = fish_oxygen_rate_within(WEIGHTS[i], &at);
            assert_true(rate.low_mg_kg_h >= last.low_mg_kg_h);
            assert_true(rate.high_mg_kg_h >= last.high_mg_kg_h);
            assert_true(rate.low_mg_kg_h <= rate.high_mg_kg_h);
            assert_true(isfinite(rate.high_mg_kg_h));
            OxygenSpan wide = {t - 1.9, t + 1.9, 3.0};
            OxygenRate wider = fish_oxygen_rate_within(WEIGHTS[i], &wide);
            assert_true(wider.low_mg_kg_h <= rate.low_mg_kg_h);
            assert_true(wider.high_mg_kg_h >= rate.high_mg_kg_h);
            last = rate;
        }
    }
}

static void a_batch_uses_what_its_fish_use(void **state)
{
    (void)state;
    int count = 0;
    const FishSpecies *species = &fish_species_all(&count)[0];
    FishDraw draw = {
        .count = 183, .mean_g = 97.0, .cv_frac = 0.3, .sex = FISH_SEX_MALES};
    FishSlices slices = fish_slices_draw(&draw);
    OxygenSpan at = {25.4, 25.4, 12.0};
    OxygenNeed need = fish_oxygen_need(species, &slices, &at);
    double kg = fish_slices_kg(&slices);
    assert_true(need.low_g_h > 0.0 && need.low_g_h < need.high_g_h);
    OxygenRate mean = fish_oxygen_rate_within(97.0, &at);
    assert_near(need.high_g_h / kg, mean.high_mg_kg_h / 1000.0,
                0.1 * mean.high_mg_kg_h / 1000.0);
    FishSlices none = {0};
    assert_near(fish_oxygen_need(species, &none, &at).high_g_h, 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(still_water_falls_in_a_straight_line),
        cmocka_unit_test(the_closed_form_is_what_small_steps_come_to),
        cmocka_unit_test(little_air_joins_no_air),
        cmocka_unit_test(an_aerator_is_a_rate_of_its_tank),
        cmocka_unit_test(water_cools_by_its_time_constant),
        cmocka_unit_test(the_widest_range_holds_the_laws_at_one_temperature),
        cmocka_unit_test(warmer_water_never_lowers_what_fish_use),
        cmocka_unit_test(a_batch_uses_what_its_fish_use),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
