/* The sun's geometry and its split against printed examples. */
#include "nature/sun/position.h"
#include "nature/sun/solar.h"
#include "nature/sun/split.h"

#include "check.h"

static const double MINUTE_DEG = 1.0 / 60.0;

/* [FAO56] examples 7 to 10. */
static void declination_day_and_sun_match_the_printed_examples(void **state)
{
    (void)state;
    assert_near(sun_rad_from_deg(13 + 44 * MINUTE_DEG), 0.240, 5e-4);
    assert_near(sun_rad_from_deg(-(22 + 54 * MINUTE_DEG)), -0.400, 5e-4);
    assert_near(sun_distance_factor(246), 0.985, 5e-4);
    assert_near(sun_declination_rad(246), 0.120, 5e-4);
    assert_near(sun_sunset_angle_rad(-20, sun_declination_rad(246)), 1.527,
                5e-4);
    assert_near(sun_above_air_mj_m2_d(-20, 246), 32.2, 0.05);
    assert_near(sun_above_air_mj_m2_d(-20, 246) / 2.45, 13.1, 0.05);
    assert_near(sun_day_length_h(-20, 246), 11.7, 0.05);
    double rio = -(22 + 54 * MINUTE_DEG);
    assert_near(sun_above_air_mj_m2_d(rio, 135), 25.1, 0.05);
    assert_near(sun_day_length_h(rio, 135), 10.9, 0.05);
    assert_near(sun_from_sunshine_mj_m2_d(25.1, 7.1 / 10.9), 14.5, 0.06);
}

/* [FAO56] example 15, Lyon in July; example 17's clear sky (from memory). */
static void sun_from_temperatures_matches_the_printed_example(void **state)
{
    (void)state;
    DayTemps lyon = {.max_degc = 26.6, .min_degc = 14.8};
    assert_near(sun_from_temps_mj_m2_d(40.6, lyon, 0.16), 22.3, 0.05);
    DayTemps wild = {.max_degc = 40, .min_degc = 0};
    assert_near(sun_from_temps_mj_m2_d(40.6, wild, 0.19), 0.75 * 40.6, 1e-9);
    assert_near(sun_clear_sky_mj_m2(38.06, 2), 28.54, 0.01);
}

/* [FAO56] example 19, 14-15 h at N'Diaye (from memory). */
static void an_hour_matches_the_printed_example(void **state)
{
    (void)state;
    assert_near(sun_equation_of_time_h(274), 0.1889, 5e-5);
    SunClock clock = {
        .longitude_deg = -16.25, .zone_longitude_deg = -15, .clock_h = 14.5};
    double angle = sun_hour_angle_rad(&clock, 274);
    assert_near(angle, 0.682, 5e-4);
    double half = SUN_PI / 24;
    double hour = sun_above_air_between_mj_m2(16 + 13 * MINUTE_DEG, 274,
                                              angle - half, angle + half);
    assert_near(hour, 3.543, 2e-3);
    assert_near(sun_clear_sky_mj_m2(hour, 8), 2.658, 2e-3);
}

/* Computed once from the same equations with another program. */
static void the_grid_of_latitudes_holds(void **state)
{
    (void)state;
    static const double rows[][4] = {
        {60, 15, 3.3, 6.4},    {60, 166, 41.2, 18.4}, {50, 349, 7.5, 7.9},
        {40, 196, 40.8, 14.6}, {40, 15, 15.0, 9.5},   {-40, 15, 43.3, 14.5},
        {-40, 166, 12.8, 9.2}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        int day = (int)rows[i][1];
        assert_near(sun_above_air_mj_m2_d(rows[i][0], day), rows[i][2], 0.06);
        assert_near(sun_day_length_h(rows[i][0], day), rows[i][3], 0.06);
    }
}

static void polar_days_and_nights_are_finite(void **state)
{
    (void)state;
    assert_near(sun_day_length_h(78.2, 172), 24, 1e-9);
    assert_near(sun_day_length_h(78.2, 355), 0, 1e-9);
    assert_near(sun_above_air_mj_m2_d(78.2, 355), 0, 1e-9);
    assert_true(sun_above_air_mj_m2_d(90, 172) > 40);
    assert_true(isfinite(sun_day_length_h(-90, 172)));
    assert_near(sun_hour_share(0, 0), 0, 1e-12);
}

static void half_a_year_later_across_the_equator_is_alike(void **state)
{
    (void)state;
    for (int day = 1; day <= 182; day += 7) {
        for (double lat = 3.5; lat < 62; lat += 7.3) {
            int later = day + 183;
            assert_near(sun_day_length_h(lat, day),
                        sun_day_length_h(-lat, later), 0.2);
            double here = sun_above_air_mj_m2_d(lat, day);
            assert_near(sun_above_air_mj_m2_d(-lat, later) / here, 1, 0.08);
        }
    }
}

static void the_hours_of_a_day_add_up(void **state)
{
    (void)state;
    for (int day = 12; day < 365; day += 37) {
        double ws = sun_sunset_angle_rad(43.7, sun_declination_rad(day));
        double share = 0, above = 0;
        for (int hour = 0; hour < 240; hour++) {
            double from = SUN_PI / 120 * (hour - 120);
            share += sun_hour_share(from + SUN_PI / 240, ws) / 10;
            above += sun_above_air_between_mj_m2(43.7, day, from,
                                                 from + SUN_PI / 120);
        }
        assert_near(share, 1, 0.03);
        assert_near(above, sun_above_air_mj_m2_d(43.7, day), 1e-9);
    }
}

