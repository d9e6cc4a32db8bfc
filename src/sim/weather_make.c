/* The tables from which weather is drawn: where each day's values lie, such
 * that the years drawn keep the monthly normals. */
#include <math.h>
#include <string.h>

#include "nature/sun/solar.h"
#include "sim/climate_model.h"
#include "sim/weather_held.h"
#include "sim/weather_parts.h"

/* Correlation of the residuals of maximum and minimum, as the matrices have
 * it. */
static const double MAX_MIN_CORRELATION = 0.634;
/* A span of the day's temperatures does not fall below this share of the
 * typical span, nor sun below this share of a clear sky; judged. */
static const double SPAN_LEAST_FRAC = 0.2;
static const double SUN_LEAST_FRAC = 0.08;
/* Dry days lie no nearer to a clear sky than this; judged. */
static const double DRY_MOST_FRAC = 0.94;
static const double WET_MOST_FRAC = 0.95;
static const double RH_LEAST_FRAC = 0.1;
static const double RH_MOST_FRAC = 0.99;

double weather_wet_after_dry(double wet_frac)
{
    return 0.75 * wet_frac;
}

double weather_wet_after_wet(double wet_frac)
{
    return 0.25 + weather_wet_after_dry(wet_frac);
}

static void fill_chain(WeatherMaker *maker)
{
    double wet[CLIMATE_YEAR_DAYS];
    climate_course(maker->normals.wet_frac, wet);
    double frac = fmin(fmax(wet[0], 0.0), WET_MOST_FRAC);
    /* Twice round: the second year no longer knows its start. */
    for (int at = 0; at < 2 * CLIMATE_YEAR_DAYS; at++) {
        WeatherSky *sky = &maker->skies[at % CLIMATE_YEAR_DAYS];
        double held =
            fmin(fmax(wet[at % CLIMATE_YEAR_DAYS], 0.0), WET_MOST_FRAC);
        sky->wet_after_dry = weather_wet_after_dry(held);
        sky->wet_after_wet = weather_wet_after_wet(held);
        frac = frac * sky->wet_after_wet + (1.0 - frac) * sky->wet_after_dry;
        sky->wet_frac = frac;
    }
}

static void fill_sky(WeatherMaker *maker, int day)
{
    const ClimateDay *typical = &maker->typical[day];
    WeatherSky *sky = &maker->skies[day];
    double all = 0.0;
    for (int hour = 0; hour < 24; hour++) {
        double angle = SUN_PI / 12.0 * (hour + 1.0 / 2.0 - 12.0);
        sky->sun_share[hour] = sun_hour_share(angle, typical->sunset_rad);
        sky->up[hour] = sun_direction(maker->normals.latitude_deg,
                                      typical->declination_rad, angle)
                            .up;
        all += sky->sun_share[hour];
    }
    if (all <= 0.0) {
        /* A day shorter than an hour about noon. */
        sky->sun_share[12] = all = 1.0;
    }
    for (int hour = 0; hour < 24; hour++) {
        sky->sun_share[hour] /= all;
    }
    sky->clear_mj_m2_d = sun_clear_sky_mj_m2(typical->above_air_mj_m2_d,
                                             maker->normals.altitude_m);
    sky->most_mj_m2_d = fmax(sky->clear_mj_m2_d, typical->sun_mj_m2_d);
    sky->least_mj_m2_d = fmin(SUN_LEAST_FRAC * sky->clear_mj_m2_d,
                              SUN_LEAST_FRAC * typical->sun_mj_m2_d);
}

/* A wet and a dry mean that differ and together make the mean. */
typedef struct Split {
    double dry;
    double wet;
} Split;

static Split split_of(double mean, double wet_less_dry, double wet_frac)
{
    return (Split){mean - wet_frac * wet_less_dry,
                   mean + (1.0 - wet_frac) * wet_less_dry};
}

/* Wet days have a share of dry days' sun; where the dry would come too near to
 * a clear sky the wet have more. */
static Split split_sun(const WeatherSky *sky, double mean, double wet_share)
{
    double dry = mean / (1.0 - sky->wet_frac * (1.0 - wet_share));
    double most = fmax(DRY_MOST_FRAC * sky->most_mj_m2_d, mean);
    dry = fmin(dry, most);
    double wet = sky->wet_frac > 0.0
                     ? (mean - (1.0 - sky->wet_frac) * dry) / sky->wet_frac
                     : dry;
    return (Split){dry, wet};
}

/* As split_of, within bounds that both means must keep. */
static Split split_rh(double mean, double wet_less_dry, double wet_frac)
{
    mean = fmin(fmax(mean, RH_LEAST_FRAC), RH_MOST_FRAC);
    double apart = wet_less_dry;
    if (wet_frac < 1.0) {
        apart = fmin(apart, (RH_MOST_FRAC - mean) / (1.0 - wet_frac));
    }
    if (wet_frac > 0.0) {
        apart = fmin(apart, (mean - RH_LEAST_FRAC) / wet_frac);
    }
    return split_of(mean, apart, wet_frac);
}

