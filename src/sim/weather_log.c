/* LogReading a logger's file and laying it over the weather. */
#include "sim/weather_log.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "nature/air/vapour.h"
#include "nature/sun/solar.h"
#include "nature/sun/split.h"
#include "sim/weather_cells.h"

enum { LOG_TIME, LOG_TEMP, LOG_RH, LOG_WIND, LOG_SUN, LOG_COLUMNS };

static const WeatherColumn COLUMNS[LOG_COLUMNS] = {
    {"time", true, 0, 0},
    {"temp_degc", true, -60, 60},
    {"rh_pct", false, 0, 100},
    {"wind_m_s", false, 0, 60},
    {"sun_w_m2", false, 0, 1500}};

/* Dew points are not taken below this; drier air is not met on a farm. */
static const double RH_LEAST_FRAC = 0.02;

typedef struct LogRow {
    int64_t hour; /* by the sun */
    double value[LOG_COLUMNS];
} LogRow;

typedef struct LogReading {
    WeatherSheet sheet;
    Arena *arena;
    LogRow *rows;
    size_t count, room;
    double ahead_h;
    double before_h; /* the clock of the last row, as written */
    bool has_before;
    bool was_back; /* the clock was set back within the last hours */
    double back_until_h;
    double shift_h; /* to add to the clock as written */
} LogReading;

static bool parse_time(const CsvCell *cell, double *out_h)
{
    char date[11] = "";
    int hour = -1, minute = -1, second = 0, used = 0;
    if (cell->length < 16 || cell->length > 19) {
        return false;
    }
    memcpy(date, cell->text, 10);
    int32_t day = 0;
    Err err = date_parse(date, &day);
    char mark = cell->text[10];
    int got = sscanf(cell->text + 11, "%2d:%2d%n", &hour, &minute, &used);
    const char *rest = cell->text + 11 + used;
    if (err.kind != ERR_OK || (mark != ' ' && mark != 'T') || got != 2) {
        return false;
    }
    if (*rest && (sscanf(rest, ":%2d%n", &second, &used) != 1 || rest[used])) {
        return false;
    }
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 ||
        second > 59) {
        return false;
    }
    *out_h = day * 24.0 + hour + minute / 60.0 + second / 3600.0;
    return true;
}

/* Clocks change on Sundays in spring and autumn of either half of the world. */
static bool is_change_night(double clock_h)
{
    int32_t day = (int32_t)floor(clock_h / 24.0);
    double hour = clock_h - 24.0 * day;
    int month = date_month(day);
    bool is_season = month == 3 || month == 4 || (month >= 9 && month <= 11);
    return is_season && date_weekday(day) == 6 && hour > 0.5 && hour < 3.5;
}

/* Follows the clock from row to row; false where a time goes back for no
 * reason. */
static bool follow_clock(LogReading *r, const CsvCell *cell, double clock_h)
{
    FaultPlace place = {r->sheet.file, cell->line, cell->column};
    double step_h = clock_h - r->before_h;
    if (!r->has_before) {
        return true;
    }
    if (step_h <= 0.0 && step_h > -1.01 && is_change_night(clock_h) &&
        !(r->was_back && clock_h < r->back_until_h + 24.0)) {
        r->was_back = true;
        r->back_until_h = r->before_h;
        r->shift_h += 1.0;
        faults_notice(r->sheet.faults, place, cell->text,
                      "an hour comes twice: taken as a clock set back");
        return true;
    }
    if (step_h <= 0.0) {
        faults_add(r->sheet.faults, place, cell->text,
                   "a time after that of the row before");
        return false;
    }
    if (step_h > 1.0 + 1e-6 && step_h < 2.0 + 1e-6 &&
        is_change_night(r->before_h)) {
        r->shift_h -= 1.0;
        faults_notice(r->sheet.faults, place, cell->text,
                      "an hour is left out: taken as a clock set forward");
    }
    return true;
}

