/* One flood and drain of beds. */
#include "check.h"

#include "nature/flow/bed_cycle.h"
#include "nature/flow/outlet.h"

static BedCycle small_bed(double drain_mm)
{
    return (BedCycle){.area_m2 = 2.0,
                      .depth_m = 0.25,
                      .porosity_frac = 0.4,
                      .flow_m3_h = 0.8,
                      .drain_mm = drain_mm,
                      .sump_m3 = 1.5,
                      .beds_in_step = 6};
}

/* Worked from the equation, not a published answer: 200 L; 15 min at 800 L/h;
 * 10.2, 6.2 and 4.0 min through 25, 32 and 40 mm. */
static void a_bed_fills_and_drains_in_the_worked_minutes(void **state)
{
    (void)state;
    static const double MM[] = {25, 32, 40};
    static const double MIN[] = {10.2, 6.2, 4.0};
    for (int i = 0; i < 3; i++) {
        BedCycle cycle = small_bed(MM[i]);
        BedTimes times;
        assert_ok(flow_bed_cycle(&cycle, &times));
        assert_near(times.bed_m3, 0.200, 1e-12);
        assert_near(times.fill_min, 15.0, 1e-9);
        assert_near(times.drain_min, MIN[i], 0.06);
        assert_near(times.left_m3, 0.3, 1e-9);
    }
}

/* 24 floods a day of 0.25 m at porosity 0.4 are 2.4 m/d. */
static void an_hourly_flood_loads_the_bed_with_two_metres_a_day(void **state)
{
    (void)state;
    BedCycle cycle = small_bed(25.0);
    BedTimes times;
    assert_ok(flow_bed_cycle(&cycle, &times));
    double minutes = times.fill_min + times.drain_min;
    assert_near(times.loading_m_d * minutes / 60.0, 2.4, 1e-9);
}

/* The closed form against small steps of the same equation. */
static void an_open_drain_slows_the_filling_as_stepping_does(void **state)
{
    (void)state;
    BedCycle cycle = small_bed(12.0);
    cycle.bleed_frac = 1.0;
    BedTimes times;
    assert_ok(flow_bed_cycle(&cycle, &times));
    double depth = 0.0;
    double hours = 0.0;
    const double step_h = 1e-6;
    while (depth < cycle.depth_m) {
        double out_m3_h = flow_orifice_m3_h(12.0, depth);
        depth += step_h * (cycle.flow_m3_h - out_m3_h) /
                 (cycle.area_m2 * cycle.porosity_frac);
        hours += step_h;
    }
    assert_near(times.fill_min, 60.0 * hours, 0.005);
    assert_true(times.fill_min > 15.0);
}

static void a_bed_that_never_fills_is_refused(void **state)
{
    (void)state;
    BedCycle cycle = small_bed(40.0);
    cycle.bleed_frac = 1.0;
    BedTimes times;
    assert_err(flow_bed_cycle(&cycle, &times), ERR_RANGE, "never fills");
    cycle = small_bed(0.0);
    assert_err(flow_bed_cycle(&cycle, &times), ERR_RANGE, "never drains");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_bed_fills_and_drains_in_the_worked_minutes),
        cmocka_unit_test(an_hourly_flood_loads_the_bed_with_two_metres_a_day),
        cmocka_unit_test(an_open_drain_slows_the_filling_as_stepping_does),
        cmocka_unit_test(a_bed_that_never_fills_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
