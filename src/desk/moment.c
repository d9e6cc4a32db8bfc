/* A moment at the farm. */
#include "desk/moment.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/date.h"
#include "base/tongue.h"
#include "farm/cell.h"

enum { YEAR_D = 365, DAY_S = 86400, HHMM_LENGTH = 5, LOCAL_LENGTH = 16 };

static void use_zone(const Farm *farm)
{
    bool has_zone = farm->farm_count > 0 && farm->farm[0].timezone &&
                    *farm->farm[0].timezone;
    setenv("TZ", has_zone ? farm->farm[0].timezone : "UTC", 1);
    tzset();
}

static int64_t utc_of(int32_t day, int minute)
{
    CivilDate civil = date_to_civil(day);
    struct tm local = {.tm_year = civil.year - 1900,
                       .tm_mon = civil.month - 1,
                       .tm_mday = civil.day,
                       .tm_hour = minute / 60,
                       .tm_min = minute % 60,
                       .tm_isdst = -1};
    return (int64_t)mktime(&local);
}

int32_t moment_day(const char *at, int32_t today)
{
    char date[DATE_TEXT_SIZE] = {0};
    int32_t day = 0;
    if (today != DATE_ALWAYS || !at || strlen(at) < DATE_TEXT_SIZE - 6) {
        return today;
    }
    memcpy(date, at, DATE_TEXT_SIZE - 6);
    Err err = date_parse(date, &day);
    return err.kind == ERR_OK ? day : DATE_ALWAYS;
}

int64_t moment_utc(const Farm *farm, int32_t day, int minute)
{
    use_zone(farm);
    return utc_of(day, minute);
}

static void civil_of(int64_t at, int32_t *out_day, int *out_minute)
{
    time_t seconds = (time_t)at;
    struct tm local = {0};
    localtime_r(&seconds, &local);
    *out_day = date_from_civil((CivilDate){.year = local.tm_year + 1900,
                                           .month = local.tm_mon + 1,
                                           .day = local.tm_mday});
    *out_minute = local.tm_hour * 60 + local.tm_min;
}

/* "02:10" to minutes, or -1. */
static int minute_of(const char *text)
{
    if (strlen(text) != HHMM_LENGTH || text[2] != ':') {
        return -1;
    }
    for (int i = 0; i < HHMM_LENGTH; i++) {
        if (i != 2 && !isdigit((unsigned char)text[i])) {
            return -1;
        }
    }
    int hour = (text[0] - '0') * 10 + (text[1] - '0');
    int minute = (text[3] - '0') * 10 + (text[4] - '0');
    return hour < 24 && minute < 60 ? hour * 60 + minute : -1;
}

static Err parse_whole(const char *text, int64_t *out)
{
    static const Field INSTANT = {.kind = FIELD_INSTANT, .name = "at"};
    int32_t day = 0;
    if (strlen(text) == LOCAL_LENGTH && text[DATE_TEXT_SIZE - 6] == 'T') {
        char date[DATE_TEXT_SIZE] = {0};
        memcpy(date, text, DATE_TEXT_SIZE - 6);
        int minute = minute_of(text + DATE_TEXT_SIZE - 5);
        Err err = date_parse(date, &day);
        if (err.kind == ERR_OK && minute >= 0) {
            *out = utc_of(day, minute);
            return ERR_NONE;
        }
    }
    int64_t at = 0;
    Err err = cell_parse(&INSTANT, text, &at);
    if (err.kind != ERR_OK) {
        return err_make(ERR_USAGE,
                        "at=%.60s: expected 02:10, 2027-03-02T02:10, or that "
                        "with its offset as 2027-03-02T02:10+01:00",
                        text);
    }
    *out = at;
    return ERR_NONE;
}

static int32_t choose_day(const Farm *farm, int32_t clock_day, Arena *arena,
                          Moment *moment)
{
    if (farm->farm_count < 1 || farm->farm[0].records_from == DATE_ALWAYS) {
        return clock_day;
    }
    int32_t first = farm->farm[0].records_from;
    if (clock_day >= first && clock_day < first + YEAR_D) {
        return clock_day;
    }
    char today[DATE_TEXT_SIZE];
    date_format(clock_day, today);
    moment->notice =
        arena_say(arena,
                  "Today (%s) lies outside the year after the farm's tables: "
                  "answered for their first day.",
                  today);
    return first;
}

Err moment_find(const Farm *farm, const char *at, int32_t today, Arena *arena,
                Moment *out)
{
    Moment moment = {0};
    use_zone(farm);
    int32_t clock_day = 0;
    int clock_minute = 0;
    civil_of((int64_t)time(NULL), &clock_day, &clock_minute);
    int minute = at ? minute_of(at) : clock_minute;
    if (at && minute < 0) {
        TRY(parse_whole(at, &moment.at));
    } else {
        int32_t day = today != DATE_ALWAYS
                          ? today
                          : choose_day(farm, clock_day, arena, &moment);
        moment.at = utc_of(day, minute);
    }
    civil_of(moment.at, &moment.day, &moment.minute_of_day);
    CivilDate civil = date_to_civil(moment.day);
    moment.text = arena_text(
        arena, "%s %d %s %d %02d:%02d",
        say(arena, date_weekday_name(date_weekday(moment.day))), civil.day,
        say(arena, date_month_name(civil.month)), civil.year,
        moment.minute_of_day / 60, moment.minute_of_day % 60);
    *out = moment;
    return ERR_NONE;
}
