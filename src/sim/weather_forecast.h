/* A forecast for the coming days, typed by the grower, in place of typical or
 * drawn ones.
 *
 * The table: date, tmax_degc, tmin_degc (before that day's sunrise), and if
 * there are any cloud_pct (of the day's sky), rh_pct, wind_m_s (at 2 m); one
 * row a day, in order. */
#ifndef LEAT_SIM_WEATHER_FORECAST_H
#define LEAT_SIM_WEATHER_FORECAST_H

#include "farm/faults.h"
#include "farm/records.h"
#include "sim/weather_log.h"

enum { WEATHER_FORECAST_MAX = FORECAST_DAYS_MOST };

typedef struct WeatherForecastDay {
    int32_t date;
    double max_degc, min_degc;
    double cloud_frac, rh_frac, wind_m_s; /* NAN: not said */
} WeatherForecastDay;

typedef struct WeatherForecast {
    WeatherForecastDay days[WEATHER_FORECAST_MAX];
    int count;
} WeatherForecast;

/* Faults for what is no number or date, a maximum below the minimum, a date not
 * after the one before, and rows beyond a month. */
void weather_forecast_read(const WeatherLogAsk *ask, Faults *faults,
                           WeatherForecast *out);

/* The same from the farm's own table forecast, in the order of its days. */
void weather_forecast_of_farm(const Farm *farm, WeatherForecast *out);

/* What is said of a date, NULL for nothing. */
const WeatherForecastDay *weather_forecast_day(const WeatherForecast *forecast,
                                               int32_t date);

/* Writes its days over the hours; returns how many days. What is not said is
 * typical. The sun of a day with a cloudy share c of the sky is
 *     Rs = (0.25 + 0.50 (1 - c)) Ra
 * Source: [FAO56] chapter 3, equation 35, with 1 - c for n/N, which is ours. */
int weather_forecast_apply(const WeatherMaker *maker,
                           const WeatherForecast *forecast,
                           const WeatherHours *to);

#endif
