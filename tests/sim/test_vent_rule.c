/* The grower's rules for openings and fleece: alone, and obeyed by the typical
 * year and by the coupled hour. The farm is invented. */
#include "hour_farms.h"

#include "sim/vent_rule.h"

static Book the_book(Arena *arena)
{
    Book book;
    assert_ok(book_load(arena, &book));
    return book;
}

/* A row of the table with every cell blank that may be. */
static Tunnel blank_row(void)
{
    Tunnel row = {.length_m = 24,
                  .width_m = 7,
                  .height_m = 3.1,
                  .vent_m2 = 31,
                  .floor_degc = -1,
                  .shut_wind_m_s = -1,
                  .shut_outside_degc = -41,
                  .fleece_degc = -21,
                  .fleece_months = MONTHS_ALL};
    for (int m = 0; m < VENT_MONTHS; m++) {
        row.midday_h[m] = -1;
    }
    return row;
}

static const VentHour MORNING = {.month = 3,
                                 .hour = 9,
                                 .night_degc = 7.3,
                                 .outside_degc = 13.1,
                                 .wind_m_s = 3.4};

static void blanks_are_the_books_two_warmths(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = the_book(&arena);
    Tunnel row = blank_row();
    VentRule rule = vent_rule_of(&row, book.common);
    TunnelHouse house = tunnel_house_of(24, 7, 3.1);
    VentHour hour = MORNING;
    assert_false(vent_rule_set(&rule, &hour, &house));
    assert_near(house.vent_at_degc, book.common->tunnel_vent_degc.value, 1e-12);
    hour.night_degc = 15.9;
    (void)vent_rule_set(&rule, &hour, &house);
    assert_near(house.vent_at_degc, book.common->tunnel_vent_mild_degc.value,
                1e-12);
    assert_near(house.vent_most_frac, 1.0, 1e-12);
    assert_false(vent_rule_fleeced(&rule, 0, -18.0));
    assert_false(rule.has_midday || rule.has_floor);
}

static void open_above_stays_open_down_to_close_below(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = the_book(&arena);
    Tunnel row = blank_row();
    row.open_degc = 23.5;
    row.close_degc = 17.2;
    VentRule rule = vent_rule_of(&row, book.common);
    TunnelHouse house = tunnel_house_of(24, 7, 3.1);
    VentHour hour = MORNING;
    (void)vent_rule_set(&rule, &hour, &house);
    assert_near(house.vent_at_degc, 23.5, 1e-12);
    hour.was_open = true;
    (void)vent_rule_set(&rule, &hour, &house);
    assert_near(house.vent_at_degc, 17.2, 1e-12);
}

static void wind_and_frost_keep_it_shut(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = the_book(&arena);
    Tunnel row = blank_row();
    row.shut_wind_m_s = 9.5;
    row.shut_outside_degc = 0.5;
    row.midday_h[3] = 4;
    VentRule rule = vent_rule_of(&row, book.common);
    TunnelHouse house = tunnel_house_of(24, 7, 3.1);
    VentHour hour = MORNING;
    hour.wind_m_s = 9.6;
    assert_false(vent_rule_set(&rule, &hour, &house));
    assert_near(house.vent_most_frac, 0.0, 1e-12);
    hour.wind_m_s = 3.4;
    hour.outside_degc = 0.4;
    hour.hour = 12;
    assert_false(vent_rule_set(&rule, &hour, &house));
    assert_near(house.vent_most_frac, 0.0, 1e-12);
    hour.outside_degc = 0.6;
    assert_true(vent_rule_set(&rule, &hour, &house));
}

static void midday_hours_are_those_about_one_o_clock(void **state)
{
    (void)state;
    double sum = 0.0;
    for (int hour = 0; hour < 24; hour++) {
        sum += vent_midday_share(2.5, hour);
    }
    assert_near(sum, 2.5, 1e-12);
    assert_near(vent_midday_share(2, 12), 1.0, 1e-12);
    assert_near(vent_midday_share(2, 13), 1.0, 1e-12);
    assert_near(vent_midday_share(2, 14), 0.0, 1e-12);
    assert_near(vent_midday_share(1, 12), 0.5, 1e-12);
    assert_near(vent_midday_share(0, 12), 0.0, 1e-12);
}

