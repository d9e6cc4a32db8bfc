/* Air in an unheated tunnel against measurements.
 *
 * [SAVAGE1980], a single polyethylene tunnel at Pietermaritzburg in winter:
 * inside, the minimum was on average 1.3 K above that outside and the maximum
 * 4.2 K; on ten nights below 0 degC outside it never went under 0.5 degC. The
 * place's normals are from memory, the tunnel's size and venting are not told:
 * so ranges are checked, not the second figure. One number was chosen with this
 * in view, the conductance of the ground's top (8 W/m2/K gave +2.6 K by night,
 * 5 gives +1.3; usual soils allow 4-10); the maximum had no part in it. */
#include "nature/heat/damp.h"
#include "sim/climate_days.h"
#include "sim/climate_light.h"

#include "check.h"

typedef struct Gap {
    double min_k;
    double max_k;
    double hour_k[24];   /* mean by hour */
    double wet_frac[24]; /* nights with a wet film, by hour */
} Gap;

static const ClimateNormals PIETERMARITZBURG = {
    .latitude_deg = -29.6,
    .altitude_m = 680,
    .max_degc = {27.2, 27.6, 27, 25.2, 23.4, 21.4, 21.8, 23, 24, 24.6, 25.4,
                 27},
    .min_degc = {17.5, 17.6, 16.4, 12.8, 8.4, 4.6, 4.6, 7.2, 10.6, 13, 14.8,
                 16.4},
    .sun_mj_m2_d = {20.5, 19.8, 17.8, 15.4, 13.2, 12.2, 12.9, 15, 16.4, 17.8,
                    19.4, 21.1},
    .rh_frac = {0.76, 0.76, 0.76, 0.72, 0.64, 0.58, 0.56, 0.58, 0.64, 0.70,
                0.73, 0.74},
    .wind_m_s = {1.6, 1.5, 1.4, 1.3, 1.2, 1.2, 1.3, 1.6, 1.9, 2, 1.9, 1.7},
};

static ClimateCover film_cover(CoverRoof roof)
{
    ClimateCoverCase given = {.roof = roof,
                              .straight_frac = 0.88,
                              .diffuse_frac = 0.67,
                              .ageing_frac_year = 0.02,
                              .age_years = 1};
    for (int month = 0; month < 12; month++) {
        given.kept_frac[month] = 1;
    }
    ClimateCover cover;
    climate_cover_fill(&given, &cover);
    return cover;
}

/* The film is wet at all hours, or as the tunnel's own moisture makes it. */
typedef enum Film { FILM_WET, FILM_BY_MOISTURE } Film;

