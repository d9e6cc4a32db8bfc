/* Drawn weather against four years as measured: the daily weather of Seattle,
 * 2012-2015, of the National Oceanic and Atmospheric Administration (public
 * domain; package vega-datasets 3.2.1, data/seattle-weather.csv). The monthly
 * means are that file's; its other statistics, worked out from it, were not
 * used to fit them but for the two spreads and the wind's shape, whose values
 * in the book come from the whole file. */
#include "base/date.h"
#include "sim/weather.h"

#include "check.h"

enum { YEARS = 100, DAYS = CLIMATE_YEAR_DAYS };

static const double SEATTLE_MAX_DEGC[12] = {8.23,  9.86,  12.39, 15.02,
                                            19.30, 22.40, 26.00, 26.11,
                                            21.92, 16.39, 11.02, 8.19};
static const double SEATTLE_MIN_DEGC[12] = {
    2.70, 4.05, 4.86, 6.36, 9.61, 12.24, 14.20, 14.77, 12.36, 9.35, 4.70, 3.32};
static const double SEATTLE_WET_DAYS[12] = {16.50, 18.25, 18.25, 14.75,
                                            8.50,  9.25,  2.75,  5.50,
                                            8.75,  15.25, 17.75, 20.25};
static const double SEATTLE_WIND_M_S[12] = {3.14, 3.79, 3.58, 3.52, 3.12, 3.13,
                                            2.91, 2.75, 2.96, 2.94, 3.48, 3.62};

typedef struct Found {
    double max_mean, min_mean, wet_frac;
    double wet_after_dry, wet_after_wet;
    double max_lag, min_lag, max_sd, min_sd, wind_cv;
} Found;

static WeatherMaker *seattle(Arena *arena)
{
    Book book;
    WeatherMaker *maker = NULL;
    assert_ok(book_load(arena, &book));
    ClimateNormals normals = {.latitude_deg = 47.4, .altitude_m = 130.0};
    for (int month = 0; month < 12; month++) {
        normals.max_degc[month] = SEATTLE_MAX_DEGC[month];
        normals.min_degc[month] = SEATTLE_MIN_DEGC[month];
        normals.wet_frac[month] =
            SEATTLE_WET_DAYS[month] / climate_month_days(month);
        normals.wind_m_s[month] = SEATTLE_WIND_M_S[month];
        /* Not in the file and not compared. */
        normals.rh_frac[month] = 0.74;
        normals.sun_mj_m2_d[month] = month > 2 && month < 9 ? 16.0 : 5.0;
    }
    assert_ok(weather_make_from(&normals, book.common, arena, &maker));
    return maker;
}

/* Deviations are from the model's own smooth season, as the file's are from
 * two harmonics. */
static Found found_of(const WeatherMaker *maker, WeatherDay *days)
{
    Found f = {0};
    double count = YEARS * (double)DAYS, after_wet = 0.0, wind = 0.0,
           wind2 = 0.0;
    for (uint32_t year = 0; year < YEARS; year++) {
        WeatherAsk ask = {2012u, year, date_from_civil((CivilDate){2013, 1, 1}),
                          DAYS};
        weather_draw_days(maker, &ask, days);
        double max_before = 0.0, min_before = 0.0;
        for (int d = 0; d < DAYS; d++) {
            WeatherSpread is = weather_spread(maker, d);
            double max = days[d].day.max_degc - is.max_degc;
            double min = days[d].day.min_degc - is.min_degc;
            f.max_mean += days[d].day.max_degc / count;
            f.min_mean += days[d].day.min_degc / count;
            f.wet_frac += days[d].is_wet / count;
            f.max_lag += max * max_before / count;
            f.min_lag += min * min_before / count;
            f.max_sd += max * max / count;
            f.min_sd += min * min / count;
            wind += days[d].day.wind_m_s / count;
            wind2 += days[d].day.wind_m_s * days[d].day.wind_m_s / count;
            if (d > 0 && days[d - 1].is_wet) {
                after_wet += 1.0;
                f.wet_after_wet += days[d].is_wet;
            } else if (d > 0) {
                f.wet_after_dry += days[d].is_wet;
            }
            max_before = max;
            min_before = min;
        }
    }
    f.max_lag /= f.max_sd;
    f.min_lag /= f.min_sd;
    f.max_sd = sqrt(f.max_sd);
    f.min_sd = sqrt(f.min_sd);
    f.wet_after_wet /= after_wet;
    f.wet_after_dry /= count - YEARS - after_wet;
    f.wind_cv = sqrt(wind2 - wind * wind) / wind;
    return f;
}

/* Seattle measured: mean 16.439 and 8.235, 623 wet days of 1461, P(W|D) 0.2437,
 * P(W|W) 0.6726; about two harmonics: lag-1 0.669 and 0.721, spread 3.54 and
 * 2.64; wind's coefficient of variation 0.443. The shortcut from monthly wet
 * days makes spells of rain shorter than here, and the matrices are those of
 * the United States as a whole: bounds of 0.11. */
static void a_hundred_drawn_years_resemble_four_measured_ones(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    WeatherMaker *maker = seattle(&arena);
    Found f = found_of(maker, ARENA_ARRAY(&arena, WeatherDay, DAYS));
    assert_near(f.max_mean, 16.439, 0.25);
    assert_near(f.min_mean, 8.235, 0.25);
    assert_near(f.wet_frac, 623.0 / 1461.0, 0.02);
    assert_near(f.wet_after_dry, 0.2437, 0.11);
    assert_near(f.wet_after_wet, 0.6726, 0.11);
    assert_near(f.max_lag, 0.669, 0.11);
    assert_near(f.min_lag, 0.721, 0.11);
    assert_near(f.max_sd, 3.54, 0.4);
    assert_near(f.min_sd, 2.64, 0.4);
    assert_near(f.wind_cv, 0.443, 0.07);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_hundred_drawn_years_resemble_four_measured_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