/* Two sets of openings at different heights draw in still air; sides alone
 * hardly do. [KITTAS1997] */
static void a_ridge_draws_in_still_air(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Book book = the_book(&arena);
    Tunnel row = blank_row();
    row.side_m2 = 24;
    TunnelHouse sides = tunnel_house_of(24, 7, 3.1);
    vent_rule_openings(&row, book.common, &sides);
    assert_near(sides.vent_m2, 24, 1e-12);
    row.side_m2 = 16;
    row.ridge_m2 = 8;
    TunnelHouse both = tunnel_house_of(24, 7, 3.1);
    vent_rule_openings(&row, book.common, &both);
    assert_near(both.ridge_over_m, 2.6, 1e-12);
    TunnelHouse *houses[2] = {&sides, &both};
    double air[2];
    for (int i = 0; i < 2; i++) {
        houses[i]->cover_w_m2_k = 6.5;
        houses[i]->vent_pass_frac = 0.5;
        houses[i]->ground_w_m2_k = 5;
        houses[i]->vent_at_degc = 20;
        houses[i]->pressure_kpa = 100;
        TunnelState now = {25, 22, 20};
        TunnelHour noon = {.step_s = 3600,
                           .outside_degc = 24,
                           .vapour_kpa = 1.4,
                           .wind_m_s = 0,
                           .clear_frac = 1,
                           .sun_w_m2 = 430};
        TunnelBeds none = {NULL, 0};
        TunnelFlows flows = tunnel_step(houses[i], &noon, &none, &now);
        assert_near(tunnel_flows_residual_w(&flows), 0, 1e-6);
        assert_near(flows.vent_frac, 1.0, 1e-12);
        air[i] = now.air_degc;
    }
    assert_true(air[1] < air[0] - 0.5);
}

/* ---- Obeyed ---------------------------------------------------------------
 */

typedef struct Case {
    const Farm *farm;
    ClimateYear year;
    HourRun run;
} Case;

/* The usual farm with a row of tunnels as told; a winter from 1 March on is not
 * enough: the year is run whole. */
static void run_case(Arena *arena, const Tunnel *like, Case *out)
{
    HourTables tables = hour_tables_usual();
    Book *book = ARENA_NEW(arena, Book);
    assert_ok(book_load(arena, book));
    const Farm *farm = hour_farm_of(arena, &tables);
    Tunnel *row = &farm->tunnels[0];
    row->open_degc = like->open_degc;
    row->close_degc = like->close_degc;
    row->floor_degc = like->floor_degc;
    row->shut_wind_m_s = like->shut_wind_m_s;
    row->shut_outside_degc = like->shut_outside_degc;
    row->fleece_degc = like->fleece_degc;
    memcpy(row->midday_h, like->midday_h, sizeof row->midday_h);
    out->farm = farm;
    assert_ok(climate_year_run(farm, book, arena, &out->year));
    HourAsk ask = {farm, book, &out->year, week_of(farm->farm->records_from),
                   hour_usual_care()};
    HourRun *run = &out->run;
    assert_ok(hour_farm_make(&ask, arena, &run->hours));
    assert_ok(hour_state_make(run->hours, arena, &run->state));
    run->weather = ARENA_ARRAY(arena, HourWeather, 364 * 24);
    hour_typical_weather(run->hours, 0, 364 * 24, run->weather);
    hour_days_make(run->hours, 364, arena, &run->days);
    hour_run(run->hours, run->state, run->weather, &run->days);
    assert_true(run->days.worst_residual_frac <= 1e-9);
    assert_near(out->year.ledger.residual_kwh / out->year.ledger.sun_kwh, 0,
                1e-9);
}

static double mean(const double *days, int from, int until)
{
    double sum = 0.0;
    for (int d = from; d < until; d++) {
        sum += days[d] / (until - from);
    }
    return sum;
}

