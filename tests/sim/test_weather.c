/* Drawn weather: it keeps the normals, its matrices stand still, and a year is
 * the same however it is drawn. The place is invented. */
#include "sim/weather.h"

#include "base/date.h"
#include "nature/air/vapour.h"
#include "nature/sun/solar.h"
#include "sim/weather_held.h"

#include "check.h"

enum { YEARS = 400, DAYS = CLIMATE_YEAR_DAYS };

static ClimateNormals usual(void)
{
    return (ClimateNormals){
        .latitude_deg = 38.7,
        .altitude_m = 143.0,
        .max_degc = {13.7, 15.1, 18.2, 20.3, 24.4, 29.1, 32.2, 32.0, 28.4, 22.9,
                     17.3, 14.2},
        .min_degc = {4.3, 5.1, 6.8, 8.3, 11.2, 14.4, 16.1, 16.3, 14.7, 11.8,
                     7.9, 5.3},
        .sun_mj_m2_d = {7.4, 10.3, 15.1, 19.3, 23.6, 26.2, 26.8, 23.7, 18.1,
                        12.3, 8.5, 6.7},
        .rh_frac = {0.81, 0.77, 0.71, 0.68, 0.62, 0.56, 0.51, 0.52, 0.59, 0.69,
                    0.78, 0.82},
        .wind_m_s = {2.3, 2.4, 2.6, 2.8, 2.7, 2.6, 2.7, 2.6, 2.3, 2.2, 2.1,
                     2.2},
        .wet_frac = {0.31, 0.29, 0.25, 0.27, 0.19, 0.1, 0.04, 0.05, 0.11, 0.24,
                     0.31, 0.33},
    };
}

static WeatherMaker *maker_of(Arena *arena, const ClimateNormals *normals)
{
    Book book;
    WeatherMaker *maker = NULL;
    assert_ok(book_load(arena, &book));
    assert_ok(weather_make_from(normals, book.common, arena, &maker));
    return maker;
}

/* 1 January of a common year. */
static int32_t new_year(void)
{
    return date_from_civil((CivilDate){2027, 1, 1});
}

/* ---- The matrices ------------------------------------------------------- */

typedef double Three[WEATHER_RESIDUALS][WEATHER_RESIDUALS];

/* M0 = A M0 A' + B B', by repeating it. */
static void stand_still(Three stays, Three comes, Three out)
{
    memset(out, 0, sizeof(Three));
    for (int round = 0; round < 200; round++) {
        Three next = {{0}};
        for (int i = 0; i < 9; i++) {
            int r = i / 3, c = i % 3;
            for (int k = 0; k < 9; k++) {
                int a = k / 3, b = k % 3;
                next[r][c] += stays[r][a] * out[a][b] * stays[c][b];
            }
            for (int k = 0; k < 3; k++) {
                next[r][c] += comes[r][k] * comes[c][k];
            }
        }
        memcpy(out, next, sizeof next);
    }
}

static void copy_matrices(Three stays, Three comes)
{
    memcpy(stays, WEATHER_STAYS, sizeof(Three));
    memcpy(comes, WEATHER_COMES, sizeof(Three));
}

static double worst_variance(Three still)
{
    double worst = 0.0;
    for (int i = 0; i < 3; i++) {
        worst = fmax(worst, fabs(still[i][i] - 1.0));
    }
    return worst;
}

/* Richardson's M0 is 0.633, 0.186, -0.193, M1 as below (from memory). */
static void
the_matrices_stand_still_with_the_published_correlations(void **state)
{
    (void)state;
    Three stays, comes, still, lag = {{0}};
    copy_matrices(stays, comes);
    stand_still(stays, comes, still);
    assert_true(worst_variance(still) < 2e-3);
    assert_near(still[WEATHER_MAX][WEATHER_MIN], 0.633, 2e-3);
    assert_near(still[WEATHER_MAX][WEATHER_SUN], 0.186, 2e-3);
    assert_near(still[WEATHER_MIN][WEATHER_SUN], -0.193, 2e-3);
    static const Three M1 = {
        {0.621, 0.445, 0.087}, {0.563, 0.674, -0.100}, {0.015, -0.091, 0.251}};
    for (int i = 0; i < 9; i++) {
        int r = i / 3, c = i % 3;
        for (int k = 0; k < 3; k++) {
            lag[r][c] += stays[r][k] * still[k][c];
        }
        assert_near(lag[r][c], M1[r][c], 2e-3);
    }
}

