/* What air and beds carry. */
#include "pond.h"

#include "nature/water/nitrogen.h"
#include "nature/water/oxygen.h"
#include "sim/carries.h"

static void air_is_shared_by_volume_and_a_tanks_own_comes_on_top(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = pond(&arena, false);
    OxygenWater water = {24.6, water_pressure_kpa(0.0), 0.0};
    AirTransfer blower = {0.18 * 0.9, 0.9, 0.98};
    double blower_g_h = 1000.0 * water_air_gives_kg_h(&blower, &water, 5.0);
    double flow_g_h =
        9.0 * 0.3333 * (0.9 * water_oxygen_saturation_mg_l(&water) - 5.0);
    double in_a = carries_oxygen_g_h(farm, 0, 24.6);
    assert_near(in_a, (blower_g_h + flow_g_h) * 6.0 / 9.0, 1e-9);
    AirTransfer stone = {0.04 * 0.9, 0.9, 0.98};
    double own_g_h = 1000.0 * water_air_gives_kg_h(&stone, &water, 5.0);
    assert_near(carries_oxygen_g_h(farm, 1, 24.6),
                (blower_g_h + flow_g_h) * 3.0 / 9.0 + own_g_h, 1e-9);
    assert_near(carries_oxygen_g_h(farm, 3, 24.6), 0.0, 0.0);
    assert_true(carries_oxygen_g_h(farm, 0, 29.0) < in_a);
}

static void beds_carry_by_gravel_hours_and_warmth(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Farm *farm = pond(&arena, false);
    Book book;
    assert_ok(book_load(&arena, &book));
    Figure spring =
        carries_tan_g_d(farm, &book, 0, pond_day(2027, 4, 12), 25.0);
    const BookGravel *gravel = book_gravel(&book, "gravel-8-20");
    double m3 = 2.4 * 1.2 * 0.25;
    double film = gravel->nitrify_g_m2_d.value * gravel->surface_m2_m3.value;
    assert_near(spring.value,
                m3 * fmin(film, water_nitrify_most_g_m3_d().value), 1e-9);
    assert_true(spring.low < spring.value && spring.value < spring.high);
    /* The second bed stands from June; winter floods by day only. */
    Figure summer =
        carries_tan_g_d(farm, &book, 0, pond_day(2027, 7, 12), 25.0);
    assert_near(summer.value, 2.0 * spring.value, 1e-9);
    Figure winter =
        carries_tan_g_d(farm, &book, 0, pond_day(2027, 12, 6), 25.0);
    assert_near(winter.value, summer.value * 10.0 / 24.0, 1e-9);
    Figure cold = carries_tan_g_d(farm, &book, 0, pond_day(2027, 4, 12), 15.0);
    assert_true(cold.value < spring.value);
    Figure none = carries_tan_g_d(farm, &book, 1, pond_day(2027, 4, 12), 25.0);
    assert_near(none.value, 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_is_shared_by_volume_and_a_tanks_own_comes_on_top),
        cmocka_unit_test(beds_carry_by_gravel_hours_and_warmth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