/* Means of December (days 275 to 305 from 1 March) in the coupled hour. */
static double december(const Case *of, double (*value)(const HourTunnelDay *))
{
    double sum = 0.0;
    for (int d = 275; d < 306; d++) {
        sum += value(&of->run.days.tunnels[d]) / 31.0;
    }
    return sum;
}

static double wet_h(const HourTunnelDay *day)
{
    return day->wet_h;
}

static double rh_frac(const HourTunnelDay *day)
{
    return day->rh_frac;
}

static double least_degc(const HourTunnelDay *day)
{
    return day->air_least_degc;
}

static double most_degc(const HourTunnelDay *day)
{
    return day->air_most_degc;
}

static void two_hours_at_midday_dry_a_winter_tunnel(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Tunnel row = blank_row();
    Case usual, aired, floored;
    run_case(&arena, &row, &usual);
    for (int m = 0; m < VENT_MONTHS; m++) {
        row.midday_h[m] = 2;
    }
    run_case(&arena, &row, &aired);
    /* The day is drier; the night's dew comes back with the gravel's vapour and
     * the cold, so that hours of wet leaves hardly change. */
    assert_true(mean(aired.year.tunnels[0].rh_frac, 0, 31) <
                mean(usual.year.tunnels[0].rh_frac, 0, 31) - 0.01);
    assert_true(december(&aired, rh_frac) < december(&usual, rh_frac) - 0.01);
    assert_near(december(&aired, wet_h), december(&usual, wet_h), 0.5);
    assert_true(december(&aired, most_degc) < december(&usual, most_degc));
    /* A floor near the usual warmth leaves less to open for. */
    row.floor_degc = 19;
    run_case(&arena, &row, &floored);
    assert_true(mean(floored.year.tunnels[0].max_degc, 0, 31) >
                mean(aired.year.tunnels[0].max_degc, 0, 31) + 0.5);
}

static void a_higher_opening_is_warmer_and_shut_the_warmest(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Tunnel row = blank_row();
    Case low, high, shut;
    row.open_degc = 18;
    run_case(&arena, &row, &low);
    row.open_degc = 28;
    run_case(&arena, &row, &high);
    row.shut_wind_m_s = 1; /* always more */
    run_case(&arena, &row, &shut);
    double low_k = mean(low.year.tunnels[0].max_degc, 60, 120);
    double high_k = mean(high.year.tunnels[0].max_degc, 60, 120);
    assert_true(high_k > low_k + 3.0);
    assert_true(mean(shut.year.tunnels[0].max_degc, 60, 120) > high_k + 1.5);
    double hour_low = 0, hour_high = 0, hour_shut = 0;
    for (int d = 0; d < 60; d++) {
        hour_low += low.run.days.tunnels[d].air_most_degc / 60.0;
        hour_high += high.run.days.tunnels[d].air_most_degc / 60.0;
        hour_shut += shut.run.days.tunnels[d].air_most_degc / 60.0;
    }
    assert_true(hour_high > hour_low + 3.0 && hour_shut > hour_high + 1.5);
    assert_true(hour_air_of(shut.run.state, 0).vent_m3_s <= 0.0);
}

static void shut_later_in_the_day_than_opened(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Tunnel row = blank_row();
    Case one, two;
    row.open_degc = 24;
    run_case(&arena, &row, &one);
    row.close_degc = 15;
    run_case(&arena, &row, &two);
    assert_true(mean(two.year.tunnels[0].mean_degc, 60, 120) <
                mean(one.year.tunnels[0].mean_degc, 60, 120) - 0.3);
}

static void fleece_lifts_the_crops_night_only(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Tunnel row = blank_row();
    Case bare, under;
    run_case(&arena, &row, &bare);
    row.fleece_degc = 6;
    run_case(&arena, &row, &under);
    Book book = the_book(&arena);
    double over_k = book.common->fleece_over_k.value;
    const ClimateTunnel *a = &bare.year.tunnels[0];
    const ClimateTunnel *b = &under.year.tunnels[0];
    for (int d = 0; d < CLIMATE_DAYS; d++) {
        assert_near(a->crop_min_degc[d], a->min_degc[d], 1e-12);
        assert_near(b->min_degc[d], a->min_degc[d], 1e-12);
        double lifted = fmin(a->min_degc[d] + over_k, 6.0);
        double want = a->min_degc[d] < 6.0 ? lifted : a->min_degc[d];
        /* An hour just over the limit may be the coldest then. */
        assert_true(b->crop_min_degc[d] >= a->min_degc[d] - 1e-12);
        assert_true(b->crop_min_degc[d] <= a->min_degc[d] + over_k + 1e-12);
        assert_true(b->crop_min_degc[d] >= want - 1e-12);
    }
    assert_near(december(&under, least_degc), december(&bare, least_degc),
                1e-9);
}

