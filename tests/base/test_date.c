/* Days, weeks and months against the C library and the standard's examples. */
#define _GNU_SOURCE
#include "check.h"

#include <time.h>

#include "base/date.h"

static void every_day_agrees_with_the_c_library(void **state)
{
    (void)state;
    for (int32_t day = -25567; day < 84006; day++) {
        time_t seconds = (time_t)day * 86400;
        struct tm tm = {0};
        gmtime_r(&seconds, &tm);
        CivilDate civil = date_to_civil(day);
        assert_int_equal(civil.year, tm.tm_year + 1900);
        assert_int_equal(civil.month, tm.tm_mon + 1);
        assert_int_equal(civil.day, tm.tm_mday);
        assert_int_equal(date_from_civil(civil), day);
        assert_int_equal(date_weekday(day), (tm.tm_wday + 6) % 7);
        assert_int_equal(date_day_of_year(day), tm.tm_yday + 1);
        char iso[16];
        char ours[DATE_TEXT_SIZE];
        strftime(iso, sizeof iso, "%G-W%V", &tm);
        week_format(day, ours);
        assert_string_equal(ours, iso);
    }
}

static void dates_in_text_go_there_and_back(void **state)
{
    (void)state;
    int32_t day = 0;
    assert_ok(date_parse("2027-03-01", &day));
    assert_int_equal(date_weekday(day), 0);
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    assert_string_equal(text, "2027-03-01");
    assert_ok(week_parse("2027-W09", &day));
    date_format(day, text);
    assert_string_equal(text, "2027-03-01");
}

static void what_is_no_date_is_refused_by_name(void **state)
{
    (void)state;
    int32_t day = 7;
    assert_err(date_parse("01.03.2027", &day), ERR_INPUT, "01.03.2027");
    assert_err(date_parse("2027-02-29", &day), ERR_INPUT, "no such day");
    assert_err(date_parse("2027-13-01", &day), ERR_INPUT, "2027-13-01");
    assert_err(date_parse("", &day), ERR_INPUT, "not a date");
    assert_err(week_parse("2027-W53", &day), ERR_INPUT, "2027 has no week 53");
    assert_ok(week_parse("2026-W53", &day));
    assert_err(week_parse("2027-14", &day), ERR_INPUT, "2027-14");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_day_agrees_with_the_c_library),
        cmocka_unit_test(dates_in_text_go_there_and_back),
        cmocka_unit_test(what_is_no_date_is_refused_by_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
