/* Heat through covers, vents and tanks, and the two steps. */
#include "nature/heat/exchange.h"
#include "nature/heat/tunnel.h"
#include "nature/heat/water.h"

#include "check.h"

/* [MIHARA1979]: at 1 m/s curtains saved 37 and 33 %. */
static void curtains_save_what_was_measured(void **state)
{
    (void)state;
    double glass = heat_cover_loss_w_m2_k(COVER_GLASS, 1);
    assert_near(glass, 1.163 * 4.81, 1e-9);
    assert_near(1 - heat_cover_loss_w_m2_k(COVER_GLASS_FILM_CURTAIN, 1) / glass,
                0.37, 5e-3);
    assert_near(1 - heat_cover_loss_w_m2_k(COVER_GLASS_PE_CURTAIN, 1) / glass,
                0.34, 0.015);
    assert_near(heat_cover_loss_at_w_m2_k(6.8, 2), 6.8, 1e-12);
    assert_true(heat_cover_loss_at_w_m2_k(6.8, 5) > 7.5);
    assert_true(heat_cover_loss_at_w_m2_k(4.2, 5) < 5);
}

/* Computed once with another program from the quoted forms. */
static void vents_pass_what_the_forms_say(void **state)
{
    (void)state;
    VentSet side = {.area_m2 = 10,
                    .height_m = 1,
                    .outside_degc = 293 - 273.15,
                    .excess_k = 5,
                    .wind_m_s = 2,
                    .discharge = 0.65,
                    .wind_effect = 0.09};
    assert_near(heat_vent_m3_s(&side), 2.165, 2e-3);
    VentSet roof = {.area_m2 = 10,
                    .height_m = 2,
                    .outside_degc = 298 - 273.15,
                    .excess_k = 5,
                    .wind_m_s = 1,
                    .discharge = 0.65,
                    .wind_effect = 0.10};
    assert_near(heat_vent_two_m3_s(&roof, 20), 5.636, 5e-3);
    roof.wind_m_s = 0;
    assert_near(heat_vent_two_m3_s(&roof, 20), 4.717, 5e-3);
    assert_near(heat_vent_chimney_m3_s(2, 2, 10, 293 - 273.15), 1.504, 2e-3);
    assert_near(heat_vent_wind_m3_s(10, 2, 0.55), 11, 1e-9);
    assert_near(heat_vent_two_m3_s(&(VentSet){.discharge = 0.65}, 0), 0, 1e-12);
}

/* [KITTAS1997]: wind takes over from the chimney once u / sqrt(dT) passes about
 * 1. With their openings' size a metre apart the two parts are equal at a ratio
 * within 0.5 to 1.8 over the coefficients in use. */
static void wind_takes_over_where_it_was_measured(void **state)
{
    (void)state;
    static const double effects[] = {0.07, 0.10, 0.14};
    for (size_t i = 0; i < 3; i++) {
        VentSet roof = {.area_m2 = 15,
                        .height_m = 2,
                        .outside_degc = 25,
                        .excess_k = 5,
                        .discharge = 0.65,
                        .wind_effect = effects[i]};
        double chimney = heat_vent_two_m3_s(&roof, 15);
        double low = 0, high = 20;
        for (int halving = 0; halving < 50; halving++) {
            VentSet windy = roof;
            windy.excess_k = 0;
            windy.wind_m_s = (low + high) / 2;
            if (heat_vent_two_m3_s(&windy, 15) > chimney) {
                high = windy.wind_m_s;
            } else {
                low = windy.wind_m_s;
            }
        }
        double ratio = high / sqrt(5);
        assert_true(ratio > 0.5 && ratio < 1.8);
    }
}

/* With dT 5 K and wind under 2.5 m/s, openings in roof and sides beat the roof
 * alone [KITTAS1997]. */
static void two_levels_beat_one_in_light_wind(void **state)
{
    (void)state;
    for (double wind = 0.1; wind < 2.5; wind += 0.3) {
        VentSet apart = {15, 2, 25, 5, wind, 0.65, 0.10};
        VentSet alone = {30, 1, 25, 5, wind, 0.65, 0.10};
        assert_true(heat_vent_two_m3_s(&apart, 15) > heat_vent_m3_s(&alone));
    }
}

/* Water of 24 degC in air of 10, RH 85 %, facing 8: computed once by hand from
 * the quoted forms: vapour 152, touch 73, radiation 84 W/m2. */
static void open_water_loses_as_worked_by_hand(void **state)
{
    (void)state;
    OpenWater water = {24, 10, 0.85 * 1.228, 0.1};
    assert_near(heat_open_vapour_w_m2(&water), 152, 1.5);
    assert_near(heat_open_touch_w_m2(&water), 73, 1.0);
    assert_near(heat_radiated_w_m2(24, 8), 84, 2.0);
}

