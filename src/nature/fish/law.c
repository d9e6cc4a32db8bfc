/* The one law of feed and growth. */
#include "nature/fish/law.h"

#include <assert.h>
#include <math.h>

FishWater fish_good_water(double temp_degc)
{
    return (FishWater){.temp_degc = temp_degc, .oxygen_mg_l = 7.0};
}

double fish_ration_frac(const FishSpecies *species, double weight_g)
{
    assert(weight_g > 0.0);
    const FishCurve *r = &species->ration;
    if (weight_g <= r->x[0]) {
        return r->y[0];
    }
    int i = 1;
    while (i < r->count - 1 && weight_g > r->x[i]) {
        i++;
    }
    double power = log(r->y[i] / r->y[i - 1]) / log(r->x[i] / r->x[i - 1]);
    return r->y[i] * pow(weight_g / r->x[i], power);
}

static double warmth_at(const FishCurve *curve, double temp_degc)
{
    if (temp_degc < curve->x[0] || temp_degc > curve->x[curve->count - 1]) {
        return 0.0;
    }
    return fish_curve_at(curve, temp_degc);
}

Figure fish_warmth_frac(const FishSpecies *species, double temp_degc)
{
    double value = warmth_at(&species->warmth[1], temp_degc);
    return (Figure){
        .value = value,
        .low = fmin(value, warmth_at(&species->warmth[0], temp_degc)),
        .high = fmax(value, warmth_at(&species->warmth[2], temp_degc)),
        .origin = species->origin,
        .source = species->source,
    };
}

FishSpecies fish_species_end(const FishSpecies *species, int end)
{
    assert(end >= -1 && end <= 1);
    FishSpecies at = *species;
    at.warmth[1] = species->warmth[end + 1];
    if (end != 0) {
        at.efficiency = species->efficiency_end[end > 0];
    }
    return at;
}

double fish_air_frac(double oxygen_mg_l, double weight_g)
{
    static const double STOP_MG_L = 3.0;
    static const FishCurve FULL_MG_L = {2, {50, 200}, {3.0, 5.5}};
    if (oxygen_mg_l < STOP_MG_L) {
        return 0.0;
    }
    double full = fish_curve_at(&FULL_MG_L, weight_g);
    FishCurve line = {2, {1.5, full}, {0.6, 1.0}};
    return fish_curve_at(&line, oxygen_mg_l);
}

double fish_calm_frac(double nh3_mg_l)
{
    static const FishCurve CALM = {3, {0.06, 0.73, 1.46}, {1.0, 0.5, 0.0}};
    return fish_curve_at(&CALM, nh3_mg_l);
}

double fish_intake_g_d(const FishSpecies *species, double weight_g,
                       const FishWater *water, double appetite)
{
    return weight_g * fish_ration_frac(species, weight_g) *
           warmth_at(&species->warmth[1], water->temp_degc) *
           fish_air_frac(water->oxygen_mg_l, weight_g) *
           fish_calm_frac(water->nh3_mg_l) * appetite;
}

Figure fish_intake_range_g_d(const FishSpecies *species, double weight_g,
                             const FishWater *water, double appetite)
{
    Figure warmth = fish_warmth_frac(species, water->temp_degc);
    FishWater best = *water;
    best.temp_degc = species->warmth[1].x[0];
    double full = fish_intake_g_d(species, weight_g, &best, appetite) /
                  species->warmth[1].y[0];
    return (Figure){full * warmth.value, full * warmth.low, full * warmth.high,
                    warmth.origin, warmth.source};
}

double fish_upkeep_g_d(const FishSpecies *species, double weight_g,
                       double temp_degc)
{
    return species->upkeep_g *
           exp(species->upkeep_rise * (temp_degc - species->upkeep_degc)) *
           pow(weight_g, species->upkeep_power);
}

/* Growth at one weight, with the feed that makes it. */
static FishDay rate_at(const FishSpecies *species, double weight_g,
                       const FishWater *water, double appetite)
{
    double feed_g = fish_intake_g_d(species, weight_g, water, appetite);
    double upkeep_g = fish_upkeep_g_d(species, weight_g, water->temp_degc);
    return (FishDay){
        .weight_g = species->efficiency * feed_g - upkeep_g,
        .feed_g = feed_g,
    };
}

