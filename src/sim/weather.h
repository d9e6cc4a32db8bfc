/* Weather by the hour: the typical year of the monthly normals, and years that
 * could be, drawn about them.
 *
 * A maker is what stays the same and can be shared; drawing writes only what it
 * is given and allocates nothing. A year's number and the date alone fix its
 * draws: year k is the same bits drawn alone, in a batch, in any order, on any
 * core. Hours are by the sun. docs/weather.md tells the model. */
#ifndef LEAT_SIM_WEATHER_H
#define LEAT_SIM_WEATHER_H

#include "base/arena.h"
#include "base/rng.h"
#include "farm/book.h"
#include "farm/records.h"
#include "sim/climate_days.h"

/* Means over the hour. */
typedef struct WeatherHour {
    double outside_degc;
    double vapour_kpa;
    double wind_m_s;     /* at 2 m */
    double clear_frac;   /* of the sky, 0.3..1; the day's */
    double direct_w_m2;  /* sun on the flat, two parts */
    double diffuse_w_m2; /* */
} WeatherHour;

enum { WEATHER_MAX, WEATHER_MIN, WEATHER_SUN, WEATHER_RESIDUALS };

/* Share of the day-to-day residual x of maximum, minimum and sun that stays,
 * and what comes new:
 *     x(t) = A x(t-1) + B e(t),  e three independent standard normals
 *     A =  0.567  0.086 -0.002     B =  0.781  0      0
 *          0.253  0.504 -0.050          0.328  0.637  0
 *         -0.006 -0.039  0.244          0.238 -0.341  0.873
 * so that each has variance 1, and max-min correlate by 0.633, max-sun by
 * 0.186, min-sun by -0.193. Copies with 0.718 or 0.782 for 0.781, -0.314 for
 * -0.341 or +0.039 for -0.039 are misprints.
 * Source: [RICHARDSON1981]. */
extern const double WEATHER_STAYS[WEATHER_RESIDUALS][WEATHER_RESIDUALS];
extern const double WEATHER_COMES[WEATHER_RESIDUALS][WEATHER_RESIDUALS];

typedef struct WeatherDay {
    ClimateDay day; /* its vapour holds at night where it can */
    double rh_frac; /* mean of the hours */
    double residual[WEATHER_RESIDUALS];
    bool is_wet;
} WeatherDay;

typedef struct WeatherMaker WeatherMaker;

/* Everything in the arena. Uses the book's weather_.. figures with the farm's
 * own in them. Errors as climate_normals_read. */
NODISCARD Err weather_make(const Farm *farm, const Book *book, Arena *arena,
                           WeatherMaker **out);
NODISCARD Err weather_make_from(const ClimateNormals *normals,
                                const BookCommon *common, Arena *arena,
                                WeatherMaker **out);

/* Which days of which year that could be. */
typedef struct WeatherAsk {
    uint64_t seed;
    uint32_t year;    /* k, any number */
    int32_t from_day; /* the first date, from 1900 on */
    int days;         /* 1 or more */
} WeatherAsk;

/* Fills ask->days days; needs a buffer of so many. A run of days may begin
 * anywhere: days of the same seed, year and date agree to 1e-6 of a spread
 * whatever the first day, and exactly for the same first day. */
void weather_draw_days(const WeatherMaker *maker, const WeatherAsk *ask,
                       WeatherDay *out);

/* Fills 24 x ask->days hours. */
void weather_draw(const WeatherMaker *maker, const WeatherAsk *ask,
                  WeatherHour *out);

/* The typical year of the normals, as sim/climate_year has it: 24 x days. */
void weather_typical(const WeatherMaker *maker, int32_t from_day, int days,
                     WeatherHour *out);

/* ---- What stands behind, for tests and tables -------------------------- */

/* The model's own mean and spread of a day of the year 0..364, wet and dry
 * together, before values are held within bounds. */
typedef struct WeatherSpread {
    double wet_frac;
    double max_degc, max_sd_k;
    double min_degc, min_sd_k;
} WeatherSpread;
WeatherSpread weather_spread(const WeatherMaker *maker, int day);

/* Probability of rain after a dry day and after a wet one:
 *     P(W|D) = 0.75 f,  P(W|W) = 0.25 + P(W|D)
 * wet_frac  f, share of days with rain
 * Source: [GENG1986]. */
double weather_wet_after_dry(double wet_frac);
double weather_wet_after_wet(double wet_frac);

#endif
