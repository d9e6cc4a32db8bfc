/* Water moved between loops and to waste in the coupled hour. The farm is
 * invented. */
#include "hour_farms.h"

enum { SPRING_D = 91 }; /* March, April, May */

static HourTables two_loops(void)
{
    HourTables tables = hour_tables_usual();
    tables.loops = "L,3.2,well\nM,2.3,well\n";
    tables.tanks = "A,L,grow,5.5,2,yes,thick,\nB,M,grow,3.1,2,no,some,T\n";
    tables.pumps = "P,L,10.4,185,0.31\nQ,M,4.7,90,1\n";
    tables.readings = "A,,2027-03-01T07:30+00:00,temp_degc,20.1\n"
                      ",L,2027-02-26T16:00+00:00,nitrate_mg_l,140\n"
                      ",M,2027-02-26T16:00+00:00,nitrate_mg_l,12\n";
    return tables;
}

/* Runs spring with a link or none. */
static void run_linked(Arena *arena, const Link *link, HourRun *out)
{
    HourTables tables = two_loops();
    Book *book = ARENA_NEW(arena, Book);
    ClimateYear *year = ARENA_NEW(arena, ClimateYear);
    assert_ok(book_load(arena, book));
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *hour_farm_of(arena, &tables);
    Link *row = ARENA_NEW(arena, Link);
    if (link) {
        *row = *link;
        farm->links = row;
        farm->links_count = 1;
    }
    out->farm = farm;
    assert_ok(climate_year_run(farm, book, arena, year));
    HourAsk ask = {farm, book, year, week_of(farm->farm->records_from),
                   hour_usual_care()};
    assert_ok(hour_farm_make(&ask, arena, &out->hours));
    assert_ok(hour_state_make(out->hours, arena, &out->state));
    out->weather = ARENA_ARRAY(arena, HourWeather, SPRING_D * 24);
    hour_typical_weather(out->hours, 0, SPRING_D * 24, out->weather);
    hour_days_make(out->hours, SPRING_D, arena, &out->days);
    hour_run(out->hours, out->state, out->weather, &out->days);
    assert_true(out->days.worst_residual_frac <= 1e-9);
}

static const Link TRANSFER = {.id = "t",
                              .kind = LINK_TRANSFER,
                              .from_tank = -1,
                              .from_loop = 0,
                              .to_tank = -1,
                              .to_loop = 1,
                              .months = MONTHS_ALL,
                              .flow_m3_d = 0.7};

static double nitrate(const HourRun *run, int loop, int day)
{
    return run->days.loops[day * 2 + loop].element_g_m3[HOUR_N];
}

static void a_transfer_carries_what_is_dissolved(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourRun apart, linked;
    run_linked(&arena, NULL, &apart);
    run_linked(&arena, &TRANSFER, &linked);
    assert_true(nitrate(&linked, 1, 30) > nitrate(&apart, 1, 30) + 10.0);
    assert_true(nitrate(&linked, 0, 30) < nitrate(&apart, 0, 30) - 5.0);
    /* The one is topped up with what it gave, the other spills it. */
    double given = 0.7 * SPRING_D;
    assert_near(linked.days.ledger.out[LEDGER_WATER_M3] -
                    apart.days.ledger.out[LEDGER_WATER_M3],
                given, 0.05 * given);
    assert_near(linked.days.ledger.in[LEDGER_WATER_M3] -
                    apart.days.ledger.in[LEDGER_WATER_M3],
                given, 0.05 * given);
}

static void it_is_shut_outside_its_months(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourRun apart, april;
    Link link = TRANSFER;
    link.months = 1u << 3;
    run_linked(&arena, NULL, &apart);
    run_linked(&arena, &link, &april);
    assert_near(nitrate(&april, 1, 29), nitrate(&apart, 1, 29), 1e-12);
    assert_true(nitrate(&april, 1, 59) > nitrate(&apart, 1, 59) + 10.0);
    double top_up = 0.0;
    for (int day = 63; day < SPRING_D; day++) {
        top_up += april.days.loops[day * 2].top_up_m3 -
                  apart.days.loops[day * 2].top_up_m3;
    }
    assert_near(top_up, 0.0, 0.05);
}

static void a_drain_exchanges_water(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourRun kept, drained;
    Link drain = TRANSFER;
    drain.kind = LINK_DRAIN;
    drain.to_loop = -1;
    drain.flow_m3_d = 1.1;
    run_linked(&arena, NULL, &kept);
    run_linked(&arena, &drain, &drained);
    assert_true(nitrate(&drained, 0, 60) < 0.6 * nitrate(&kept, 0, 60));
    assert_near(nitrate(&drained, 1, 60), nitrate(&kept, 1, 60), 0.05);
    assert_true(drained.days.loops[0].lost_g[HOUR_N] >
                kept.days.loops[0].lost_g[HOUR_N] + 50.0);
}

static void a_tank_takes_it_and_overflows_into_its_sump(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourRun apart, linked;
    Link link = TRANSFER;
    link.to_loop = -1;
    link.to_tank = 1;
    run_linked(&arena, NULL, &apart);
    run_linked(&arena, &link, &linked);
    assert_true(nitrate(&linked, 1, 30) > nitrate(&apart, 1, 30) + 10.0);
    for (int day = 0; day < SPRING_D; day++) {
        assert_true(isfinite(linked.days.loops[day * 2 + 1].temp_degc));
    }
}

/* More than there is: a fifth of the vessel in an hour at the most. */
static void a_flow_beyond_all_measure_stays_finite(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourRun run;
    Link link = TRANSFER;
    link.flow_m3_d = 90000.0;
    run_linked(&arena, &link, &run);
    for (int i = 0; i < SPRING_D * 2; i++) {
        const HourLoopDay *day = &run.days.loops[i];
        assert_true(isfinite(day->temp_degc + day->ph + day->tan_g_m3));
    }
    link.kind = LINK_DRAIN;
    link.to_loop = -1;
    run_linked(&arena, &link, &run);
    assert_true(isfinite(run.days.loops[SPRING_D].ph));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_transfer_carries_what_is_dissolved),
        cmocka_unit_test(it_is_shut_outside_its_months),
        cmocka_unit_test(a_drain_exchanges_water),
        cmocka_unit_test(a_tank_takes_it_and_overflows_into_its_sump),
        cmocka_unit_test(a_flow_beyond_all_measure_stays_finite),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