static void keep_row(LogReading *r, const LogRow *row)
{
    if (r->count == r->room) {
        size_t room = r->room ? 2 * r->room : 1024;
        r->rows =
            arena_grow(r->arena, r->rows, r->count, room, sizeof *r->rows);
        r->room = room;
    }
    r->rows[r->count++] = *row;
}

static void take_row(void *self, const CsvRow *row)
{
    LogReading *r = self;
    if (!r->sheet.has_header) {
        weather_sheet_header(&r->sheet, row);
        return;
    }
    if (!r->sheet.is_usable || row->is_damaged ||
        r->count >= WEATHER_LOG_ROWS_MAX) {
        return;
    }
    const CsvCell *time = weather_cell(&r->sheet, row, LOG_TIME);
    double clock_h = 0.0;
    if (!time || !parse_time(time, &clock_h)) {
        faults_add(
            r->sheet.faults,
            (FaultPlace){r->sheet.file, row->line, time ? time->column : 0},
            time ? time->text : "", "a time as \"2027-03-28 01:00\"");
        return;
    }
    LogRow is = {0};
    bool is_sound = follow_clock(r, time, clock_h);
    for (int i = LOG_TEMP; i < LOG_COLUMNS; i++) {
        is_sound = weather_number(&r->sheet, row, i, &is.value[i]) && is_sound;
    }
    if (!is_sound) {
        return;
    }
    r->before_h = clock_h;
    r->has_before = true;
    /* A thousandth of an hour: minutes are not whole parts of one. */
    is.hour = (int64_t)floor(clock_h + r->shift_h - r->ahead_h + 1e-3);
    keep_row(r, &is);
}

static void take_fault(void *self, const CsvFault *fault)
{
    const LogReading *r = self;
    weather_sheet_fault(&r->sheet, fault);
}

static double *nan_array(Arena *arena, int64_t count)
{
    double *array = ARENA_ARRAY(arena, double, count);
    for (int64_t i = 0; i < count; i++) {
        array[i] = NAN;
    }
    return array;
}

/* Means of the rows of each hour, column by column. */
static void mean_hours(const LogReading *r, int column, double *out,
                       int64_t from_hour)
{
    double sum = 0.0;
    int count = 0;
    for (size_t i = 0; i < r->count; i++) {
        const LogRow *row = &r->rows[i];
        if (!isnan(row->value[column])) {
            sum += row->value[column];
            count++;
        }
        bool is_last = i + 1 == r->count || r->rows[i + 1].hour != row->hour;
        if (is_last && count > 0) {
            out[row->hour - from_hour] = sum / count;
        }
        if (is_last) {
            sum = 0.0;
            count = 0;
        }
    }
}

static void tell_hole(const LogReading *r, const WeatherLog *log, int64_t from,
                      int64_t until)
{
    char date[DATE_TEXT_SIZE];
    double clock_h = (double)(log->from_hour + from) + r->ahead_h + 1e-3;
    int32_t day = (int32_t)floor(clock_h / 24.0);
    date_format(day, date);
    faults_notice(r->sheet.faults, (FaultPlace){r->sheet.file, 0, 0}, date,
                  "no temperature from about %d o'clock on for %lld h: %s",
                  (int)(clock_h - 24.0 * day), (long long)(until - from),
                  until - from <= WEATHER_LOG_BRIDGE_H
                      ? "bridged"
                      : "the weather stays as it was");
}

static void tell_holes(const LogReading *r, const WeatherLog *log)
{
    for (int64_t i = 0; i < log->count; i++) {
        int64_t until = i;
        while (until < log->count && isnan(log->temp_degc[until])) {
            until++;
        }
        if (until > i) {
            tell_hole(r, log, i, until);
            i = until;
        }
    }
}