static void the_misprints_found_in_copies_do_not_stand_still(void **state)
{
    (void)state;
    Three stays, comes, still;
    copy_matrices(stays, comes);
    comes[0][0] = 0.718;
    stand_still(stays, comes, still);
    assert_true(worst_variance(still) > 0.1);
    copy_matrices(stays, comes);
    comes[2][1] = -0.314;
    stand_still(stays, comes, still);
    assert_true(worst_variance(still) > 0.01);
    /* This one keeps the variances nearly and shows in a correlation. */
    copy_matrices(stays, comes);
    stays[2][1] = 0.039;
    stand_still(stays, comes, still);
    assert_true(fabs(still[WEATHER_MIN][WEATHER_SUN] + 0.193) > 0.02);
}

/* ---- Four hundred years -------------------------------------------------- */

typedef struct Sums {
    double count, wet;
    double max, min, sun, rh, wind;
    double max2, min2;
} Sums;

typedef struct Spell {
    double after_dry, wet_after_dry, after_wet, wet_after_wet;
    double lag[WEATHER_RESIDUALS], now[WEATHER_RESIDUALS]; /* products */
    double max_min, max_sun, min_sun;
} Spell;

static void add_day(Sums *sum, const WeatherDay *day)
{
    sum->count += 1.0;
    sum->wet += day->is_wet;
    sum->max += day->day.max_degc;
    sum->min += day->day.min_degc;
    sum->sun += day->day.sun_mj_m2_d;
    sum->rh += day->rh_frac;
    sum->wind += day->day.wind_m_s;
}

static void draw_all(const WeatherMaker *maker, Sums months[12], Spell *spell,
                     WeatherDay *days)
{
    memset(months, 0, 12 * sizeof *months);
    memset(spell, 0, sizeof *spell);
    for (uint32_t year = 0; year < YEARS; year++) {
        WeatherAsk ask = {77u, year, new_year(), DAYS};
        weather_draw_days(maker, &ask, days);
        for (int d = 0; d < DAYS; d++) {
            Sums *month = &months[climate_month_of(d)];
            add_day(month, &days[d]);
            WeatherSpread is = weather_spread(maker, d);
            double max = days[d].day.max_degc - is.max_degc;
            double min = days[d].day.min_degc - is.min_degc;
            month->max2 += max * max / (is.max_sd_k * is.max_sd_k);
            month->min2 += min * min / (is.min_sd_k * is.min_sd_k);
            const double *x = days[d].residual;
            spell->max_min += x[WEATHER_MAX] * x[WEATHER_MIN];
            spell->max_sun += x[WEATHER_MAX] * x[WEATHER_SUN];
            spell->min_sun += x[WEATHER_MIN] * x[WEATHER_SUN];
            for (int i = 0; d > 0 && i < WEATHER_RESIDUALS; i++) {
                spell->lag[i] += x[i] * days[d - 1].residual[i];
                spell->now[i] += x[i] * x[i];
            }
            if (d > 0) {
                bool was = days[d - 1].is_wet;
                spell->after_wet += was;
                spell->after_dry += !was;
                spell->wet_after_wet += was && days[d].is_wet;
                spell->wet_after_dry += !was && days[d].is_wet;
            }
        }
    }
}

/* Four standard errors of the mean of a month of 400 years. A month's mean
 * moves by about 0.43 of a day's spread: days hang together by 0.68, so that
 * 30 of them tell as much as six. */
