/* The air of plastic tunnels against measurements: water used in a house by
 * season, and the evening in which a dry film lets the tunnel fall below the
 * air outside. */
#include <math.h>

#include "nature/air/vapour.h"
#include "nature/heat/damp.h"
#include "sim/climate_days.h"
#include "sim/climate_light.h"

#include "check.h"

static TunnelHouse film_house(void)
{
    TunnelHouse house = tunnel_house_of(30, 9, 4.5);
    house.cover_w_m2_k = 6.5;
    house.sky_frac = 0.75;
    house.vent_pass_frac = 0.5;
    house.ground_w_m2_k = 5;
    house.vent_m2 = 60;
    house.vent_height_m = 1;
    house.vent_at_degc = 24;
    house.deep_degc = 18;
    house.pressure_kpa = 101;
    return house;
}

/* ---- Water used ------------------------------------------------------------
 */

/* Almeria, 36.8 N: normals from memory. */
static const ClimateNormals ALMERIA = {
    .latitude_deg = 36.8,
    .altitude_m = 150,
    .max_degc = {16.9, 17.5, 19.5, 21.3, 24.1, 27.8, 30.5, 31, 28.4, 24.4, 20.3,
                 17.8},
    .min_degc = {8.3, 8.8, 10.4, 12.1, 15.1, 18.8, 21.8, 22.4, 20, 16.3, 12.3,
                 9.7},
    .sun_mj_m2_d = {9.5, 13, 17.5, 22, 25, 27, 27, 24, 19, 14, 10.5, 8.5},
    .rh_frac = {0.70, 0.70, 0.68, 0.65, 0.66, 0.64, 0.63, 0.66, 0.68, 0.71,
                0.71, 0.71},
    .wind_m_s = {2.5, 2.7, 3, 3.2, 3, 3, 2.9, 2.7, 2.6, 2.5, 2.4, 2.4},
};

/* mm a day in the month's middle that a floor of leaves uses. */
static double leaves_use_mm_d(int mid_day, double kept_frac)
{
    TunnelHouse house = film_house();
    house.ground_m2 = 0.0;
    ClimateDay days[CLIMATE_YEAR_DAYS];
    climate_days_fill(&ALMERIA, days);
    TunnelBed sward = {.area_m2 = house.floor_m2 / 1.2,
                       .heat_j_k = house.floor_m2 * 1e5,
                       .light_frac = 1,
                       .gravel_degc = 18};
    TunnelBeds beds = {&sward, 1};
    TunnelState air = {18, 18, 18};
    double used_mm = 0.0;
    const int runs = 10;
    for (int day = mid_day - runs; day < mid_day; day++) {
        ClimateSun sun = climate_day_sun(&days[day], 36.8, day + 1);
        used_mm = 0.0;
        for (int hour = 0; hour < 24; hour++) {
            TunnelHour now = {
                .step_s = 3600,
                .outside_degc = climate_hour_degc(days, day, hour + 0.5),
                .vapour_kpa = days[day].vapour_kpa,
                .wind_m_s = days[day].wind_m_s,
                .clear_frac = days[day].clear_frac,
                .sun_w_m2 = kept_frac *
                            (sun.direct_w_m2[hour] + sun.diffuse_w_m2[hour]),
                .leaf_frac = 1};
            TunnelFlows flows = tunnel_step(&house, &now, &beds, &air);
            used_mm += damp_kg_s_of_w(flows.latent_w) * 3600.0 / house.floor_m2;
        }
    }
    return used_mm;
}

/* [FERNANDEZ2010]: grass on a lysimeter in such a house used slightly under 1
 * mm a day in winter and about 4 mm in July (abstract read). Cover 0.6 of the
 * sun. Ours: 1.2 and 4.4 mm, 3.5 whitened (the source whitened its house from
 * March to September in some years): a fifth high in winter. */