static void vents_can_be_held(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &tables, &care, 60, &run);
    HourState *state_of[3];
    double least[3];
    for (int i = 0; i < 3; i++) {
        assert_ok(hour_state_make(run.hours, &arena, &state_of[i]));
        hour_state_copy(run.hours, run.state, state_of[i]);
        hour_hold_vents(state_of[i], 0, i / 2.0);
        HourWeather weather[24];
        hour_typical_weather(run.hours, hour_state_hours(run.state), 24,
                             weather);
        least[i] = 0.0;
        for (int h = 0; h < 24; h++) {
            HourLedger ledger;
            hour_step(run.hours, state_of[i], &weather[h], &ledger);
            assert_true(hour_ledger_residual_frac(&ledger, LEDGER_HEAT_MJ) <
                        1e-9);
            HourAir air = hour_air_of(state_of[i], 0);
            assert_near(air.vent_frac, i / 2.0, 1e-12);
            least[i] += air.air_degc / 24.0;
        }
    }
    assert_true(least[0] > least[1] + 1.0 && least[1] > least[2] + 0.1);
}

/* [SAVAGE1980]: in clear, calm weather a tunnel is the colder one from
 * sunset until its film is wet, and the warmer one at dawn. The usual farm
 * in a clear week of April. */
static void a_clear_evening_is_colder_inside_than_its_dawn(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    HourTables tables = hour_tables_usual();
    HourCare care = hour_usual_care();
    HourRun run;
    hour_run_of(&arena, &tables, &care, 35, &run);
    double evening_k = 0.0, dawn_k = 0.0;
    int dry = 0, wet = 0;
    for (int hour = 0; hour < 7 * 24; hour++) {
        HourWeather now;
        hour_typical_weather(run.hours, hour_state_hours(run.state), 1, &now);
        now.clear_frac = 1.0;
        now.wind_m_s = 0.6;
        HourLedger ledger;
        hour_step(run.hours, run.state, &now, &ledger);
        assert_true(hour_ledger_residual_frac(&ledger, LEDGER_HEAT_MJ) < 1e-9);
        HourAir air = hour_air_of(run.state, 0);
        double over_k = air.air_degc - now.outside_degc;
        if (hour % 24 == 19 || hour % 24 == 20) {
            evening_k += over_k / 14.0;
            dry += !air.is_film_wet;
        }
        if (hour % 24 == 4 || hour % 24 == 5) {
            dawn_k += over_k / 14.0;
            wet += air.is_film_wet;
        }
    }
    assert_true(evening_k < dawn_k - 0.3);
    /* Warm water in the beds keeps it over the air outside all the same;
     * outside/test_tunnel_nights.c has the tunnel that was measured. */
    assert_true(dry > 7 && wet > 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blanks_are_the_books_two_warmths),
        cmocka_unit_test(open_above_stays_open_down_to_close_below),
        cmocka_unit_test(wind_and_frost_keep_it_shut),
        cmocka_unit_test(midday_hours_are_those_about_one_o_clock),
        cmocka_unit_test(a_ridge_draws_in_still_air),
        cmocka_unit_test(two_hours_at_midday_dry_a_winter_tunnel),
        cmocka_unit_test(a_higher_opening_is_warmer_and_shut_the_warmest),
        cmocka_unit_test(shut_later_in_the_day_than_opened),
        cmocka_unit_test(fleece_lifts_the_crops_night_only),
        cmocka_unit_test(vents_can_be_held),
        cmocka_unit_test(a_clear_evening_is_colder_inside_than_its_dawn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
