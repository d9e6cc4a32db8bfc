/* Days, weeks and months; civil dates by the days-from-civil count of eras. */
#include "base/date.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/tongue.h"

enum { YEAR_MIN = 1900, YEAR_MAX = 2199, DAYS_PER_ERA = 146097 };

static int floor_div(int a, int b)
{
    return a / b - (a % b < 0);
}

int32_t date_from_civil(CivilDate civil)
{
    int year = civil.year - (civil.month <= 2);
    int era = floor_div(year, 400);
    int year_of_era = year - era * 400;
    int month_from_march = (civil.month + 9) % 12;
    int day_of_year = (153 * month_from_march + 2) / 5 + civil.day - 1;
    int day_of_era =
        year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return (int32_t)(era * DAYS_PER_ERA + day_of_era - 719468);
}

CivilDate date_to_civil(int32_t day)
{
    int shifted = day + 719468;
    int era = floor_div(shifted, DAYS_PER_ERA);
    int day_of_era = shifted - era * DAYS_PER_ERA;
    int year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 -
                       day_of_era / 146096) /
                      365;
    int day_of_year =
        day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    int month_from_march = (5 * day_of_year + 2) / 153;
    int month =
        month_from_march < 10 ? month_from_march + 3 : month_from_march - 9;
    return (CivilDate){
        .year = year_of_era + era * 400 + (month <= 2),
        .month = month,
        .day = day_of_year - (153 * month_from_march + 2) / 5 + 1,
    };
}

/* Reads exactly count digits; -1 where one is missing. */
static int read_digits(const char *text, int count)
{
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return -1;
        }
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

Err date_parse(const char *text, int32_t *out)
{
    CivilDate civil = {0};
    bool is_shaped = strlen(text) == 10 && text[4] == '-' && text[7] == '-';
    if (is_shaped) {
        civil = (CivilDate){.year = read_digits(text, 4),
                            .month = read_digits(text + 5, 2),
                            .day = read_digits(text + 8, 2)};
    }
    if (!is_shaped || civil.year < 0 || civil.month < 0 || civil.day < 0) {
        return err_make(ERR_INPUT, "\"%.40s\" is not a date as 2027-03-01",
                        text);
    }
    if (civil.year < YEAR_MIN || civil.year > YEAR_MAX || civil.month < 1 ||
        civil.month > 12 || civil.day < 1) {
        return err_make(ERR_INPUT, "%.40s is no day between %d and %d", text,
                        YEAR_MIN, YEAR_MAX);
    }
    int32_t day = date_from_civil(civil);
    CivilDate back = date_to_civil(day);
    if (back.day != civil.day || back.month != civil.month) {
        return err_make(ERR_INPUT, "%.40s: that month has no such day", text);
    }
    *out = day;
    return ERR_NONE;
}

void date_format(int32_t day, char out[DATE_TEXT_SIZE])
{
    CivilDate civil = date_to_civil(day);
    snprintf(out, DATE_TEXT_SIZE, "%04d-%02d-%02d", civil.year % 10000,
             civil.month % 100, civil.day % 100);
}

int date_weekday(int32_t day)
{
    int weekday = (int)(((int64_t)day + 3) % 7);
    return weekday < 0 ? weekday + 7 : weekday;
}

const char *date_weekday_name(int weekday)
{
    static const char *const NAMES[7] = {SAY("Mon"), SAY("Tue"), SAY("Wed"),
                                         SAY("Thu"), SAY("Fri"), SAY("Sat"),
                                         SAY("Sun")};
    assert(weekday >= 0 && weekday < 7);
    return NAMES[weekday];
}

const char *date_month_name(int month)
{
    static const char *const NAMES[12] = {
        SAY("Jan"), SAY("Feb"), SAY("Mar"), SAY("Apr"), SAY("May"), SAY("Jun"),
        SAY("Jul"), SAY("Aug"), SAY("Sep"), SAY("Oct"), SAY("Nov"), SAY("Dec")};
    assert(month >= 1 && month <= 12);
    return NAMES[month - 1];
}

int date_month(int32_t day)
{
    return date_to_civil(day).month;
}

int date_day_of_year(int32_t day)
{
    CivilDate civil = date_to_civil(day);
    return day - date_from_civil((CivilDate){civil.year, 1, 1}) + 1;
}

int32_t week_of(int32_t day)
{
    int weekday = date_weekday(day);
    return day < INT32_MIN + weekday ? INT32_MIN : day - weekday;
}

IsoWeek week_to_iso(int32_t day)
{
    /* A week belongs to the year that holds its Thursday. */
    int32_t thursday = week_of(day) + 3;
    return (IsoWeek){.year = date_to_civil(thursday).year,
                     .week = (date_day_of_year(thursday) - 1) / 7 + 1};
}

Err week_parse(const char *text, int32_t *out)
{
    int year = -1;
    int week = -1;
    if (strlen(text) == 8 && text[4] == '-' && text[5] == 'W') {
        year = read_digits(text, 4);
        week = read_digits(text + 6, 2);
    }
    if (year < YEAR_MIN || year > YEAR_MAX || week < 1 || week > 53) {
        return err_make(ERR_INPUT, "\"%.40s\" is not a week as 2027-W14", text);
    }
    int32_t fourth = date_from_civil((CivilDate){year, 1, 4});
    int32_t monday = week_of(fourth) + 7 * (week - 1);
    if (week_to_iso(monday).year != year) {
        return err_make(ERR_INPUT, "%d has no week %d", year, week);
    }
    *out = monday;
    return ERR_NONE;
}

void week_format(int32_t day, char out[DATE_TEXT_SIZE])
{
    IsoWeek iso = week_to_iso(day);
    snprintf(out, DATE_TEXT_SIZE, "%04d-W%02d", iso.year % 10000,
             iso.week % 100);
}
