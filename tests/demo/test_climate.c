/* The demo farm's typical year has the shapes that its description promises. */
#include "desk/check_farm.h"
#include "farm/book.h"
#include "sim/climate_year.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

typedef struct Demo {
    Arena arena;
    const Farm *farm;
    Book book;
    ClimateYear year;
} Demo;

static int set_up(void **state)
{
    static Demo demo;
    demo = (Demo){0};
    assert_ok(check_farm_load(DEMO_DIR, &demo.arena, &demo.farm));
    assert_ok(book_load(&demo.arena, &demo.book));
    assert_ok(climate_year_run(demo.farm, &demo.book, &demo.arena, &demo.year));
    *state = &demo;
    return 0;
}

static int tear_down(void **state)
{
    Demo *demo = *state;
    arena_release(&demo->arena);
    return 0;
}

static double mean_of(const double *days, int from, int to)
{
    double sum = 0;
    for (int day = from; day < to; day++) {
        sum += days[day];
    }
    return sum / (to - from);
}

static void winter_nights_inside_are_a_little_milder(void **state)
{
    Demo *demo = *state;
    for (int32_t i = 0; i < demo->farm->tunnels_count; i++) {
        double over = mean_of(demo->year.tunnels[i].min_degc, 0, 59) -
                      mean_of(demo->year.outside_min_degc, 0, 59);
        assert_true(over > 0.5 && over < 3.5);
    }
}

static void summer_days_inside_are_hot_but_vented(void **state)
{
    Demo *demo = *state;
    for (int32_t i = 0; i < demo->farm->tunnels_count; i++) {
        for (int day = 181; day < 243; day++) {
            double max = demo->year.tunnels[i].max_degc[day];
            assert_true(max > 30 && max < 38);
        }
    }
}

/* The floor holds but for some morning hours of winter, when cold gravel takes
 * the first floods. */
static void water_is_kept_at_its_floor_in_winter(void **state)
{
    Demo *demo = *state;
    for (int32_t i = 0; i < demo->farm->loops_count; i++) {
        for (int day = 0; day < CLIMATE_DAYS; day++) {
            assert_true(demo->year.loops[i].mean_degc[day] > 19.5);
            assert_true(demo->year.loops[i].min_degc[day] > 17);
        }
        double kwh_d = mean_of(demo->year.loops[i].heater_kwh, 0, 31);
        assert_true(kwh_d > 20 && kwh_d < 200);
        assert_near(mean_of(demo->year.loops[i].heater_kwh, 181, 243), 0, 1e-9);
    }
}

static void water_is_warm_in_summer(void **state)
{
    Demo *demo = *state;
    for (int32_t i = 0; i < demo->farm->loops_count; i++) {
        double summer = mean_of(demo->year.loops[i].mean_degc, 151, 243);
        assert_true(summer > 24 && summer < 28.5);
    }
}

static void breeders_are_kept_warmer_by_their_own_heater(void **state)
{
    Demo *demo = *state;
    for (int32_t i = 0; i < demo->farm->tanks_count; i++) {
        if (demo->farm->tanks[i].use == TANK_BREEDERS) {
            assert_true(mean_of(demo->year.tanks[i].mean_degc, 0, 59) > 25);
        }
    }
}

static void the_years_heat_closes(void **state)
{
    Demo *demo = *state;
    assert_true(fabs(demo->year.ledger.residual_kwh) <
                1e-9 * demo->year.ledger.sun_kwh);
    assert_true(fabs(demo->year.ledger.stored_kwh) <
                1e-4 * demo->year.ledger.sun_kwh);
}

/* Leaves are wet at night and in the morning of the short days, dry in summer
 * when vents stand open. */
static void winter_is_damp_and_summer_dries_the_leaves(void **state)
{
    Demo *demo = *state;
    for (int32_t i = 0; i < demo->farm->tunnels_count; i++) {
        const ClimateTunnel *air = &demo->year.tunnels[i];
        for (int day = 0; day < CLIMATE_DAYS; day++) {
            assert_true(air->rh_frac[day] > 0.3 && air->rh_frac[day] <= 1);
            assert_true(air->wet_h[day] >= 0 && air->wet_h[day] <= 24);
        }
        double winter_h = mean_of(air->wet_h, 0, 59);
        double summer_h = mean_of(air->wet_h, 181, 243);
        assert_true(winter_h > summer_h + 2);
        assert_true(mean_of(air->rh_frac, 0, 59) > 0.75);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(winter_nights_inside_are_a_little_milder),
        cmocka_unit_test(summer_days_inside_are_hot_but_vented),
        cmocka_unit_test(water_is_kept_at_its_floor_in_winter),
        cmocka_unit_test(water_is_warm_in_summer),
        cmocka_unit_test(breeders_are_kept_warmer_by_their_own_heater),
        cmocka_unit_test(the_years_heat_closes),
        cmocka_unit_test(winter_is_damp_and_summer_dries_the_leaves),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