static void fill_temps(const BookCommon *common, double max_degc,
                       double min_degc, WeatherState *state)
{
    double max_sd = common->weather_max_sd_k.value;
    double min_sd = common->weather_min_sd_k.value;
    double span_sd = sqrt(fmax(max_sd * max_sd + min_sd * min_sd -
                                   2.0 * MAX_MIN_CORRELATION * max_sd * min_sd,
                               0.0));
    double span = fmax(max_degc - min_degc, 0.0);
    state->mid_degc = (max_degc + min_degc) / 2.0;
    state->max_sd_k = max_sd;
    state->min_sd_k = min_sd;
    state->span_least_k = SPAN_LEAST_FRAC * span;
    HeldNormal held = {0.0, span_sd, state->span_least_k, INFINITY};
    state->span_mean_k = held_at(&held, span);
}

static double rh_at(const WeatherMaker *maker, double mean)
{
    HeldNormal held = {0.0, maker->rh_sd_frac, RH_LEAST_FRAC, RH_MOST_FRAC};
    return held_at(&held, mean);
}

static void fill_day(const BookCommon *common, WeatherMaker *maker,
                     double rh_frac, int day)
{
    const ClimateDay *typical = &maker->typical[day];
    const WeatherSky *sky = &maker->skies[day];
    WeatherState *states = maker->states[day];
    double span = typical->max_degc - typical->min_degc;
    Split max =
        split_of(typical->max_degc, -common->weather_wet_max_frac.value * span,
                 sky->wet_frac);
    Split min = split_of(typical->min_degc, common->weather_wet_min_k.value,
                         sky->wet_frac);
    Split sun = split_sun(sky, typical->sun_mj_m2_d,
                          common->weather_wet_sun_frac.value);
    Split rh =
        split_rh(rh_frac, common->weather_wet_rh_frac.value, sky->wet_frac);
    fill_temps(common, max.dry, min.dry, &states[WEATHER_DRY]);
    fill_temps(common, max.wet, min.wet, &states[WEATHER_WET]);
    HeldNormal held = {0.0,
                       common->weather_sun_sd_frac.value * sky->clear_mj_m2_d,
                       sky->least_mj_m2_d, sky->most_mj_m2_d};
    states[WEATHER_DRY].sun_mj_m2_d = held_at(&held, sun.dry);
    states[WEATHER_WET].sun_mj_m2_d = held_at(&held, sun.wet);
    states[WEATHER_DRY].rh_frac = rh_at(maker, rh.dry);
    states[WEATHER_WET].rh_frac = rh_at(maker, rh.wet);
    states[WEATHER_DRY].sun_sd_mj_m2_d = held.sd;
    states[WEATHER_WET].sun_sd_mj_m2_d = held.sd;
}

Err weather_make_from(const ClimateNormals *normals, const BookCommon *common,
                      Arena *arena, WeatherMaker **out)
{
    WeatherMaker *maker = ARENA_NEW(arena, WeatherMaker);
    for (int month = 0; month < 12; month++) {
        if (normals->max_degc[month] < normals->min_degc[month]) {
            return err_make(ERR_INPUT,
                            "climate: month %d has a maximum below its "
                            "minimum",
                            month + 1);
        }
    }
    maker->normals = *normals;
    climate_days_fill(normals, maker->typical);
    maker->rh_sd_frac = common->weather_rh_sd_frac.value;
    maker->wind_shape = common->weather_wind_shape.value;
    maker->wind_factor = 1.0 / tgamma(1.0 + maker->wind_shape);
    climate_course(normals->rh_frac, maker->typical_rh_frac);
    fill_chain(maker);
    for (int day = 0; day < CLIMATE_YEAR_DAYS; day++) {
        fill_sky(maker, day);
        fill_day(common, maker, maker->typical_rh_frac[day], day);
    }
    *out = maker;
    return ERR_NONE;
}

Err weather_make(const Farm *farm, const Book *book, Arena *arena,
                 WeatherMaker **out)
{
    ClimateNormals normals;
    TRY(climate_normals_read(farm, &normals));
    return weather_make_from(&normals, book->common, arena, out);
}

WeatherSpread weather_spread(const WeatherMaker *maker, int day)
{
    const ClimateDay *typical = &maker->typical[day];
    const WeatherState *dry = &maker->states[day][WEATHER_DRY];
    const WeatherState *wet = &maker->states[day][WEATHER_WET];
    double frac = maker->skies[day].wet_frac;
    /* Wet and dry means lie apart by what the middle and the span differ. */
    HeldNormal dry_span = {dry->span_mean_k, 0.0, dry->span_least_k, INFINITY};
    HeldNormal wet_span = {wet->span_mean_k, 0.0, wet->span_least_k, INFINITY};
    double mid = wet->mid_degc - dry->mid_degc;
    double half = (held_mean(&wet_span) - held_mean(&dry_span)) / 2.0;
    double mixed = frac * (1.0 - frac);
    return (WeatherSpread){
        .wet_frac = frac,
        .max_degc = typical->max_degc,
        .max_sd_k = sqrt(dry->max_sd_k * dry->max_sd_k +
                         mixed * (mid + half) * (mid + half)),
        .min_degc = typical->min_degc,
        .min_sd_k = sqrt(dry->min_sd_k * dry->min_sd_k +
                         mixed * (mid - half) * (mid - half))};
}