FishDay fish_day(const FishSpecies *species, double weight_g,
                 const FishWater *water, double appetite, double feed_frac)
{
    static const double STARVED = 0.6;
    double eats = appetite * feed_frac;
    FishDay start = rate_at(species, weight_g, water, eats);
    double middle_g = weight_g + start.weight_g / 2.0;
    FishDay mid =
        rate_at(species, fmax(STARVED * weight_g, middle_g), water, eats);
    return (FishDay){
        .weight_g = fmax(STARVED * weight_g, weight_g + mid.weight_g),
        .feed_g = mid.feed_g,
    };
}

Err fish_days_to_weight(const FishSpecies *species, double from_g, double to_g,
                        const FishWater *water, double appetite, FishPath *out)
{
    static const int MOST_D = 3653;
    if (!(from_g > 0.0 && to_g > from_g)) {
        return err_make(ERR_RANGE, "from %.1f g to %.1f g is no growth", from_g,
                        to_g);
    }
    FishPath path = {0};
    double weight_g = from_g;
    for (int day = 0; day < MOST_D; day++) {
        FishDay next = fish_day(species, weight_g, water, appetite, 1.0);
        if (next.weight_g <= weight_g) {
            break;
        }
        double part = fmin(1.0, (to_g - weight_g) / (next.weight_g - weight_g));
        path.days += part;
        path.feed_g += part * next.feed_g;
        weight_g = next.weight_g;
        if (weight_g >= to_g) {
            path.conversion = path.feed_g / (to_g - from_g);
            *out = path;
            return ERR_NONE;
        }
    }
    return err_make(ERR_RANGE,
                    "%s of %.0f g does not reach %.0f g at %.1f degC: it stays "
                    "near %.0f g",
                    species->title, from_g, to_g, water->temp_degc, weight_g);
}

Err fish_days_range(const FishSpecies *species, double from_g, double to_g,
                    const FishWater *water, double appetite, Figure *out_days)
{
    double days[3] = {INFINITY, INFINITY, INFINITY}; /* from low to high */
    for (int end = 1; end >= -1; end--) {
        FishSpecies at = fish_species_end(species, end);
        FishPath path = {.days = INFINITY};
        Err err =
            fish_days_to_weight(&at, from_g, to_g, water, appetite, &path);
        if (err.kind != ERR_OK && end == 0) {
            return err;
        }
        days[1 - end] = path.days;
    }
    *out_days =
        (Figure){days[1], fmin(days[0], days[1]), fmax(days[1], days[2]),
                 species->origin, species->source};
    return ERR_NONE;
}

double fish_fit_efficiency(const FishSpecies *species, double from_g,
                           double to_g, double temp_degc, double conversion)
{
    FishWater water = fish_good_water(temp_degc);
    FishSpecies trial = *species;
    double low = 0.1;
    double high = 2.0;
    for (int i = 0; i < 40; i++) {
        trial.efficiency = (low + high) / 2.0;
        FishPath path = {.conversion = INFINITY};
        Err err = fish_days_to_weight(&trial, from_g, to_g, &water, 1.0, &path);
        if (err.kind != ERR_OK || path.conversion > conversion) {
            low = trial.efficiency;
        } else {
            high = trial.efficiency;
        }
    }
    return (low + high) / 2.0;
}

double fish_growth_pct_d(double from_g, double to_g, double days)
{
    assert(from_g > 0.0 && to_g > 0.0 && days > 0.0);
    return 100.0 * log(to_g / from_g) / days;
}

double fish_thermal_growth(double from_g, double to_g, double degc_days)
{
    assert(degc_days > 0.0);
    return 1000.0 * (cbrt(to_g) - cbrt(from_g)) / degc_days;
}

double fish_death_frac_d(const FishSpecies *species, double weight_g,
                         double temp_degc)
{
    static const FishCurve WELL = {
        5, {1, 5, 20, 100, 300}, {0.0074, 0.0015, 0.0007, 0.0002, 0.0001}};
    static const double COLD_FRAC_D = 0.3;
    double well = fish_curve_at(&WELL, weight_g);
    double over = fmax(species->lethal_low_degc - temp_degc,
                       temp_degc - species->lethal_high_degc);
    /* From 1 degC short of the limit rising to its full force at it. */
    double stress = fmin(1.0, fmax(0.0, 1.0 + over));
    return well + stress * (COLD_FRAC_D - well);
}
