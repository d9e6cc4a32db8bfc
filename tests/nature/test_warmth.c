/* The table of what depends on temperature, against the functions it is made
 * from; pH by Newton against pH by bisection. */
#include "nature/water/warmth.h"

#include "nature/water/ammonia.h"
#include "nature/water/carbonate.h"
#include "nature/water/oxygen.h"

#include "check.h"

static const WarmthCase USUAL = {101.325, 0.004, 450.0, 1.05};

static void rows_are_those_of_the_functions(void **state)
{
    (void)state;
    WarmthTable table;
    warmth_fill(&USUAL, &table);
    for (double degc = 0.13; degc < 45.0; degc += 1.37) {
        WaterWarmth at = warmth_at(&table, degc);
        OxygenWater water = {degc, 101.325, 0.0};
        double oxygen = water_oxygen_saturation_mg_l(&water);
        assert_near(at.oxygen_g_m3 / oxygen, 1.0, 1e-4);
        double nh3 = water_unionised_frac(degc, 7.8);
        double a = pow(10.0, -7.8);
        assert_near(at.ammonia / (at.ammonia + a) / nh3, 1.0, 2e-4);
        assert_near(at.film / pow(1.027, degc - 20.0), 1.0, 1e-5);
    }
}

static void ph_is_that_of_the_bisection(void **state)
{
    (void)state;
    WarmthTable table;
    warmth_fill(&USUAL, &table);
    for (double degc = 4.0; degc < 36.0; degc += 8.0) {
        WaterWarmth at = warmth_at(&table, degc);
        CarbonateConstants k = carbonate_constants(degc, 0.004);
        for (double alk = 0.05; alk < 8.0; alk *= 2.7) {
            for (double ratio = 0.93; ratio < 2.0; ratio *= 1.11) {
                CarbonateWater want =
                    carbonate_solve(&k, alk / 1000.0, alk * ratio / 1000.0);
                PhPoint got = warmth_ph(&at, alk, alk * ratio, 1e-7);
                assert_near(-log10(got.a), want.ph, 1e-3);
                assert_near(got.co2_mol_m3, 1000.0 * want.co2_mol_l,
                            1e-5 + 2e-3 * 1000.0 * want.co2_mol_l);
            }
        }
    }
}

/* From pH 3 or 11, from no carbon, from less alkalinity than none. */
static void ph_is_found_from_far_and_from_nothing(void **state)
{
    (void)state;
    WarmthTable table;
    warmth_fill(&USUAL, &table);
    WaterWarmth at = warmth_at(&table, 23.7);
    for (double near = 1e-12; near < 2e-3; near *= 31.0) {
        assert_near(-log10(warmth_ph(&at, 2.0, 2.1, near).a),
                    -log10(warmth_ph(&at, 2.0, 2.1, 1e-8).a), 1e-6);
        assert_true(isfinite(warmth_ph(&at, -0.4, 0.0, near).a));
        assert_true(isfinite(warmth_ph(&at, 0.0, 0.0, near).co2_mol_m3));
        assert_near(-log10(warmth_ph(&at, -9.0, 0.0, near).a), 3.0, 0.6);
    }
}

static void the_slope_is_that_of_a_small_change(void **state)
{
    (void)state;
    WarmthTable table;
    warmth_fill(&USUAL, &table);
    WaterWarmth at = warmth_at(&table, 21.0);
    for (double dic = 1.5; dic < 3.0; dic += 0.17) {
        PhPoint here = warmth_ph(&at, 2.0, dic, 1e-8);
        here = warmth_ph(&at, 2.0, dic, here.a);
        PhPoint low = warmth_ph(&at, 2.0, dic - 1e-5, here.a);
        PhPoint high = warmth_ph(&at, 2.0, dic + 1e-5, here.a);
        double slope = (high.co2_mol_m3 - low.co2_mol_m3) / 2e-5;
        assert_near(here.slope, slope, 1e-4);
        assert_true(here.slope > 0.0 && here.slope < 1.0);
    }
}

/* Pure water with CO2 of 10^-2 atm and calcite at 25 degC: 3.245 meq/L, 3.576
 * mmol/L, pH 7.295, Ca 1.623 mmol/L. Source: [PHREEQC3] example 3A. */
static void calcite_rests_where_the_published_water_does(void **state)
{
    (void)state;
    WarmthTable table;
    WarmthCase strong = {101.325, 0.00483, 10000.0, 1.05};
    warmth_fill(&strong, &table);
    WaterWarmth at = warmth_at(&table, 25.0);
    PhPoint got = warmth_ph(&at, 3.245, 3.576, 1e-7);
    assert_near(-log10(got.a), 7.295, 0.01);
    assert_near(got.co2_mol_m3, 0.340, 0.007);
    assert_near(at.co2_mol_m3, 0.340, 0.007);
    double carbonate = got.co2_mol_m3 * at.k12 / (got.a * got.a);
    assert_near(carbonate * 1.623 / at.calcite, 1.0, 0.05);
}

static void carbon_from_ph_gives_the_ph_back(void **state)
{
    (void)state;
    WarmthTable table;
    warmth_fill(&USUAL, &table);
    WaterWarmth at = warmth_at(&table, 17.3);
    for (double ph = 5.2; ph < 9.5; ph += 0.43) {
        double dic = warmth_dic(&at, 1.73, ph);
        assert_near(-log10(warmth_ph(&at, 1.73, dic, 1e-7).a), ph, 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_those_of_the_functions),
        cmocka_unit_test(ph_is_that_of_the_bisection),
        cmocka_unit_test(ph_is_found_from_far_and_from_nothing),
        cmocka_unit_test(the_slope_is_that_of_a_small_change),
        cmocka_unit_test(calcite_rests_where_the_published_water_does),
        cmocka_unit_test(carbon_from_ph_gives_the_ph_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
