/* A logger's temperature and humidity by the hour, in place of what was drawn.
 *
 * The table: time ("2027-03-28 01:00", also with a T between and with seconds),
 * temp_degc, and if there are any rh_pct, wind_m_s (at 2 m), sun_w_m2 (on the
 * flat), in any order. Times are by the clock on the wall of the first row. An
 * hour that comes twice (a clock set back) and a step of one hour too many on a
 * Sunday of spring or autumn at 1 to 3 o'clock (set forward) are told and set
 * right; rows of one hour are averaged. */
#ifndef LEAT_SIM_WEATHER_LOG_H
#define LEAT_SIM_WEATHER_LOG_H

#include "farm/faults.h"
#include "sim/weather.h"

enum { WEATHER_LOG_ROWS_MAX = 1000000, WEATHER_LOG_HOURS_MAX = 30 * 366 * 24 };

/* Hours without a value hold NAN. */
typedef struct WeatherLog {
    int64_t from_hour; /* since 1970-01-01 0 h, by the sun */
    int64_t count;
    double *temp_degc; /* Owned by the arena, as the others. */
    double *rh_frac;
    double *wind_m_s;
    double *sun_w_m2;
} WeatherLog;

typedef struct WeatherLogAsk {
    const char *file;  /* Borrowed: its name, for what is told. */
    const char *bytes; /* Borrowed. */
    size_t length;
    double clock_ahead_h; /* of the sun, at the first row */
} WeatherLogAsk;

/* Everything wrong is told in faults: cells that are no number or out of
 * bounds, times that go back, a missing column; as notices: holes, with their
 * first hour and length, and clocks set forward or back. What is sound is in
 * out all the same. */
void weather_log_read(const WeatherLogAsk *ask, Arena *arena, Faults *faults,
                      WeatherLog *out);

/* Holes up to this long are bridged by a straight line; within longer ones the
 * weather stays as it was. Judged: a night's cold does not hide in it. */
enum { WEATHER_LOG_BRIDGE_H = 3 };

/* Writes the log over hours, which begin at 0 h of from_day; returns how many
 * hours hold a logged or bridged temperature. Humidity without a column keeps
 * the vapour pressure, as far as the air can hold it. Sun is split by the
 * hour's clearness at latitude_deg. */
typedef struct WeatherHours {
    WeatherHour *hours; /* Borrowed. */
    int32_t from_day;
    int days;
    double latitude_deg;
} WeatherHours;
int64_t weather_log_apply(const WeatherLog *log, const WeatherHours *to);

#endif
