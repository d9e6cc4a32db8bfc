/* What the parts of the weather share; not for callers. */
#ifndef LEAT_SIM_WEATHER_PARTS_H
#define LEAT_SIM_WEATHER_PARTS_H

#include "sim/weather.h"

enum { WEATHER_DRY, WEATHER_WET, WEATHER_STATES, WEATHER_BURN_IN = 45 };

/* A day of the year, dry or wet: where the drawn values lie. */
typedef struct WeatherState {
    double mid_degc; /* mean of maximum and minimum */
    double max_sd_k;
    double min_sd_k;
    double span_mean_k; /* max - min: the normal's own mean, and its floor */
    double span_least_k;
    double sun_mj_m2_d; /* the normal's own mean */
    double sun_sd_mj_m2_d;
    double rh_frac; /* the normal's own mean */
} WeatherState;

typedef struct WeatherSky {
    double sun_share[24]; /* of the day's sun, adding up to 1 */
    double up[24];        /* sine of the sun's height */
    double clear_mj_m2_d; /* below a clear sky */
    double most_mj_m2_d;  /* what a day may have */
    double least_mj_m2_d;
    double wet_after_dry;
    double wet_after_wet;
    double wet_frac; /* as the chain has it */
} WeatherSky;

struct WeatherMaker {
    ClimateNormals normals;
    ClimateDay typical[CLIMATE_YEAR_DAYS];
    WeatherSky skies[CLIMATE_YEAR_DAYS];
    WeatherState states[CLIMATE_YEAR_DAYS][WEATHER_STATES];
    double typical_rh_frac[CLIMATE_YEAR_DAYS];
    double rh_sd_frac;
    double wind_shape;
    double wind_factor;
};

/* Draws day after day; holds no more than one day's state. */
typedef struct WeatherWalk {
    const WeatherMaker *maker; /* Borrowed. */
    Rng draws;
    int32_t date;
    double residual[WEATHER_RESIDUALS];
    bool was_wet;
} WeatherWalk;

/* The next day is the one before ask->from_day. */
WeatherWalk weather_walk_start(const WeatherMaker *maker,
                               const WeatherAsk *ask);
void weather_walk_next(WeatherWalk *walk, WeatherDay *out);

/* Hours of the middle one of three days. */
void weather_fill_hours(const WeatherMaker *maker, const WeatherDay three[3],
                        int32_t date, WeatherHour out[24]);

/* 0..364; 31 December twice in a leap year. */
int weather_day_of_year(int32_t date);

#endif