static void lids_and_walls_keep_heat_in(void **state)
{
    (void)state;
    double best = heat_tank_loss_w_k(6, TANK_THICK, true);
    assert_true(heat_tank_loss_w_k(6, TANK_THICK, false) > best);
    assert_true(heat_tank_loss_w_k(6, TANK_SOME, true) > best);
    assert_true(heat_tank_loss_w_k(6, TANK_BARE, true) >
                heat_tank_loss_w_k(6, TANK_SOME, true));
    assert_near(heat_tank_loss_w_k(8 * 6, TANK_SOME, true) /
                    heat_tank_loss_w_k(6, TANK_SOME, true),
                4, 1e-9);
}

/* 1 m of water at 20 W/m2/K: 58 h; 1 m3 holds 1.163 kWh/K. */
static void water_is_slow(void **state)
{
    (void)state;
    assert_near(water_time_constant_h(1, 20), 58, 0.3);
    assert_near(HEAT_WATER_J_M3_K / 3.6e6, 1.163, 1e-3);
}

static void a_step_of_water_is_the_sum_of_its_parts(void **state)
{
    (void)state;
    WaterBody body = {.heat_j_k = 9.3e6,
                      .loss_w_k = 310,
                      .ambient_degc = 4.7,
                      .make_up_m3_h = 0.11,
                      .make_up_degc = 13.1,
                      .steady_w = 870};
    double once = 19.3, parts = 19.3;
    WaterFlows flows = water_heat_step(&body, 7200, &once);
    double lost_j = 0;
    for (int i = 0; i < 72000; i++) {
        WaterFlows part = water_heat_step(&body, 0.1, &parts);
        lost_j += part.loss_w * 0.1;
        assert_near(water_flows_residual_w(&part), 0, 1e-6);
    }
    assert_near(once, parts, 1e-6);
    assert_near(flows.loss_w * 7200 / lost_j, 1, 1e-6);
    assert_near(water_flows_residual_w(&flows), 0, 1e-6);
    /* An independent reckoning: Euler steps of a second. */
    double plain = 19.3;
    for (int i = 0; i < 7200; i++) {
        double out = 310 * (plain - 4.7) +
                     0.11 / 3600 * HEAT_WATER_J_M3_K * (plain - 13.1) - 870;
        plain -= out / 9.3e6;
    }
    assert_near(once, plain, 2e-3);
}

static void a_heater_holds_its_target_and_no_more(void **state)
{
    (void)state;
    WaterBody body = {.heat_j_k = 4.2e7,
                      .loss_w_k = 400,
                      .ambient_degc = 2.5,
                      .heaters = {{15000, 20, 0}, {4000, 18, 0}},
                      .heater_count = 2};
    double temp = 20;
    WaterFlows flows = water_heat_step(&body, 3600, &temp);
    assert_near(temp, 20, 1e-9);
    assert_near(flows.heater_w, 400 * 17.5, 1);
    assert_near(body.heaters[1].given_w, 0, 1e-9);
    temp = 9;
    flows = water_heat_step(&body, 3600, &temp);
    assert_near(flows.heater_w, 19000, 1e-9);
    temp = 25;
    flows = water_heat_step(&body, 3600, &temp);
    assert_near(flows.heater_w, 0, 1e-9);
    body.heater_count = 0;
    temp = 20;
    for (int i = 0; i < 3000; i++) {
        flows = water_heat_step(&body, 3600 * 5, &temp);
    }
    assert_near(temp, 2.5, 1e-6);
}

static void water_without_losses_keeps_its_heat(void **state)
{
    (void)state;
    WaterBody body = {.heat_j_k = 4.2e6, .steady_w = 100};
    double temp = 11.3;
    (void)water_heat_step(&body, 4200, &temp);
    assert_near(temp, 11.3 + 0.1, 1e-9);
}

static TunnelHouse demo_house(void)
{
    TunnelHouse house = tunnel_house_of(27, 7, 3.2);
    house.cover_w_m2_k = 6.8;
    house.sky_frac = 0.75;
    house.vent_pass_frac = 0.5;
    house.ground_w_m2_k = 5;
    house.vent_m2 = 38;
    house.vent_height_m = 1.2;
    house.vent_at_degc = 24;
    house.deep_degc = 16;
    house.pressure_kpa = 100.2;
    return house;
}

/* Half round, 9 x 30 m: floor 270, cover 488 m2, volume 954 m3. */
static void a_half_round_tunnel_has_its_size(void **state)
{
    (void)state;
    TunnelHouse house = tunnel_house_of(30, 9, 4.5);
    assert_near(house.floor_m2, 270, 1e-9);
    assert_near(house.cover_m2, 488, 0.5);
    assert_near(house.volume_m3, 954, 0.5);
}

