/* Head lost and pump power against printed examples. */
#include "check.h"

#include "nature/flow/pipe.h"

/* Crane TP-410M, example 7.1: 200 L/min of 30 degC water in 50 mm (52.7 mm
 * bore) smooth pipe: Re 100,600, f 0.0179. */
static void smooth_pipe_example_of_a_handbook_holds(void **state)
{
    (void)state;
    Pipe pipe = {.flow_m3_h = 12.0,
                 .bore_mm = 52.7,
                 .length_m = 20.0,
                 .temp_degc = 30.0};
    assert_near(flow_reynolds(&pipe), 100600.0, 0.01 * 100600.0);
    assert_near(flow_friction(100600.0, 0.0), 0.0179, 0.01 * 0.0179);
}

/* Colebrook at Re 1e5, relative roughness 1e-4 as printed by the documentation
 * of a fluid library: 0.018513866; laminar 64/Re. */
static void friction_factor_solves_colebrook(void **state)
{
    (void)state;
    assert_near(flow_friction(1e5, 1e-4), 0.018513866, 1e-8);
    assert_near(flow_friction(1600.0, 1e-3), 0.04, 1e-12);
    double before = flow_friction(2000.0, 1e-4);
    for (double re = 2100.0; re < 4100.0; re += 100.0) {
        double here = flow_friction(re, 1e-4);
        assert_true(fabs(here - before) < 0.002); /* no jump */
        before = here;
    }
}

/* Worked from the printed equation, not a published answer. */
static void hazen_williams_gives_its_worked_values(void **state)
{
    (void)state;
    static const double WANT[][5] = {
        /* m3/h, mm, m, C, head m */
        {12.0, 50.0, 20.0, 150.0, 1.117},
        {2.0, 25.0, 10.0, 150.0, 0.592},
        {5.0, 40.0, 30.0, 150.0, 0.982},
        {360.0, 300.0, 1000.0, 100.0, 10.44},
    };
    for (int i = 0; i < 4; i++) {
        Pipe pipe = {.flow_m3_h = WANT[i][0],
                     .bore_mm = WANT[i][1],
                     .length_m = WANT[i][2],
                     .hazen_c = WANT[i][3]};
        assert_near(flow_head_hazen_m(&pipe), WANT[i][4], 0.003 * WANT[i][4]);
    }
}

static void the_two_methods_agree_within_seven_per_cent(void **state)
{
    (void)state;
    Pipe pipe = {.flow_m3_h = 12.0,
                 .bore_mm = 50.0,
                 .length_m = 20.0,
                 .roughness_mm = 0.0015,
                 .hazen_c = 150.0,
                 .temp_degc = 30.0};
    double darcy_m = flow_head_darcy_m(&pipe);
    assert_near(darcy_m, 1.045, 0.02);
    assert_near(flow_head_hazen_m(&pipe) / darcy_m, 1.0, 0.075);
    pipe.flow_m3_h = 0.0;
    assert_near(flow_head_darcy_m(&pipe), 0.0, 0.0);
}

/* Crane TP-410, example 7.34: 700 gpm, 428 ft, pump 70.7 %: 107.06 hp brake. */
static void pump_power_matches_a_handbook_example(void **state)
{
    (void)state;
    double m3_h = 700.0 * 3.785411784 * 60.0 / 1000.0;
    double head_m = 428.0 * 0.3048;
    assert_near(flow_pump_w(m3_h, head_m, 0.707) / 745.7, 107.06, 0.002 * 107);
    double electric_hp = flow_pump_w(m3_h, head_m, 0.707 * 0.95 * 0.96) / 745.7;
    assert_near(electric_hp * 0.7457 * 8000.0 * 0.12, 83970.0, 0.003 * 83970);
}

/* Documentation of a fluid library: 1338.867 Pa/m for 0.8 mm grains. */
static void gravel_loses_the_pressure_ergun_says(void **state)
{
    (void)state;
    Grain fine = {0.8, 0.4, 1e-3, 1000.0, 1e-3};
    assert_near(flow_gravel_pa_m(&fine), 1338.867, 0.01);
    Grain pebbles = {10.0, 0.4, 2e-3, 1000.0, 1e-3};
    assert_near(flow_gravel_pa_m(&pebbles) / 9806.65, 0.0024, 1e-4);
}

/* Tables of water: 1.002 mPa s at 20 degC, 0.798 at 30 (standard texts). */
static void water_thins_as_it_warms(void **state)
{
    (void)state;
    assert_near(flow_viscosity_pa_s(20.0), 1.002e-3, 0.025e-3);
    assert_near(flow_viscosity_pa_s(30.0), 0.798e-3, 0.02e-3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(smooth_pipe_example_of_a_handbook_holds),
        cmocka_unit_test(friction_factor_solves_colebrook),
        cmocka_unit_test(hazen_williams_gives_its_worked_values),
        cmocka_unit_test(the_two_methods_agree_within_seven_per_cent),
        cmocka_unit_test(pump_power_matches_a_handbook_example),
        cmocka_unit_test(gravel_loses_the_pressure_ergun_says),
        cmocka_unit_test(water_thins_as_it_warms),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