static void leaves_use_water_as_measured_in_winter_and_summer(void **state)
{
    (void)state;
    double winter = leaves_use_mm_d(15, 0.6);
    double spring = leaves_use_mm_d(105, 0.6);
    double summer = leaves_use_mm_d(196, 0.6);
    double whitened = leaves_use_mm_d(196, 0.6 * 0.786);
    assert_true(winter > 0.7 && winter < 1.4);
    assert_true(summer > 3.2 && summer < 4.8);
    assert_true(winter < spring && spring < summer);
    /* Whitening cut it by 21.4 % in the mean. */
    assert_near(whitened / summer, 0.786, 0.05);
}

/* [MEDRANO2005]: cucumbers in an unheated plastic house used 120-200 g a m2 in
 * a night, whatever the day (abstract read). Nights of Almeria from autumn to
 * spring, 12-14 h; air 1.5 K over that outside, as measured in such houses.
 * Ours: 96 in February to 144 in October. */
static void cucumbers_use_as_much_at_night_as_measured(void **state)
{
    (void)state;
    TunnelHouse house = film_house();
    static const int MONTHS[] = {1, 2, 3, 9, 10};
    static const int HOURS[] = {13, 13, 12, 12, 13};
    for (int i = 0; i < 5; i++) {
        double outside = ALMERIA.min_degc[MONTHS[i]] + 2.0;
        double kpa = ALMERIA.rh_frac[MONTHS[i]] *
                     (air_saturation_kpa(ALMERIA.max_degc[MONTHS[i]]) +
                      air_saturation_kpa(ALMERIA.min_degc[MONTHS[i]])) /
                     2.0;
        DampHour hour = {.step_s = 3600,
                         .outside_degc = outside,
                         .outside_kpa =
                             fmin(kpa, 0.95 * air_saturation_kpa(outside)),
                         .wind_m_s = ALMERIA.wind_m_s[MONTHS[i]],
                         .air_degc = outside + 1.5,
                         .leaf_m3_s = damp_leaf_m3_s(house.floor_m2)};
        double held = damp_of_humidity_g_m3(hour.air_degc, 0.80);
        double used_g = 0.0;
        for (int h = 0; h < HOURS[i]; h++) {
            DampFlows flows = damp_step(&house, &hour, &held);
            assert_near(damp_residual_kg_s(&flows), 0.0, 1e-9);
            used_g += flows.leaf_kg_s * 3600.0 * 1000.0 / house.floor_m2;
        }
        assert_true(used_g > 80.0 && used_g < 200.0);
    }
}

/* ---- The evening -----------------------------------------------------------
 */

/* [SAVAGE1980]: after sunset the tunnel cools by 5.5 K/h where the air outside
 * does by 3.5, and is the colder one for about an hour and a half, until its
 * film is wet; by morning it is the warmer one. */
static void dry_film_makes_the_evening_colder_than_outside(void **state)
{
    (void)state;
    TunnelHouse house = film_house();
    TunnelBed bed = {
        .area_m2 = 120, .heat_j_k = 1e3, .light_frac = 1, .gravel_degc = 14};
    TunnelBeds beds = {&bed, 1};
    TunnelState dry = {15.8, 13.0, 15.5}, wet = dry;
    double outside = 15.2;
    double dry_gap = 0, wet_gap = 0;
    for (int hour = 0; hour < 2; hour++) {
        outside -= 2.5;
        TunnelHour now = {.step_s = 3600,
                          .outside_degc = outside,
                          .vapour_kpa = 0.75,
                          .wind_m_s = 0.6,
                          .clear_frac = 1,
                          .film_is_dry = true};
        (void)tunnel_step(&house, &now, &beds, &dry);
        now.film_is_dry = false;
        (void)tunnel_step(&house, &now, &beds, &wet);
        dry_gap = dry.air_degc - outside;
        wet_gap = wet.air_degc - outside;
    }
    assert_true(dry_gap < -0.3 && dry_gap > -4.0);
    assert_true(dry_gap < wet_gap - 0.5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(leaves_use_water_as_measured_in_winter_and_summer),
        cmocka_unit_test(cucumbers_use_as_much_at_night_as_measured),
        cmocka_unit_test(dry_film_makes_the_evening_colder_than_outside),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
