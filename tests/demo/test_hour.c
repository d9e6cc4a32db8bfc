/* The demo's year by the hour. */
#include "base/date.h"
#include "measures.h"
#include "sim/hour.h"

#include "check.h"

#ifndef DEMO_DIR
#error "the build tells where the demo is"
#endif

enum { YEAR_D = 364, FEW_MOVES = 20000 };

typedef struct Year {
    Demo demo;
    Farm farm; /* with a plan of few moves accepted */
    HourFarm *hours;
    HourState *state;
    HourDays days;
} Year;

static int set_up(void **state)
{
    static Year year;
    Demo *demo = &year.demo;
    demo_open(DEMO_DIR, 52, demo);
    PlanSolution plan;
    short_plan(demo, FEW_MOVES, &plan);
    PlanStamp stamp = {demo->year.index.from, 7, "x"};
    plan_record(&demo->year.inputs, &demo->year.problem, &demo->year.index,
                &plan, &stamp, &demo->arena, &year.farm);
    HourAsk ask = {&year.farm, demo->year.book, demo->year.inputs.climate,
                   demo->year.index.from, hour_usual_care()};
    Arena *arena = &demo->arena;
    assert_ok(hour_farm_make(&ask, arena, &year.hours));
    assert_ok(hour_state_make(year.hours, arena, &year.state));
    HourWeather *weather = ARENA_ARRAY(arena, HourWeather, YEAR_D * 24);
    hour_typical_weather(year.hours, 0, YEAR_D * 24, weather);
    hour_days_make(year.hours, YEAR_D, arena, &year.days);
    hour_run(year.hours, year.state, weather, &year.days);
    *state = &year;
    return 0;
}

static int tear_down(void **state)
{
    Year *demo = *state;
    demo_close(&demo->demo);
    return 0;
}

static void the_ledger_closes_in_every_hour_of_the_year(void **state)
{
    Year *demo = *state;
    assert_true(demo->days.worst_residual_frac <= 1e-9);
}

/* Zones of 2.42 m3 in turn: the sump of 4 m3 falls to 1.58 and no lower. */
static void the_sump_holds_out_in_turn_but_not_all_at_once(void **state)
{
    Year *demo = *state;
    HourFlood flood = hour_flood(demo->hours, 0, 5, 12);
    assert_near(flood.sump_lowest_m3, 1.58, 0.01);
    assert_false(flood.is_uncovered);
    assert_true(flood.is_dry_together);
    assert_true(flood.to_tanks_m3_h > 3.9 && flood.to_tanks_m3_h < 4.1);
}

static void the_first_days_are_near_what_was_read(void **state)
{
    Year *demo = *state;
    const HourLoopDay *first = &demo->days.loops[0];
    assert_near(first->alkalinity_mg_l, 110.0, 8.0);
    assert_near(first->nitrate_g_m3, 45.0, 5.0);
    assert_near(first->temp_degc, 20.2, 0.7);
    assert_true(first->tan_g_m3 < 0.6);
    for (int tank = 0; tank < 4; tank++) {
        const HourTankDay *day = &demo->days.tanks[tank];
        assert_true(day->oxygen_least_g_m3 > 5.5);
    }
}

static void the_boiler_holds_the_water_in_winter(void **state)
{
    Year *demo = *state;
    int loops = demo->farm.loops_count;
    for (int day = 280; day < 340; day++) {
        for (int i = 0; i < loops; i++) {
            const HourLoopDay *l = &demo->days.loops[day * loops + i];
            assert_true(l->temp_degc > 19.3);
            assert_true(l->heater_kwh > 0.0);
        }
    }
}

static void oxygen_is_lowest_in_the_hours_after_a_meal(void **state)
{
    Year *demo = *state;
    int tanks = demo->farm.tanks_count;
    int after = 0, days = 0;
    for (int day = 100; day < 200; day++) {
        const HourTankDay *a = &demo->days.tanks[day * tanks];
        days++;
        after += a->oxygen_least_hour >= 14 ? 1 : 0;
    }
    assert_true(after > days * 3 / 4);
}

/* The same moisture as in the typical year, hour by hour from another start. */
static void tunnels_are_damp_in_winter(void **state)
{
    Year *demo = *state;
    int tunnels = demo->farm.tunnels_count;
    double winter_h = 0.0, summer_h = 0.0;
    for (int day = 0; day < YEAR_D; day++) {
        const HourTunnelDay *is = &demo->days.tunnels[day * tunnels];
        assert_true(is->rh_frac > 0.3 && is->rh_frac <= 1.0 + 1e-9);
        assert_true(is->wet_h >= 0.0 && is->wet_h <= 24.0);
        winter_h += day >= 280 && day < 350 ? is->wet_h / 70.0 : 0.0;
        summer_h += day >= 110 && day < 180 ? is->wet_h / 70.0 : 0.0;
    }
    assert_true(winter_h > summer_h + 1.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_ledger_closes_in_every_hour_of_the_year),
        cmocka_unit_test(the_sump_holds_out_in_turn_but_not_all_at_once),
        cmocka_unit_test(the_first_days_are_near_what_was_read),
        cmocka_unit_test(the_boiler_holds_the_water_in_winter),
        cmocka_unit_test(tunnels_are_damp_in_winter),
        cmocka_unit_test(oxygen_is_lowest_in_the_hours_after_a_meal),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