/* [NREL2004], the worked point of NREL/TP-560-34302: zenith 50.11162, azimuth
 * 194.340241, declination -9.31434, right ascension 202.22741, R 0.9965422974,
 * equation of time 14.64 min. */
static void the_position_meets_nrels_point(void **state)
{
    (void)state;
    SunPlace golden = {.latitude_deg = 39.742476,
                       .longitude_deg = -105.1786,
                       .pressure_kpa = 82.0,
                       .temp_degc = 11};
    SunPosition sun = sun_position(&golden, 1066419030);
    assert_near(sun.zenith_deg, 50.11162, 0.01);
    assert_near(sun.azimuth_deg, 194.340241, 0.01);
    assert_near(sun.declination_deg, -9.31434, 0.005);
    assert_near(sun.right_ascension_deg, 202.22741, 0.005);
    assert_near(sun.distance_au, 0.9965422974, 5e-5);
    assert_near(sun.equation_of_time_min, 14.64, 0.05);
}

/* At the June solstice of 2027 (21 June, 14:11 UTC; almanac, from memory) the
 * declination is the obliquity, 23.44; the sundial and the steady clock agree
 * about 13 June. */
static void solstice_and_sundial_are_where_almanacs_have_them(void **state)
{
    (void)state;
    SunPlace nowhere = {0};
    SunPosition june = sun_position(&nowhere, 1813587060);
    assert_near(june.declination_deg, 23.437, 0.005);
    assert_near(june.right_ascension_deg, 90, 0.02);
    SunPosition agree = sun_position(&nowhere, 1812844800);
    assert_near(agree.equation_of_time_min, 0, 0.4);
}

static void both_declinations_agree_within_1_2_degree(void **state)
{
    (void)state;
    SunPlace nowhere = {0};
    for (int day = 1; day <= 365; day++) {
        int64_t noon = 1798761600 + (day - 1) * 86400 + 43200;
        double fine = sun_position(&nowhere, noon).declination_deg;
        double plain = sun_declination_rad(day) * 180 / SUN_PI;
        assert_near(fine, plain, 1.2);
    }
}

static void the_direction_is_a_unit_vector_to_the_south_at_noon(void **state)
{
    (void)state;
    SunDirection noon = sun_direction(38.6, 0.1, 0);
    assert_near(noon.east, 0, 1e-12);
    assert_true(noon.north < 0);
    assert_near(noon.up, cos(sun_rad_from_deg(38.6) - 0.1), 1e-12);
    SunDirection later = sun_direction(38.6, 0.1, 0.7);
    assert_true(later.east < 0);
    assert_near(later.east * later.east + later.north * later.north +
                    later.up * later.up,
                1, 1e-12);
    assert_true(sun_direction(-38.6, 0.1, 0).north > 0);
}

/* [ERBS1982]: rows printed by a public implementation, direct on the flat. */
static void the_split_matches_published_rows(void **state)
{
    (void)state;
    static const double rows[][4] = {{30, 800, 172, 603.520225},
                                     {60, 200, 15, 8.177840},
                                     {20, 950, 200, 786.038260},
                                     {78, 45, 120, 0.651409},
                                     {10, 1050, 172, 876.75}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double cos_zenith = cos(sun_rad_from_deg(rows[i][0]));
        double kt = sun_clearness(rows[i][1], cos_zenith, (int)rows[i][2]);
        double direct = rows[i][1] * (1 - sun_diffuse_frac_hour(kt));
        assert_near(direct, rows[i][3], 1e-3);
    }
    assert_near(sun_clearness(900, 0.0, 100), 1, 1e-12);
}

static void a_clearer_day_has_less_diffuse_light(void **state)
{
    (void)state;
    double before = 1.01;
    for (double kt = 0.2; kt < 0.79; kt += 0.05) {
        double now = sun_diffuse_frac_day(kt, 1.6);
        assert_true(now < before);
        before = now;
    }
    assert_near(sun_diffuse_frac_day(0.9, 1.6), 0.175, 1e-12);
    assert_near(sun_diffuse_frac_day(0.9, 1.2), 0.143, 1e-12);
    assert_near(sun_diffuse_frac_day(0, 1.2), 1, 1e-12);
}

/* 20 MJ outside are 41.1 mol (computed from the two constants). */
static void daily_light_follows_from_the_sun(void **state)
{
    (void)state;
    assert_near(sun_dli_mol_m2_d(20), 41.1, 0.05);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(declination_day_and_sun_match_the_printed_examples),
        cmocka_unit_test(sun_from_temperatures_matches_the_printed_example),
        cmocka_unit_test(an_hour_matches_the_printed_example),
        cmocka_unit_test(the_grid_of_latitudes_holds),
        cmocka_unit_test(polar_days_and_nights_are_finite),
        cmocka_unit_test(half_a_year_later_across_the_equator_is_alike),
        cmocka_unit_test(the_hours_of_a_day_add_up),
        cmocka_unit_test(the_position_meets_nrels_point),
        cmocka_unit_test(solstice_and_sundial_are_where_almanacs_have_them),
        cmocka_unit_test(both_declinations_agree_within_1_2_degree),
        cmocka_unit_test(the_direction_is_a_unit_vector_to_the_south_at_noon),
        cmocka_unit_test(the_split_matches_published_rows),
        cmocka_unit_test(a_clearer_day_has_less_diffuse_light),
        cmocka_unit_test(daily_light_follows_from_the_sun),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