void weather_log_read(const WeatherLogAsk *ask, Arena *arena, Faults *faults,
                      WeatherLog *out)
{
    LogReading r = {.sheet =
                        weather_sheet(ask->file, COLUMNS, LOG_COLUMNS, faults),
                    .arena = arena,
                    .ahead_h = ask->clock_ahead_h};
    CsvHandler handler = {&r, take_row, take_fault};
    csv_read_bytes(ask->bytes, ask->length, &handler);
    memset(out, 0, sizeof *out);
    FaultPlace whole = {ask->file, 0, 0};
    if (r.count == 0) {
        faults_add(faults, whole, "", "a header and at least one row");
        return;
    }
    int64_t first = r.rows[0].hour, last = r.rows[r.count - 1].hour;
    if (last - first >= WEATHER_LOG_HOURS_MAX) {
        faults_add(faults, whole, "", "no more than thirty years");
        return;
    }
    WeatherLog log = {.from_hour = first, .count = last - first + 1};
    double **columns[LOG_COLUMNS] = {NULL, &log.temp_degc, &log.rh_frac,
                                     &log.wind_m_s, &log.sun_w_m2};
    for (int i = LOG_TEMP; i < LOG_COLUMNS; i++) {
        *columns[i] = nan_array(arena, log.count);
        mean_hours(&r, i, *columns[i], first);
    }
    for (int64_t i = 0; i < log.count; i++) {
        log.rh_frac[i] /= 100.0;
    }
    tell_holes(&r, &log);
    *out = log;
}

/* The value of an hour, bridged over short holes; NAN in long ones. */
static double value_at(const double *values, int64_t count, int64_t at)
{
    int64_t before = at, after = at;
    while (before >= 0 && isnan(values[before]) &&
           at - before <= WEATHER_LOG_BRIDGE_H) {
        before--;
    }
    while (after < count && isnan(values[after]) &&
           after - at <= WEATHER_LOG_BRIDGE_H) {
        after++;
    }
    if (before < 0 || after >= count || isnan(values[before]) ||
        isnan(values[after]) || after - before > WEATHER_LOG_BRIDGE_H + 1) {
        return NAN;
    }
    if (after == before) {
        return values[at];
    }
    double part = (double)(at - before) / (double)(after - before);
    return values[before] * (1.0 - part) + values[after] * part;
}

static void apply_sun(const WeatherHours *to, int64_t at, double sun_w_m2)
{
    WeatherHour *hour = &to->hours[at];
    int doy = date_day_of_year(to->from_day + (int32_t)(at / 24));
    double angle = SUN_PI / 12.0 * ((double)(at % 24) + 1.0 / 2.0 - 12.0);
    double up =
        sun_direction(to->latitude_deg, sun_declination_rad(doy), angle).up;
    double diffuse = 1.0;
    if (up > 0.0) {
        diffuse = sun_diffuse_frac_hour(sun_clearness(sun_w_m2, up, doy));
    }
    hour->diffuse_w_m2 = sun_w_m2 * diffuse;
    hour->direct_w_m2 = sun_w_m2 * (1.0 - diffuse);
}

/* One hour of the log over one of the weather; false without temperature. */
static bool apply_hour(const WeatherLog *log, int64_t i, const WeatherHours *to,
                       int64_t at)
{
    WeatherHour *hour = &to->hours[at];
    double temp = value_at(log->temp_degc, log->count, i);
    double rh = value_at(log->rh_frac, log->count, i);
    double wind = value_at(log->wind_m_s, log->count, i);
    double sun = value_at(log->sun_w_m2, log->count, i);
    if (!isnan(wind)) {
        hour->wind_m_s = wind;
    }
    if (!isnan(sun)) {
        apply_sun(to, at, sun);
    }
    if (isnan(temp)) {
        return false;
    }
    double full_kpa = air_saturation_kpa(fmax(temp, -39.0));
    hour->outside_degc = temp;
    hour->vapour_kpa = isnan(rh) ? fmin(hour->vapour_kpa, full_kpa)
                                 : fmax(rh, RH_LEAST_FRAC) * full_kpa;
    return true;
}

int64_t weather_log_apply(const WeatherLog *log, const WeatherHours *to)
{
    int64_t start = (int64_t)to->from_day * 24, written = 0;
    for (int64_t i = 0; i < log->count; i++) {
        int64_t at = log->from_hour + i - start;
        if (at >= 0 && at < (int64_t)to->days * 24) {
            written += apply_hour(log, i, to, at);
        }
    }
    return written;
}