/* [ASHRAE] design figure for one polyethylene film, 6.2-6.8 W/m2/K, and 1-3 air
 * changes an hour for single-skin tunnels (both from memory): the film measured
 * by [MIHARA1979], read in kcal, agrees in light wind. 6.5 W/m2/K and one
 * change an hour are 3172 and 315 W/K for the tunnel above (worked by hand). */
static void films_and_leaks_agree_with_design_figures(void **state)
{
    (void)state;
    assert_near(heat_cover_loss_w_m2_k(COVER_FILM, 1.5), 6.5, 0.4);
    for (int wind = 1; wind <= 7; wind++) {
        double changes_h = heat_leak_changes_h(wind);
        assert_true(changes_h > 1 && changes_h < 3);
    }
    TunnelHouse house = tunnel_house_of(30, 9, 4.5);
    assert_near(6.5 * house.cover_m2, 3172, 10);
    assert_near(heat_air_w_k(house.volume_m3), 315, 1);
}

static void a_tunnels_heat_closes_at_any_length_of_step(void **state)
{
    (void)state;
    TunnelHouse house = demo_house();
    house.ground_m2 -= 69;
    house.heater_w = 4000;
    house.heater_at_degc = 9;
    TunnelBed beds[2] = {{.area_m2 = 40,
                          .heat_j_k = 1.7e7,
                          .light_frac = 1.08,
                          .gravel_degc = 14},
                         {.area_m2 = 29,
                          .heat_j_k = 1.2e7,
                          .light_frac = 0.92,
                          .is_flooded = true,
                          .water_degc = 20}};
    TunnelBeds both = {beds, 2};
    for (double step = 60; step < 1e6; step *= 4) {
        TunnelState air = {12, 13, 15};
        for (int i = 0; i < 50; i++) {
            TunnelHour hour = {.step_s = step,
                               .outside_degc = i % 7 * 5.0 - 3.0,
                               .vapour_kpa = 0.8,
                               .wind_m_s = i % 5,
                               .clear_frac = 0.7,
                               .sun_w_m2 = i % 3 * 250.0,
                               .leaf_frac = 0.6};
            double gravel = beds[0].gravel_degc;
            TunnelFlows flows = tunnel_step(&house, &hour, &both, &air);
            assert_near(tunnel_flows_residual_w(&flows), 0, 1e-6);
            assert_near(beds[0].heat_j_k * (beds[0].gravel_degc - gravel) /
                            step,
                        beds[0].to_bed_w, 1e-6);
            assert_true(air.air_degc > -15 && air.air_degc < 80);
        }
    }
}

/* After ten hours. */
static double settled_degc(const TunnelHouse *house, const TunnelHour *hour,
                           double ground_degc)
{
    TunnelState air = {hour->outside_degc + 3, ground_degc, ground_degc};
    TunnelBeds none = {NULL, 0};
    for (int i = 0; i < 10; i++) {
        (void)tunnel_step(house, hour, &none, &air);
    }
    return air.air_degc;
}

static void loss_cools_and_vents_hold_near_outside(void **state)
{
    (void)state;
    TunnelHouse house = demo_house();
    TunnelHour night = {.step_s = 3600,
                        .outside_degc = 3,
                        .vapour_kpa = 0.7,
                        .wind_m_s = 1.5,
                        .clear_frac = 0.8,
                        .leaf_frac = 0.7};
    double single = settled_degc(&house, &night, 13);
    house.cover_w_m2_k = 4.2;
    assert_true(settled_degc(&house, &night, 13) > single);
    TunnelHour noon = {.step_s = 3600,
                       .outside_degc = 31,
                       .vapour_kpa = 1.8,
                       .wind_m_s = 2.5,
                       .clear_frac = 0.8,
                       .sun_w_m2 = 400,
                       .leaf_frac = 0.7};
    double vented = settled_degc(&house, &noon, 29);
    assert_true(vented > 31 && vented < 37);
    house.vent_m2 = 0;
    assert_true(settled_degc(&house, &noon, 29) > vented + 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(curtains_save_what_was_measured),
        cmocka_unit_test(vents_pass_what_the_forms_say),
        cmocka_unit_test(wind_takes_over_where_it_was_measured),
        cmocka_unit_test(two_levels_beat_one_in_light_wind),
        cmocka_unit_test(open_water_loses_as_worked_by_hand),
        cmocka_unit_test(lids_and_walls_keep_heat_in),
        cmocka_unit_test(water_is_slow),
        cmocka_unit_test(a_step_of_water_is_the_sum_of_its_parts),
        cmocka_unit_test(a_heater_holds_its_target_and_no_more),
        cmocka_unit_test(water_without_losses_keeps_its_heat),
        cmocka_unit_test(a_half_round_tunnel_has_its_size),
        cmocka_unit_test(films_and_leaks_agree_with_design_figures),
        cmocka_unit_test(a_tunnels_heat_closes_at_any_length_of_step),
        cmocka_unit_test(loss_cools_and_vents_hold_near_outside),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