static void months_keep_the_normals(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    WeatherMaker *maker = maker_of(&arena, &normals);
    WeatherDay *days = ARENA_ARRAY(&arena, WeatherDay, DAYS);
    Sums months[12];
    Spell spell;
    draw_all(maker, months, &spell, days);
    for (int i = 0; i < 12; i++) {
        const Sums *m = &months[i];
        double error = 4.0 / sqrt((double)YEARS);
        assert_near(m->max / m->count, normals.max_degc[i], error * 0.43 * 3.7);
        assert_near(m->min / m->count, normals.min_degc[i], error * 0.43 * 2.7);
        assert_near(m->sun / m->count, normals.sun_mj_m2_d[i],
                    error * 0.3 * 4.0);
        assert_near(m->rh / m->count, normals.rh_frac[i], error * 0.3 * 0.1);
        assert_near(m->wind / m->count, normals.wind_m_s[i],
                    error * 0.2 * 0.45 * normals.wind_m_s[i]);
        assert_near(m->wet / m->count, normals.wet_frac[i], error * 0.25 * 0.5);
        /* 12,000 days that tell as much as 3,000: 1.3 % is one error. */
        assert_near(sqrt(m->max2 / m->count), 1.0, 0.04);
        assert_near(sqrt(m->min2 / m->count), 1.0, 0.04);
    }
    double count = YEARS * (double)DAYS;
    assert_near(spell.lag[WEATHER_MAX] / spell.now[WEATHER_MAX], 0.621, 0.01);
    assert_near(spell.lag[WEATHER_MIN] / spell.now[WEATHER_MIN], 0.674, 0.01);
    assert_near(spell.lag[WEATHER_SUN] / spell.now[WEATHER_SUN], 0.251, 0.015);
    assert_near(spell.max_min / count, 0.633, 0.015);
    assert_near(spell.max_sun / count, 0.186, 0.015);
    assert_near(spell.min_sun / count, -0.193, 0.015);
    /* The year's mean of f is 0.207; its months differ. */
    assert_near(spell.wet_after_dry / spell.after_dry, 0.75 * 0.185, 0.02);
    assert_near(spell.wet_after_wet / spell.after_wet, 0.25 + 0.75 * 0.25,
                0.03);
}

static void the_chain_keeps_a_steady_share_of_wet_days(void **state)
{
    (void)state;
    for (int i = 0; i < 11; i++) {
        double f = 0.03 + 0.09 * i;
        double still =
            weather_wet_after_dry(f) * (1.0 - f) + weather_wet_after_wet(f) * f;
        assert_near(still, f, 1e-12);
    }
    /* 16.5 wet days of 31: the case worked in public code of the source. */
    assert_near(weather_wet_after_dry(16.5 / 31.0), 0.3992, 5e-5);
    assert_near(weather_wet_after_wet(16.5 / 31.0), 0.6492, 5e-5);
}

/* ---- The same however drawn ---------------------------------------------- */

static void a_year_alone_is_the_year_in_a_batch(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    WeatherMaker *maker = maker_of(&arena, &normals);
    enum { SOME = 5 };
    WeatherHour *batch = ARENA_ARRAY(&arena, WeatherHour, SOME * DAYS * 24);
    WeatherHour *alone = ARENA_ARRAY(&arena, WeatherHour, DAYS * 24);
    for (int k = SOME - 1; k >= 0; k--) { /* backwards */
        WeatherAsk ask = {4242u, (uint32_t)k, new_year(), DAYS};
        weather_draw(maker, &ask, batch + (size_t)k * DAYS * 24);
    }
    WeatherAsk ask = {4242u, 3u, new_year(), DAYS};
    weather_draw(maker, &ask, alone);
    size_t size = sizeof(WeatherHour) * DAYS * 24;
    assert_memory_equal(alone, batch + 3L * DAYS * 24, size);
    assert_true(memcmp(alone, batch + 2L * DAYS * 24, size) != 0);
    ask.seed++;
    weather_draw(maker, &ask, alone);
    assert_true(memcmp(alone, batch + 3L * DAYS * 24, size) != 0);
}

static void a_date_has_its_weather_whatever_the_first_day(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    WeatherMaker *maker = maker_of(&arena, &normals);
    WeatherHour early[40 * 24], late[9 * 24];
    WeatherAsk ask = {5u, 11u, new_year() + 57, 40};
    weather_draw(maker, &ask, early);
    ask.from_day += 31;
    ask.days = 9;
    weather_draw(maker, &ask, late);
    for (int i = 0; i < 9 * 24; i++) {
        assert_near(late[i].outside_degc, early[31 * 24 + i].outside_degc,
                    1e-5);
        assert_near(late[i].direct_w_m2, early[31 * 24 + i].direct_w_m2, 1e-3);
    }
}

