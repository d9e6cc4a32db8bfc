/* The moisture of a tunnel's air. */
#include <math.h>

#include "nature/air/vapour.h"
#include "nature/heat/damp.h"
#include "nature/heat/exchange.h"

#include "check.h"

static TunnelHouse film_house(void)
{
    TunnelHouse house = tunnel_house_of(27.3, 7.1, 3.15);
    house.cover_w_m2_k = 6.5;
    return house;
}

static DampHour night(void)
{
    return (DampHour){.step_s = 3600,
                      .outside_degc = 3.2,
                      .outside_kpa = 0.66,
                      .wind_m_s = 1.3,
                      .air_degc = 5.1,
                      .given_kg_s = 8e-4};
}

static void water_closes_whatever_the_hour(void **state)
{
    (void)state;
    TunnelHouse house = film_house();
    double held = 1.7;
    double worst = 0.0;
    for (int i = 0; i < 5000; i++) {
        DampHour hour = night();
        hour.air_degc = 17.0 + 21.0 * sin(0.37 * i);
        hour.outside_degc = 9.0 + 22.0 * sin(0.11 * i + 1.0);
        hour.outside_kpa = 0.7 * air_saturation_kpa(hour.outside_degc);
        hour.vent_m3_s = i % 3 ? 0.0 : 4.7;
        hour.given_kg_s = 7e-3 * (1.0 + cos(0.23 * i));
        double before = held;
        DampFlows flows = damp_step(&house, &hour, &held);
        double moved = flows.given_kg_s + fabs(flows.air_kg_s) +
                       flows.film_kg_s + flows.fog_kg_s +
                       fabs(flows.stored_kg_s);
        worst = fmax(worst, fabs(damp_residual_kg_s(&flows)) / moved);
        assert_near(flows.stored_kg_s * hour.step_s,
                    (held - before) * house.volume_m3 / 1000.0, 1e-9);
        assert_true(held > 0.0 && flows.rh_frac <= 1.0 + 1e-12);
        assert_true(flows.film_kg_s >= 0.0 && flows.fog_kg_s >= 0.0);
    }
    assert_true(worst < 1e-9);
}

/* Nothing given, no film colder than the dew point: the air ends as outside. */
static void air_without_a_source_becomes_that_outside(void **state)
{
    (void)state;
    TunnelHouse house = film_house();
    DampHour hour = night();
    hour.given_kg_s = 0.0;
    hour.outside_kpa = 0.31;
    double held = 6.3;
    DampFlows flows = {0};
    for (int i = 0; i < 60; i++) {
        flows = damp_step(&house, &hour, &held);
    }
    assert_near(held, air_absolute_humidity_g_m3(0.31, 3.2), 1e-9);
    assert_false(flows.is_film_wet);
    assert_false(flows.is_leaf_wet);
}

/* A step of any length goes to the same rest and passes it nowhere. */
static void a_long_step_does_not_swing(void **state)
{
    (void)state;
    TunnelHouse house = film_house();
    DampHour hour = night();
    double in_hours = 0.9, at_once = 0.9, before = 0.9;
    for (int i = 0; i < 400; i++) {
        (void)damp_step(&house, &hour, &in_hours);
        assert_true(in_hours >= before - 1e-12);
        before = in_hours;
    }
    hour.step_s = 1e9;
    (void)damp_step(&house, &hour, &at_once);
    assert_near(at_once, in_hours, 1e-5);
}

/* More leaves, a colder film or less wind: more water on the film. */
static void film_runs_more_in_the_cold_and_dries_with_vents(void **state)
{
    (void)state;
    TunnelHouse house = film_house();
    DampHour mild = night(), cold = night(), open = night();
    cold.outside_degc = -2.3;
    cold.outside_kpa = 0.45;
    open.vent_m3_s = 3.1;
    double a = 5.9, b = 5.9, c = 5.9;
    DampFlows at_mild = {0}, at_cold = {0}, at_open = {0};
    for (int i = 0; i < 12; i++) {
        at_mild = damp_step(&house, &mild, &a);
        at_cold = damp_step(&house, &cold, &b);
        at_open = damp_step(&house, &open, &c);
    }
    assert_true(at_cold.film_kg_s > at_mild.film_kg_s);
    assert_true(at_open.rh_frac < at_mild.rh_frac);
    assert_true(at_mild.is_leaf_wet);
    assert_false(at_open.is_leaf_wet);
}

/* 12 degC, 95 %, film at 6 degC: gc 3.27e-3 m/s, 9.4e-3 g/m2/s. Worked from
 * the printed form, which is from memory. */
static void film_takes_what_its_equation_says(void **state)
{
    (void)state;
    TunnelHouse house = {.volume_m3 = 1e9, .cover_m2 = 1, .cover_w_m2_k = 6.5};
    DampHour hour = {.step_s = 3600, .air_degc = 12, .outside_kpa = 0.9};
    double loss = heat_cover_loss_at_w_m2_k(6.5, 0.0);
    hour.outside_degc = 12.0 - 6.0 * 8.0 / loss;
    double held = damp_of_humidity_g_m3(12, 0.95);
    hour.given_kg_s = 0.0;
    DampFlows flows = damp_step(&house, &hour, &held);
    assert_near(flows.film_degc, 6.0, 1e-9);
    double as_worked =
        1.8e-3 * cbrt(6.0) * (held - damp_of_humidity_g_m3(6.0, 1.0)) / 1000.0;
    assert_near(flows.film_kg_s, as_worked, 1e-12);
    assert_near(1.8e-3 * cbrt(6.0), 3.27e-3, 5e-6);
    assert_near(
        1.8e-3 * cbrt(6.0) *
            (damp_of_humidity_g_m3(12, 0.95) - damp_of_humidity_g_m3(6, 1.0)),
        9.4e-3, 5e-5);
}

/* A film that passes as much to the outside as the air does to it gives nothing
 * back; one that passes half of that gives half. Fog gives all. */
static void dew_gives_back_what_the_cover_keeps(void **state)
{
    (void)state;
    assert_near(damp_back_frac(8.0), 0.0, 1e-12);
    assert_near(damp_back_frac(9.3), 0.0, 1e-12);
    assert_near(damp_back_frac(4.0), 0.5, 1e-12);
    TunnelHouse house = film_house();
    DampHour hour = night();
    hour.air_degc = 12.4;
    double held = damp_of_humidity_g_m3(hour.air_degc, 0.97);
    DampFlows flows = damp_step(&house, &hour, &held);
    double loss = heat_cover_loss_at_w_m2_k(6.5, hour.wind_m_s);
    assert_true(flows.film_kg_s > 0.0 && flows.fog_kg_s <= 0.0);
    assert_near(flows.back_w, 2.45e6 * damp_back_frac(loss) * flows.film_kg_s,
                1e-6);
    hour.given_kg_s = 0.05; /* more than the air can hold */
    flows = damp_step(&house, &hour, &held);
    assert_true(flows.fog_kg_s > 0.0);
    assert_true(flows.back_w > 2.45e6 * flows.fog_kg_s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(water_closes_whatever_the_hour),
        cmocka_unit_test(air_without_a_source_becomes_that_outside),
        cmocka_unit_test(a_long_step_does_not_swing),
        cmocka_unit_test(film_runs_more_in_the_cold_and_dries_with_vents),
        cmocka_unit_test(film_takes_what_its_equation_says),
        cmocka_unit_test(dew_gives_back_what_the_cover_keeps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
