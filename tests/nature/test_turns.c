/* Zones that flood in turn. */
#include "nature/flow/turns.h"

#include "nature/flow/bed_cycle.h"
#include "nature/flow/outlet.h"

#include "check.h"

/* Eight beds of 2.88 m2, porosity 0.42, flooded 0.25 m by 8 m3/h. */
static TurnZone usual(void)
{
    return (TurnZone){.space_m2 = 8 * 2.88 * 0.42,
                      .depth_m = 0.25,
                      .hole_m3_h = 8 * flow_orifice_m3_h(25.0, 1.0),
                      .turn_h = 20.0 / 60.0,
                      .flow_m3_h = 8.0};
}

/* 2.4192 m3 at 8 m3/h: 18.144 minutes, then 1.856 over the overflow. */
static void a_zone_fills_overflows_and_drains(void **state)
{
    (void)state;
    TurnZone zone = usual();
    TurnsCase turns = {&zone, 1, 4.0, 0.4};
    TurnTold told;
    TurnsTold all;
    flow_turns(&turns, &told, &all);
    assert_near(60.0 * told.fill_h, 18.144, 1e-9);
    assert_near(told.over_m3, 8.0 / 3.0 - 2.4192, 1e-9);
    assert_near(told.moved_m3, 8.0 / 3.0, 1e-9);
    assert_near(all.lowest_m3, 4.0 - 2.4192, 1e-9);
    assert_false(all.is_uncovered);
    assert_false(all.is_dry_together);
    /* The same drain as one bed's cycle has it. */
    BedCycle bed = {.area_m2 = 2.88,
                    .depth_m = 0.25,
                    .porosity_frac = 0.42,
                    .flow_m3_h = 1.0,
                    .drain_mm = 25.0,
                    .sump_m3 = 4.0,
                    .beds_in_step = 8};
    BedTimes times;
    assert_ok(flow_bed_cycle(&bed, &times));
    assert_near(60.0 * told.drain_h, times.drain_min, 1e-9);
}

/* What stands in a zone, summed by short steps. */
static void the_mean_standing_is_that_of_its_level_through_time(void **state)
{
    (void)state;
    TurnZone zones[3] = {usual(), usual(), usual()};
    zones[1].turn_h = 0.11; /* not filled */
    zones[2].depth_m = 0.07;
    TurnsCase turns = {zones, 3, 9.0, 0.4};
    TurnTold told[3];
    TurnsTold all;
    flow_turns(&turns, told, &all);
    for (int z = 0; z < 3; z++) {
        double level = 0.0, sum = 0.0, step_h = 1e-5;
        for (double t = 0.0; t < all.round_h; t += step_h) {
            if (t < zones[z].turn_h) {
                level += step_h * zones[z].flow_m3_h / zones[z].space_m2;
                level = fmin(level, zones[z].depth_m);
            } else {
                level -= step_h * zones[z].hole_m3_h * sqrt(fmax(level, 0.0)) /
                         zones[z].space_m2;
                level = fmax(level, 0.0);
            }
            sum += step_h * level * zones[z].space_m2;
        }
        assert_near(told[z].mean_m3, sum / all.round_h, 2e-3);
    }
    assert_near(all.round_h, 2.0 / 3.0 + 0.11, 1e-12);
}

static void a_small_sump_uncovers_its_intake(void **state)
{
    (void)state;
    TurnZone zone = usual();
    TurnsCase turns = {&zone, 1, 2.0, 0.3};
    TurnTold told;
    TurnsTold all;
    flow_turns(&turns, &told, &all);
    assert_true(told.is_short && all.is_uncovered);
    assert_near(all.lowest_m3, 0.3, 1e-9);
    assert_near(told.depth_m * zone.space_m2, 1.7, 1e-9);
}

/* After a power cut four timers start as one: 9.68 m3 out of a sump of 4. */
static void all_zones_in_step_run_the_sump_dry(void **state)
{
    (void)state;
    TurnZone zones[4] = {usual(), usual(), usual(), usual()};
    TurnsCase turns = {zones, 4, 4.0, 0.4};
    TurnTold told[4];
    TurnsTold all;
    flow_turns(&turns, told, &all);
    assert_false(all.is_uncovered);
    assert_true(all.is_dry_together);
    assert_near(all.together_m3, 4.0 - 4 * 2.4192, 1e-9);
    assert_near(all.dry_together_h, 3.6 / 8.0, 1e-9);
}

static void without_a_drain_or_a_flow_numbers_stay_finite(void **state)
{
    (void)state;
    TurnZone zones[2] = {usual(), usual()};
    zones[0].hole_m3_h = 0.0;
    zones[1].flow_m3_h = 0.0;
    TurnsCase turns = {zones, 2, 4.0, 0.4};
    TurnTold told[2];
    TurnsTold all;
    flow_turns(&turns, told, &all);
    assert_true(told[0].stays_wet);
    assert_true(isfinite(told[0].mean_m3) && told[0].mean_m3 < 2.42);
    assert_near(told[1].moved_m3, 0.0, 0.0);
    assert_near(told[1].mean_m3, 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_zone_fills_overflows_and_drains),
        cmocka_unit_test(the_mean_standing_is_that_of_its_level_through_time),
        cmocka_unit_test(a_small_sump_uncovers_its_intake),
        cmocka_unit_test(all_zones_in_step_run_the_sump_dry),
        cmocka_unit_test(without_a_drain_or_a_flow_numbers_stay_finite),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
