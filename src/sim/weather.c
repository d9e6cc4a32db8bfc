/* Drawing the weather of a year that could be, day by day and hour by hour. */
#include "sim/weather.h"

#include <assert.h>
#include <math.h>

#include "base/date.h"
#include "nature/air/vapour.h"
#include "nature/sun/split.h"
#include "sim/weather_parts.h"

/* Random numbers put by for a day; fewer are used. */
enum { DRAWS_A_DAY = 16 };
/* The stream apart from others under the same seed; any number. */
static const uint64_t WEATHER_STREAM = 0x77656174686572u;
static const double RH_LEAST_FRAC = 0.1;
static const double RH_MOST_FRAC = 0.99;
/* Sun and humidity of a day go against each other; judged. */
static const double SUN_RH_CORRELATION = -0.5;

const double WEATHER_STAYS[WEATHER_RESIDUALS][WEATHER_RESIDUALS] = {
    {0.567, 0.086, -0.002}, {0.253, 0.504, -0.050}, {-0.006, -0.039, 0.244}};
const double WEATHER_COMES[WEATHER_RESIDUALS][WEATHER_RESIDUALS] = {
    {0.781, 0.0, 0.0}, {0.328, 0.637, 0.0}, {0.238, -0.341, 0.873}};

int weather_day_of_year(int32_t date)
{
    int day = date_day_of_year(date) - 1;
    return day < CLIMATE_YEAR_DAYS ? day : CLIMATE_YEAR_DAYS - 1;
}

WeatherWalk weather_walk_start(const WeatherMaker *maker, const WeatherAsk *ask)
{
    Rng own = rng_make(ask->seed ^ WEATHER_STREAM, (uint64_t)ask->year + 1u);
    WeatherWalk walk = {.maker = maker,
                        .draws = own,
                        .date = ask->from_day - 1 - WEATHER_BURN_IN};
    WeatherDay day;
    for (int i = 0; i < WEATHER_BURN_IN; i++) {
        weather_walk_next(&walk, &day);
    }
    return walk;
}

static void next_residuals(WeatherWalk *walk, const double *fresh)
{
    double now[WEATHER_RESIDUALS];
    for (int i = 0; i < WEATHER_RESIDUALS; i++) {
        now[i] = 0.0;
        for (int k = 0; k < WEATHER_RESIDUALS; k++) {
            now[i] += WEATHER_STAYS[i][k] * walk->residual[k] +
                      WEATHER_COMES[i][k] * fresh[k];
        }
    }
    for (int i = 0; i < WEATHER_RESIDUALS; i++) {
        walk->residual[i] = now[i];
    }
}

static void place_day(const WeatherMaker *maker, int doy, bool is_wet,
                      WeatherDay *out)
{
    const WeatherState *state = &maker->states[doy][is_wet];
    const WeatherSky *sky = &maker->skies[doy];
    double max_k = out->residual[WEATHER_MAX] * state->max_sd_k;
    double min_k = out->residual[WEATHER_MIN] * state->min_sd_k;
    double mid = state->mid_degc + (max_k + min_k) / 2.0;
    double span = fmax(state->span_mean_k + max_k - min_k, state->span_least_k);
    double sun =
        state->sun_mj_m2_d + out->residual[WEATHER_SUN] * state->sun_sd_mj_m2_d;
    sun = fmin(fmax(sun, sky->least_mj_m2_d), sky->most_mj_m2_d);
    ClimateDay *day = &out->day;
    *day = maker->typical[doy];
    day->max_degc = mid + span / 2.0;
    day->min_degc = mid - span / 2.0;
    day->sun_mj_m2_d = sun;
    if (sky->clear_mj_m2_d > 0.0) {
        day->clear_frac = fmin(fmax(sun / sky->clear_mj_m2_d, 0.3), 1.0);
    }
    out->is_wet = is_wet;
}

void weather_walk_next(WeatherWalk *walk, WeatherDay *out)
{
    const WeatherMaker *maker = walk->maker;
    int doy = weather_day_of_year(walk->date);
    Rng *draws = &walk->draws;
    draws->counter = (uint64_t)((int64_t)walk->date) * DRAWS_A_DAY;
    double chance = walk->was_wet ? maker->skies[doy].wet_after_wet
                                  : maker->skies[doy].wet_after_dry;
    walk->was_wet = rng_f64(draws) < chance;
    double wind = pow(-log(1.0 - rng_f64(draws)), maker->wind_shape);
    double fresh[WEATHER_RESIDUALS];
    for (int i = 0; i < WEATHER_RESIDUALS; i++) {
        fresh[i] = rng_normal(draws);
    }
    double own = rng_normal(draws);
    next_residuals(walk, fresh);
    for (int i = 0; i < WEATHER_RESIDUALS; i++) {
        out->residual[i] = walk->residual[i];
    }
    place_day(maker, doy, walk->was_wet, out);
    out->day.wind_m_s *= wind * maker->wind_factor;
    double with_sun = SUN_RH_CORRELATION * walk->residual[WEATHER_SUN];
    double rest = own * sqrt(1.0 - SUN_RH_CORRELATION * SUN_RH_CORRELATION);
    double rh = maker->states[doy][walk->was_wet].rh_frac +
                maker->rh_sd_frac * (with_sun + rest);
    out->rh_frac = fmin(fmax(rh, RH_LEAST_FRAC), RH_MOST_FRAC);
    walk->date++;
}