static Gap winter_gap_of(double vent_m2, double loss_w_m2_k, Film film)
{
    TunnelHouse house = tunnel_house_of(30, 9, 4.5);
    house.cover_w_m2_k = loss_w_m2_k;
    house.sky_frac = 0.75;
    house.vent_pass_frac = 0.5;
    house.ground_w_m2_k = 5;
    house.vent_m2 = vent_m2;
    house.vent_height_m = 1;
    house.vent_at_degc = 22;
    house.deep_degc = 17.5;
    house.pressure_kpa = 93.5;
    ClimateCover cover = film_cover(cover_roof_of(9, 4.5, 0));
    ClimateDay days[CLIMATE_YEAR_DAYS];
    climate_days_fill(&PIETERMARITZBURG, days);
    /* A crop in the soil: a bed without mass holds its leaves. */
    TunnelBed bed = {
        .area_m2 = 120, .heat_j_k = 1e3, .light_frac = 1, .gravel_degc = 17};
    TunnelBeds beds = {&bed, 1};
    TunnelState air = {17, 17, 17};
    Gap gap = {0};
    double held_g_m3 = 8.0;
    bool is_wet = true;
    double back_w = 0.0;
    for (int day = 60; day < 243; day++) {
        ClimateSun sun = climate_day_sun(&days[day], -29.6, day + 1);
        double min = 99, max = -99;
        for (int hour = 0; hour < 24; hour++) {
            SunDirection to = sun_direction(-29.6, days[day].declination_rad,
                                            SUN_PI / 12 * (hour + 0.5 - 12));
            TunnelHour now = {
                .step_s = 3600,
                .outside_degc = climate_hour_degc(days, day, hour + 0.5),
                .vapour_kpa = days[day].vapour_kpa,
                .wind_m_s = days[day].wind_m_s,
                .clear_frac = days[day].clear_frac,
                .sun_w_m2 =
                    climate_row_w_m2(&cover, &sun, &to, hour, ROW_MIDDLE),
                .leaf_frac = 0.7};
            now.film_is_dry = film == FILM_BY_MOISTURE && !is_wet;
            now.tanks_w = film == FILM_BY_MOISTURE ? back_w : 0.0;
            TunnelFlows flows = tunnel_step(&house, &now, &beds, &air);
            DampHour damp = {.step_s = 3600,
                             .outside_degc = now.outside_degc,
                             .outside_kpa = now.vapour_kpa,
                             .wind_m_s = now.wind_m_s,
                             .air_degc = air.air_degc,
                             .vent_m3_s = flows.vent_m3_s,
                             .given_kg_s = damp_kg_s_of_w(flows.latent_w),
                             .leaf_m3_s =
                                 now.sun_w_m2 > 0.0
                                     ? 0.0
                                     : damp_leaf_m3_s(tunnel_leaf_m2(
                                           &house, now.leaf_frac, 120))};
            DampFlows dew = damp_step(&house, &damp, &held_g_m3);
            is_wet = dew.is_film_wet;
            back_w = dew.back_w;
            if (day >= 151) {
                gap.hour_k[hour] +=
                    (air.air_degc - now.outside_degc) / (243 - 151);
                gap.wet_frac[hour] += is_wet ? 1.0 / (243 - 151) : 0.0;
            }
            min = fmin(min, air.air_degc);
            max = fmax(max, air.air_degc);
        }
        if (day >= 151) {
            gap.min_k += (min - days[day].min_degc) / (243 - 151);
            gap.max_k += (max - days[day].max_degc) / (243 - 151);
        }
    }
    return gap;
}

static Gap winter_gap(double vent_m2, double loss_w_m2_k)
{
    return winter_gap_of(vent_m2, loss_w_m2_k, FILM_WET);
}

static void a_single_film_gains_what_was_measured(void **state)
{
    (void)state;
    Gap vented = winter_gap(40, 6.8), shut = winter_gap(0, 6.8);
    print_message("vented: min +%.1f, max +%.1f; shut: min +%.1f, max +%.1f\n",
                  vented.min_k, vented.max_k, shut.min_k, shut.max_k);
    assert_near(vented.min_k, 1.3, 0.8);
    assert_near(shut.min_k, 1.3, 0.8);
    assert_near(vented.max_k, 4.2, 2.0);
    assert_true(shut.max_k > vented.max_k + 1);
}

/* Two films save a third of the heat lost through one [MIHARA1979], so nights
 * are milder; 2-4 K is what growers' guides give for them (from memory). */
static void two_films_gain_more(void **state)
{
    (void)state;
    Gap two = winter_gap(40, 4.2);
    assert_true(two.min_k > winter_gap(40, 6.8).min_k);
    assert_true(two.min_k < 4.5);
}

/* [SAVAGE1980]: from sunset (half past four) to about six the tunnel was colder
 * than the air outside, until humidity wetted the film; by morning it was the
 * warmer one, the minimum 1.3 K over that outside. Ours turns some hours
 * later. */
static void the_evening_is_colder_until_the_film_is_wet(void **state)
{
    (void)state;
    Gap gap = winter_gap_of(40, 6.8, FILM_BY_MOISTURE);
    assert_true(gap.hour_k[17] < -0.3 && gap.hour_k[17] > -3.0);
    assert_true(gap.hour_k[18] < 0.0 && gap.wet_frac[18] < 0.1);
    assert_true(gap.hour_k[5] > 0.3 && gap.wet_frac[5] > 0.9);
    assert_true(gap.hour_k[5] > gap.hour_k[18] + 1.0);
    assert_near(gap.min_k, 1.3, 0.8);
    assert_near(gap.max_k, 4.2, 2.0);
    /* A film that is wet at all hours shows none of it. */
    assert_true(winter_gap(40, 6.8).hour_k[17] > gap.hour_k[17] + 0.5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_single_film_gains_what_was_measured),
        cmocka_unit_test(two_films_gain_more),
        cmocka_unit_test(the_evening_is_colder_until_the_film_is_wet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
