/* From feed to ammonia to nitrate. */
#include "check.h"

#include "nature/water/nitrogen.h"

/* Timmons & Ebeling's rule (value from memory): 29.4 g per kg of 32 % feed. The
 * rule of 25 g per kg, SEEN in hatchery notes, is the low end. */
static void feed_makes_ammonia_by_its_protein(void **state)
{
    (void)state;
    Figure tan = water_feed_tan_kg_kg(0.32);
    assert_near(tan.value, 0.0294, 1e-4);
    assert_near(tan.low, 0.025, 1e-6);
    assert_near(100.0 * water_feed_tan_kg_kg(0.38).value, 3.50, 0.005);
    assert_true(tan.low < tan.value && tan.value < tan.high);
}

/* FAO 589, appendix 4 (values from memory): 200 g/d at 32 % make 7.5 g of
 * ammonia, which at 0.57 g/m2/d needs 13.1 m2, or 44 L at 300 m2/m3. */
static void sizing_example_of_fao_589_holds(void **state)
{
    (void)state;
    double ammonia_g = 1.2 * 200.0 * water_feed_tan_kg_kg(0.32).high;
    assert_near(ammonia_g, 7.5, 0.01 * 7.5);
    double surface_m2 = ammonia_g / 0.57;
    assert_near(surface_m2, 13.15, 0.15);
    assert_near(1000.0 * surface_m2 / 300.0, 44.0, 0.5);
}

/* By stoichiometry: 4.57 g O2 (printed by Zhu & Chen after USEPA 1975) and 7.14
 * g CaCO3 per g N; half of the latter comes back with uptake. */
static void nitrifying_takes_oxygen_and_alkalinity(void **state)
{
    (void)state;
    assert_near(water_nitrify_oxygen_g_g(), 4.57, 0.005);
    assert_near(water_nitrify_alkalinity_g_g(), 7.14, 0.01);
    assert_near(water_uptake_alkalinity_g_g(), 3.57, 0.005);
}

static NitrifyWater bed_water(double temp_degc, double ph)
{
    return (NitrifyWater){.temp_degc = temp_degc,
                          .tan_mg_l = 1.7,
                          .oxygen_mg_l = 5.6,
                          .ph = ph,
                          .clean_frac = 0.4};
}

/* Zhu & Chen 2002: 1.108 % per degC where oxygen limits, 4.275 % where ammonia
 * does, at 20 degC. */
static void warmth_speeds_films_by_one_to_four_per_cent(void **state)
{
    (void)state;
    NitrifyWater cool = bed_water(20.0, 7.0);
    NitrifyWater warm = bed_water(21.0, 7.0);
    Figure a = water_nitrify_g_m2_d(&cool);
    Figure b = water_nitrify_g_m2_d(&warm);
    assert_near(100.0 * (b.low / a.low - 1.0), 1.108, 0.02);
    assert_near(100.0 * (b.high / a.high - 1.0), 4.275, 0.05);
}

/* Tyson et al. 2008: 19, 31, 80 g/m3/d at pH 6, 7, 8 in perlite; our low end
 * keeps their ratios. */
static void acid_water_slows_films_as_the_perlite_bed_did(void **state)
{
    (void)state;
    NitrifyWater six = bed_water(24.0, 6.0);
    NitrifyWater seven = bed_water(24.0, 7.0);
    NitrifyWater eight = bed_water(24.0, 8.0);
    double at_eight = water_nitrify_g_m2_d(&eight).low;
    assert_near(water_nitrify_g_m2_d(&six).low / at_eight, 19.0 / 80.0, 0.01);
    assert_near(water_nitrify_g_m2_d(&seven).low / at_eight, 31.0 / 80.0, 0.01);
}

/* Timmons & Ebeling (value from memory): 1-2 g/m2/d for clean films at 25-30
 * degC. FAO 589's 0.57 g/m2/d lies in the range of a bed that keeps its solids.
 */
static void rates_lie_where_published_ones_do(void **state)
{
    (void)state;
    NitrifyWater clean = {.temp_degc = 27.5,
                          .tan_mg_l = 2.0,
                          .oxygen_mg_l = 6.0,
                          .ph = 7.4,
                          .clean_frac = 1.0};
    double rate = water_nitrify_g_m2_d(&clean).value;
    assert_true(rate > 1.0 && rate < 2.0);
    NitrifyWater bed = bed_water(25.0, 7.0);
    Figure figure = water_nitrify_g_m2_d(&bed);
    assert_true(figure.low < 0.57 && 0.57 < figure.high);
    assert_true(figure.value > 0.2 && figure.value < 1.0);
}

static void nothing_is_turned_without_ammonia_or_oxygen(void **state)
{
    (void)state;
    NitrifyWater water = bed_water(25.0, 7.0);
    water.tan_mg_l = 0.0;
    assert_near(water_nitrify_g_m2_d(&water).high, 0.0, 0.0);
    water = bed_water(25.0, 7.0);
    water.oxygen_mg_l = 0.0;
    assert_near(water_nitrify_g_m2_d(&water).high, 0.0, 0.0);
}

static void fine_gravel_is_held_by_its_volume(void **state)
{
    (void)state;
    NitrifyWater water = bed_water(26.0, 7.4);
    Figure coarse = water_bed_carries_g_d(&water, 2.3, 69.0);
    Figure fine = water_bed_carries_g_d(&water, 2.3, 2000.0);
    assert_near(coarse.value, 2.3 * 69.0 * water_nitrify_g_m2_d(&water).value,
                1e-9);
    assert_near(fine.value, 2.3 * water_nitrify_most_g_m3_d().value, 1e-9);
    assert_near(water_gravel_surface_m2_m3(0.4, 20.0), 180.0, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(feed_makes_ammonia_by_its_protein),
        cmocka_unit_test(sizing_example_of_fao_589_holds),
        cmocka_unit_test(nitrifying_takes_oxygen_and_alkalinity),
        cmocka_unit_test(warmth_speeds_films_by_one_to_four_per_cent),
        cmocka_unit_test(acid_water_slows_films_as_the_perlite_bed_did),
        cmocka_unit_test(rates_lie_where_published_ones_do),
        cmocka_unit_test(nothing_is_turned_without_ammonia_or_oxygen),
        cmocka_unit_test(fine_gravel_is_held_by_its_volume),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