/* The vapour pressure that, held below saturation hour by hour, makes the
 * day's mean relative humidity. Each round knows at least one more hour that is
 * full. */
static double vapour_kpa(const double full_kpa[24], double rh_frac)
{
    double vapour = -INFINITY;
    for (int round = 0, before = -1; round < 24; round++) {
        double by = 0.0;
        int full = 0;
        for (int hour = 0; hour < 24; hour++) {
            bool is_full = vapour >= full_kpa[hour];
            full += is_full;
            by += is_full ? 0.0 : 1.0 / full_kpa[hour];
        }
        if (by <= 0.0 || full == before) {
            break;
        }
        before = full;
        vapour = (24.0 * rh_frac - full) / by;
    }
    return vapour;
}

static void fill_sun(const WeatherMaker *maker, const WeatherDay *day, int doy,
                     WeatherHour out[24])
{
    const WeatherSky *sky = &maker->skies[doy];
    for (int hour = 0; hour < 24; hour++) {
        double flat =
            day->day.sun_mj_m2_d * 1e6 / 3600.0 * sky->sun_share[hour];
        double diffuse = 1.0;
        if (flat > 0.0 && sky->up[hour] > 0.0) {
            diffuse = sun_diffuse_frac_hour(
                sun_clearness(flat, sky->up[hour], doy + 1));
        }
        out[hour].diffuse_w_m2 = flat * diffuse;
        out[hour].direct_w_m2 = flat * (1.0 - diffuse);
        out[hour].clear_frac = day->day.clear_frac;
    }
}

/* Wind by day is twice that by night, its mean the day's. Source: [FAO56]
 * chapter 3, the usual ratio of day to night (from memory). */
static void fill_wind(const ClimateDay *day, WeatherHour out[24])
{
    bool is_light[24];
    int light = 0;
    for (int hour = 0; hour < 24; hour++) {
        double from_noon_h = fabs(hour + 1.0 / 2.0 - 12.0);
        is_light[hour] = from_noon_h < day->day_length_h / 2.0;
        light += is_light[hour];
    }
    double night_m_s = day->wind_m_s * 24.0 / (24.0 + light);
    for (int hour = 0; hour < 24; hour++) {
        out[hour].wind_m_s = is_light[hour] ? 2.0 * night_m_s : night_m_s;
    }
}

void weather_fill_hours(const WeatherMaker *maker, const WeatherDay three[3],
                        int32_t date, WeatherHour out[24])
{
    ClimateThree days = {&three[0].day, &three[1].day, &three[2].day};
    double full_kpa[24];
    for (int hour = 0; hour < 24; hour++) {
        double degc = climate_between_degc(&days, hour + 1.0 / 2.0);
        out[hour].outside_degc = degc;
        full_kpa[hour] = air_saturation_kpa(fmin(fmax(degc, -39.0), 79.0));
    }
    double held_kpa = vapour_kpa(full_kpa, three[1].rh_frac);
    for (int hour = 0; hour < 24; hour++) {
        out[hour].vapour_kpa = fmin(held_kpa, full_kpa[hour]);
    }
    fill_sun(maker, &three[1], weather_day_of_year(date), out);
    fill_wind(&three[1].day, out);
}

void weather_draw_days(const WeatherMaker *maker, const WeatherAsk *ask,
                       WeatherDay *out)
{
    assert(ask->days >= 1);
    WeatherWalk walk = weather_walk_start(maker, ask);
    weather_walk_next(&walk, &out[0]);
    for (int day = 0; day < ask->days; day++) {
        weather_walk_next(&walk, &out[day]);
        out[day].day.vapour_kpa =
            out[day].rh_frac *
            (air_saturation_kpa(fmin(out[day].day.max_degc, 79.0)) +
             air_saturation_kpa(fmax(out[day].day.min_degc, -39.0))) /
            2.0;
    }
}

void weather_draw(const WeatherMaker *maker, const WeatherAsk *ask,
                  WeatherHour *out)
{
    assert(ask->days >= 1);
    WeatherDay three[3];
    WeatherWalk walk = weather_walk_start(maker, ask);
    weather_walk_next(&walk, &three[0]);
    weather_walk_next(&walk, &three[1]);
    for (int day = 0; day < ask->days; day++) {
        weather_walk_next(&walk, &three[2]);
        weather_fill_hours(maker, three, ask->from_day + day, out + 24L * day);
        three[0] = three[1];
        three[1] = three[2];
    }
}

void weather_typical(const WeatherMaker *maker, int32_t from_day, int days,
                     WeatherHour *out)
{
    for (int i = 0; i < days; i++) {
        int doy = weather_day_of_year(from_day + i);
        const ClimateDay *is = &maker->typical[doy];
        ClimateSun sun =
            climate_day_sun(is, maker->normals.latitude_deg, doy + 1);
        for (int hour = 0; hour < 24; hour++) {
            out[24L * i + hour] =
                (WeatherHour){.outside_degc = climate_hour_degc(
                                  maker->typical, doy, hour + 1.0 / 2.0),
                              .vapour_kpa = is->vapour_kpa,
                              .wind_m_s = is->wind_m_s,
                              .clear_frac = is->clear_frac,
                              .direct_w_m2 = sun.direct_w_m2[hour],
                              .diffuse_w_m2 = sun.diffuse_w_m2[hour]};
        }
    }
}