/* ---- Hours ----------------------------------------------------------------
 */

static void hours_hold_the_days_numbers(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    WeatherMaker *maker = maker_of(&arena, &normals);
    WeatherHour *hours = ARENA_ARRAY(&arena, WeatherHour, DAYS * 24);
    WeatherDay *days = ARENA_ARRAY(&arena, WeatherDay, DAYS);
    WeatherAsk ask = {91u, 7u, new_year(), DAYS};
    weather_draw(maker, &ask, hours);
    weather_draw_days(maker, &ask, days);
    for (int d = 0; d < DAYS; d++) {
        double sun = 0.0, rh = 0.0, wind = 0.0, most = -99.0, least = 99.0;
        for (int h = 0; h < 24; h++) {
            const WeatherHour *is = &hours[d * 24 + h];
            double full = air_saturation_kpa(is->outside_degc);
            assert_true(is->vapour_kpa > 0.0 && is->vapour_kpa <= full);
            assert_true(is->direct_w_m2 >= 0.0 && is->diffuse_w_m2 >= 0.0);
            sun += (is->direct_w_m2 + is->diffuse_w_m2) * 0.0036;
            rh += is->vapour_kpa / full / 24.0;
            wind += is->wind_m_s / 24.0;
            most = fmax(most, is->outside_degc);
            least = fmin(least, is->outside_degc);
        }
        assert_near(sun, days[d].day.sun_mj_m2_d, 1e-9);
        assert_near(rh, days[d].rh_frac, 1e-9);
        assert_near(wind, days[d].day.wind_m_s, 1e-9);
        /* The peak falls between two half hours. */
        assert_true(most <= days[d].day.max_degc + 1e-9);
        assert_true(most > days[d].day.max_degc - 0.6);
        /* The night that follows can be colder, or this day's evening. */
        assert_true(least < days[d].day.min_degc + 1.5);
    }
}

static void wet_days_are_dim_cool_and_moist(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    WeatherMaker *maker = maker_of(&arena, &normals);
    WeatherDay *days = ARENA_ARRAY(&arena, WeatherDay, DAYS);
    Sums of[2] = {{0}};
    for (uint32_t year = 0; year < 60; year++) {
        WeatherAsk ask = {3u, year, new_year(), 59};
        weather_draw_days(maker, &ask, days);
        for (int d = 0; d < ask.days; d++) {
            add_day(&of[days[d].is_wet], &days[d]);
        }
    }
    assert_near(of[1].sun / of[1].count / (of[0].sun / of[0].count), 0.52,
                0.05);
    assert_near(of[1].rh / of[1].count - of[0].rh / of[0].count, 0.12, 0.02);
    assert_near(of[1].max / of[1].count - of[0].max / of[0].count, -2.9, 0.5);
    assert_near(of[1].min / of[1].count - of[0].min / of[0].count, 1.0, 0.4);
}

/* ---- Odd places ------------------------------------------------------------
 */

static void check_finite(const ClimateNormals *normals)
{
    CLEANUP(arena_release) Arena arena = {0};
    WeatherMaker *maker = maker_of(&arena, normals);
    WeatherHour *hours = ARENA_ARRAY(&arena, WeatherHour, 400 * 24);
    WeatherAsk ask = {8u, 1u, new_year(), 400};
    weather_draw(maker, &ask, hours);
    for (int i = 0; i < 400 * 24; i++) {
        assert_true(isfinite(hours[i].outside_degc));
        assert_true(hours[i].vapour_kpa > 0.0 && hours[i].vapour_kpa < 13.0);
        assert_true(hours[i].wind_m_s >= 0.0 && hours[i].wind_m_s < 200.0);
        assert_true(hours[i].direct_w_m2 >= 0.0);
        assert_true(hours[i].direct_w_m2 + hours[i].diffuse_w_m2 < 1400.0);
        assert_true(hours[i].clear_frac >= 0.3 && hours[i].clear_frac <= 1.0);
    }
}

