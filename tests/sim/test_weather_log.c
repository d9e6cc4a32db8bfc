/* A logger's file and a typed forecast: read, told, laid over the weather. The
 * place and the files are invented. */
#include "sim/weather_log.h"

#include "base/date.h"
#include "nature/air/vapour.h"
#include "sim/weather_forecast.h"

#include "check.h"

static WeatherLogAsk ask_of(const char *text)
{
    return (WeatherLogAsk){"log.csv", text, strlen(text), 0.0};
}

static Faults faults_of(Arena *arena)
{
    Faults faults;
    faults_init(&faults, arena, 50);
    return faults;
}

/* A fault or notice whose text holds the words stands at the line. */
static void assert_told(const Fault *items, int32_t count, int32_t line,
                        const char *words)
{
    for (int32_t i = 0; i < count; i++) {
        if (items[i].place.line == line && strstr(items[i].expected, words)) {
            return;
        }
    }
    print_error("line %d: \"%s\" is not told\n", (int)line, words);
    fail();
}

static int64_t hour_of(int month, int day, int hour)
{
    return date_from_civil((CivilDate){2027, month, day}) * 24LL + hour;
}

static void rows_of_an_hour_are_averaged(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherLog log;
    WeatherLogAsk ask = ask_of("rh_pct,time,temp_degc\n"
                               "81,2027-02-03 05:00,3.1\n"
                               "83,2027-02-03 05:20,3.7\n"
                               ",2027-02-03T05:40:30,2.2\n"
                               "77,2027-02-03 06:00,4.9\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_int_equal(faults.count, 0);
    assert_int_equal(faults.notice_total, 0);
    assert_int_equal(log.count, 2);
    assert_int_equal(log.from_hour, hour_of(2, 3, 5));
    assert_near(log.temp_degc[0], 3.0, 1e-12);
    assert_near(log.rh_frac[0], 0.82, 1e-12);
    assert_near(log.temp_degc[1], 4.9, 1e-12);
    assert_true(isnan(log.wind_m_s[1]));
}

static void a_semicolon_table_has_decimal_commas(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherLog log;
    WeatherLogAsk ask = ask_of("time;temp_degc\n2027-02-03 05:00;3,125\n");
    ask.clock_ahead_h = 1.4;
    weather_log_read(&ask, &arena, &faults, &log);
    assert_int_equal(faults.count, 0);
    assert_near(log.temp_degc[0], 3.125, 1e-12);
    assert_int_equal(log.from_hour, hour_of(2, 3, 3));
}

static void an_hour_doubled_by_the_clock_is_told_and_set_right(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherLog log;
    /* 31 October 2027 is a Sunday. */
    WeatherLogAsk ask = ask_of("time,temp_degc\n"
                               "2027-10-31 00:00,9.1\n"
                               "2027-10-31 01:00,8.7\n"
                               "2027-10-31 01:00,8.2\n"
                               "2027-10-31 02:00,7.9\n"
                               "2027-10-31 03:00,7.4\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_int_equal(faults.count, 0);
    assert_int_equal(faults.notice_total, 1);
    assert_told(faults.notices, faults.notice_count, 4, "set back");
    assert_int_equal(log.count, 5);
    assert_near(log.temp_degc[1], 8.7, 1e-12);
    assert_near(log.temp_degc[2], 8.2, 1e-12);
    assert_near(log.temp_degc[4], 7.4, 1e-12);
}

static void a_clock_set_forward_leaves_no_hole(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherLog log;
    /* 28 March 2027 is a Sunday; the 27th is not. */
    WeatherLogAsk ask = ask_of("time,temp_degc\n"
                               "2027-03-28 00:00,9.1\n"
                               "2027-03-28 01:00,8.7\n"
                               "2027-03-28 03:00,8.2\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_told(faults.notices, faults.notice_count, 4, "set forward");
    assert_int_equal(log.count, 3);
    assert_near(log.temp_degc[2], 8.2, 1e-12);
    ask = ask_of("time,temp_degc\n"
                 "2027-03-27 00:00,9.1\n"
                 "2027-03-27 01:00,8.7\n"
                 "2027-03-27 03:00,8.2\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_int_equal(log.count, 4);
    assert_true(isnan(log.temp_degc[2]));
}

static void every_fault_is_told_with_its_line(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherLog log;
    WeatherLogAsk ask = ask_of("time,temp_degc,rh_pct,colour\n"
                               "2027-02-30 05:00,3.1,80,x\n"
                               "2027-02-03 24:00,3.1,80,x\n"
                               "2027-02-03 05:00,warm,80,x\n"
                               "2027-02-03 06:00,3.1,180,x\n"
                               "2027-02-03 07:00,3.5,80,x\n"
                               "2027-02-03 03:00,3.1,80,x\n"
                               ",3.1,80,x\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_int_equal(faults.count, 6);
    assert_told(faults.items, faults.kept_count, 2, "a time as");
    assert_told(faults.items, faults.kept_count, 3, "a time as");
    assert_told(faults.items, faults.kept_count, 4, "-60 to 60");
    assert_told(faults.items, faults.kept_count, 5, "0 to 100");
    assert_told(faults.items, faults.kept_count, 7, "after that");
    assert_told(faults.items, faults.kept_count, 8, "a time as");
    assert_told(faults.notices, faults.notice_count, 1, "not read");
    assert_int_equal(log.count, 1);
    assert_near(log.temp_degc[0], 3.5, 1e-12);
}

static void a_file_without_rows_or_columns_is_refused(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    WeatherLog log;
    const char *texts[] = {"", "time,temp_degc\n", "time,rh_pct\n1,2\n",
                           "\"time,temp_degc\n", "\xff\xfe\n,,,\n"};
    for (int i = 0; i < 5; i++) {
        Faults faults = faults_of(&arena);
        WeatherLogAsk ask = ask_of(texts[i]);
        weather_log_read(&ask, &arena, &faults, &log);
        assert_true(faults.count > 0);
        assert_int_equal(log.count, 0);
    }
    Faults faults = faults_of(&arena);
    WeatherLogAsk ask = ask_of("time,temp_degc\n"
                               "1927-02-03 05:00,3.5\n2027-02-03 05:00,3.5\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_told(faults.items, faults.kept_count, 0, "thirty years");
}

static void short_holes_are_bridged_and_long_ones_left(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherLog log;
    WeatherLogAsk ask = ask_of("time,temp_degc,rh_pct,sun_w_m2\n"
                               "2027-06-02 10:00,20.4,50,700\n"
                               "2027-06-02 13:00,23.4,,790\n"
                               "2027-06-02 18:00,21.1,45,\n");
    weather_log_read(&ask, &arena, &faults, &log);
    assert_int_equal(faults.notice_total, 2);
    WeatherHour hours[48];
    for (int i = 0; i < 48; i++) {
        hours[i] = (WeatherHour){.outside_degc = 11.7, .vapour_kpa = 1.3};
    }
    WeatherHours to = {hours, date_from_civil((CivilDate){2027, 6, 2}), 2,
                       38.7};
    assert_int_equal(weather_log_apply(&log, &to), 5);
    assert_near(hours[9].outside_degc, 11.7, 1e-12);
    assert_near(hours[11].outside_degc, 21.4, 1e-12);
    assert_near(hours[12].outside_degc, 22.4, 1e-12);
    assert_near(hours[15].outside_degc, 11.7, 1e-12);
    assert_near(hours[18].outside_degc, 21.1, 1e-12);
    assert_near(hours[10].vapour_kpa, 0.5 * air_saturation_kpa(20.4), 1e-12);
    assert_near(hours[13].vapour_kpa, 1.3, 1e-12);
    assert_near(hours[12].direct_w_m2 + hours[12].diffuse_w_m2, 760.0, 1e-9);
    assert_true(hours[12].direct_w_m2 > hours[12].diffuse_w_m2);
}

/* ---- The forecast -------------------------------------------------------- */

static WeatherMaker *maker_of(Arena *arena)
{
    ClimateNormals normals = {.latitude_deg = 38.7, .altitude_m = 143.0};
    for (int i = 0; i < 12; i++) {
        normals.max_degc[i] = 19.3;
        normals.min_degc[i] = 9.4;
        normals.sun_mj_m2_d[i] = i > 2 && i < 9 ? 20.1 : 9.3;
        normals.rh_frac[i] = 0.7;
        normals.wind_m_s[i] = 2.4;
        normals.wet_frac[i] = 0.2;
    }
    Book book;
    WeatherMaker *maker = NULL;
    assert_ok(book_load(arena, &book));
    assert_ok(weather_make_from(&normals, book.common, arena, &maker));
    return maker;
}

static void a_forecast_replaces_its_days_and_no_others(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherForecast forecast;
    WeatherLogAsk ask = ask_of("date,tmin_degc,tmax_degc,cloud_pct,wind_m_s\n"
                               "2027-02-03,-3.7,6.1,10,0.6\n"
                               "2027-02-04,-5.2,7.3,,\n");
    weather_forecast_read(&ask, &faults, &forecast);
    assert_int_equal(faults.count, 0);
    assert_int_equal(forecast.count, 2);
    WeatherMaker *maker = maker_of(&arena);
    enum { DAYS = 5 };
    WeatherHour drawn[DAYS * 24], hours[DAYS * 24];
    int32_t from = date_from_civil((CivilDate){2027, 2, 3});
    WeatherAsk draw = {17u, 4u, from, DAYS};
    weather_draw(maker, &draw, drawn);
    memcpy(hours, drawn, sizeof hours);
    WeatherHours to = {hours, from, DAYS, 38.7};
    assert_int_equal(weather_forecast_apply(maker, &forecast, &to), 2);
    double least[2] = {99, 99}, most[2] = {-99, -99}, wind = 0.0, sun = 0.0;
    for (int i = 0; i < 48; i++) {
        least[i / 24] = fmin(least[i / 24], hours[i].outside_degc);
        most[i / 24] = fmax(most[i / 24], hours[i].outside_degc);
        wind += i < 24 ? hours[i].wind_m_s / 24.0 : 0.0;
        sun += i < 24 ? (hours[i].direct_w_m2 + hours[i].diffuse_w_m2) * 0.0036
                      : 0.0;
    }
    assert_near(least[0], -3.7, 1.2);
    assert_near(least[1], -5.2, 1.2);
    assert_near(most[0], 6.1, 0.4);
    assert_near(most[1], 7.3, 0.4);
    assert_near(wind, 0.6, 1e-9);
    /* (0.25 + 0.5 x 0.9) Ra; Ra of 3 February at 38.7 N by [FAO56] 21. */
    assert_near(sun, 0.7 * 18.8, 0.3);
    assert_memory_equal(hours + 48, drawn + 48,
                        (DAYS - 2) * 24 * sizeof *hours);
}

static void a_forecast_that_cannot_be_is_told(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults = faults_of(&arena);
    WeatherForecast forecast;
    WeatherLogAsk ask = ask_of("date,tmin_degc,tmax_degc\n"
                               "2027-02-03,7.7,6.1\n"
                               "2027-02-04,1.7,6.1\n"
                               "2027-02-04,1.7,6.1\n"
                               "2027-02-05,,6.1\n"
                               "tomorrow,1.7,6.1\n");
    weather_forecast_read(&ask, &faults, &forecast);
    assert_int_equal(faults.count, 4);
    assert_told(faults.items, faults.kept_count, 2, "a maximum");
    assert_told(faults.items, faults.kept_count, 4, "after that");
    assert_told(faults.items, faults.kept_count, 5, "a maximum");
    assert_told(faults.items, faults.kept_count, 6, "a date");
    assert_int_equal(forecast.count, 1);
    Faults none = faults_of(&arena);
    ask = ask_of("");
    weather_forecast_read(&ask, &none, &forecast);
    assert_int_equal(none.count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_of_an_hour_are_averaged),
        cmocka_unit_test(a_semicolon_table_has_decimal_commas),
        cmocka_unit_test(an_hour_doubled_by_the_clock_is_told_and_set_right),
        cmocka_unit_test(a_clock_set_forward_leaves_no_hole),
        cmocka_unit_test(every_fault_is_told_with_its_line),
        cmocka_unit_test(a_file_without_rows_or_columns_is_refused),
        cmocka_unit_test(short_holes_are_bridged_and_long_ones_left),
        cmocka_unit_test(a_forecast_replaces_its_days_and_no_others),
        cmocka_unit_test(a_forecast_that_cannot_be_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