static void odd_places_give_finite_weather(void **state)
{
    (void)state;
    ClimateNormals rain = usual(), drought = usual(), pole = usual();
    ClimateNormals flat = usual(), bright = usual();
    for (int i = 0; i < 12; i++) {
        rain.wet_frac[i] = 1.0;
        rain.rh_frac[i] = 1.0;
        drought.wet_frac[i] = 0.0;
        drought.rh_frac[i] = 0.05;
        pole.max_degc[i] -= 35.0;
        pole.min_degc[i] -= 45.0;
        pole.sun_mj_m2_d[i] = i > 2 && i < 9 ? 9.3 : 0.0;
        flat.max_degc[i] = flat.min_degc[i];
        flat.sun_mj_m2_d[i] = 0.0;
        flat.wind_m_s[i] = 0.0;
        bright.sun_mj_m2_d[i] = 45.0;
    }
    pole.latitude_deg = 82.3;
    check_finite(&rain);
    check_finite(&drought);
    check_finite(&pole);
    check_finite(&flat);
    check_finite(&bright);
}

static void a_maximum_below_the_minimum_is_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    normals.max_degc[4] = normals.min_degc[4] - 0.7;
    Book book;
    WeatherMaker *maker = NULL;
    assert_ok(book_load(&arena, &book));
    assert_err(weather_make_from(&normals, book.common, &arena, &maker),
               ERR_INPUT, "month 5");
}

static void the_typical_year_has_the_normals_too(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    ClimateNormals normals = usual();
    WeatherMaker *maker = maker_of(&arena, &normals);
    WeatherHour *hours = ARENA_ARRAY(&arena, WeatherHour, DAYS * 24);
    weather_typical(maker, new_year(), DAYS, hours);
    double sun[12] = {0}, days[12] = {0};
    for (int i = 0; i < DAYS * 24; i++) {
        int month = climate_month_of(i / 24);
        sun[month] += (hours[i].direct_w_m2 + hours[i].diffuse_w_m2) * 0.0036;
        days[month] += 1.0 / 24.0;
    }
    for (int i = 0; i < 12; i++) {
        assert_near(sun[i] / days[i], normals.sun_mj_m2_d[i], 1e-6);
    }
}

/* ---- Held normals -----------------------------------------------------------
 */

static double held_by_sum(const HeldNormal *is)
{
    double mean = 0.0, all = 0.0;
    for (int i = -9000; i < 9000; i++) {
        double z = (i + 0.5) * 1e-3;
        double weight = exp(-z * z / 2.0);
        all += weight;
        mean += weight * fmin(fmax(is->at + is->sd * z, is->low), is->high);
    }
    return mean / all;
}

static void a_held_mean_is_that_of_the_integral(void **state)
{
    (void)state;
    HeldNormal is[] = {{3.7, 1.9, 1.1, 4.3},
                       {-2.0, 0.6, 1.1, 4.3},
                       {5.5, 2.2, 0.4, INFINITY},
                       {2.0, 7.7, 1.1, 4.3}};
    for (int i = 0; i < 4; i++) {
        assert_near(held_mean(&is[i]), held_by_sum(&is[i]), 1e-6);
        double mean = held_mean(&is[i]);
        assert_near(held_mean(&(HeldNormal){held_at(&is[i], mean), is[i].sd,
                                            is[i].low, is[i].high}),
                    mean, 1e-8);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(
            the_matrices_stand_still_with_the_published_correlations),
        cmocka_unit_test(the_misprints_found_in_copies_do_not_stand_still),
        cmocka_unit_test(months_keep_the_normals),
        cmocka_unit_test(the_chain_keeps_a_steady_share_of_wet_days),
        cmocka_unit_test(a_year_alone_is_the_year_in_a_batch),
        cmocka_unit_test(a_date_has_its_weather_whatever_the_first_day),
        cmocka_unit_test(hours_hold_the_days_numbers),
        cmocka_unit_test(wet_days_are_dim_cool_and_moist),
        cmocka_unit_test(odd_places_give_finite_weather),
        cmocka_unit_test(a_maximum_below_the_minimum_is_refused),
        cmocka_unit_test(the_typical_year_has_the_normals_too),
        cmocka_unit_test(a_held_mean_is_that_of_the_integral),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
