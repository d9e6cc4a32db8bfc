/* How long water stays warm when its heater is cold. */
#include "sim/alarm_heat.h"

#include <math.h>

#include "nature/air/vapour.h"
#include "nature/heat/cooling.h"
#include "nature/heat/exchange.h"
#include "nature/heat/water.h"

enum { NIGHT_H = 12 };

static const double LEAST_M3 = 0.05;

/* A room of tanks at the best halves what its vessels lose; judged. */
static const double ROOM_FRAC = 0.5;

/* Where a table of feed by temperature begins. */
static double begins_degc(const FishCurve *curve)
{
    for (int i = 0; i + 1 < curve->count; i++) {
        if (curve->y[i + 1] > 0.0) {
            return curve->x[i];
        }
    }
    return curve->count > 0 ? curve->x[0] : 0.0;
}

static AlarmColdLimits limits_of(const BookAlarm *alarm,
                                 const FishSpecies *species)
{
    AlarmColdLimits out = {.feed_low_degc = INFINITY,
                           .feed_high_degc = -INFINITY};
    for (int i = 0; i < 3; i++) {
        double begins = begins_degc(&species->warmth[i]);
        out.feed_low_degc = fmin(out.feed_low_degc, begins);
        out.feed_high_degc = fmax(out.feed_high_degc, begins);
    }
    double lethal = species->lethal_low_degc;
    out.lethal_low_degc = lethal + alarm->cold_lethal_k.low;
    out.lethal_high_degc = lethal + alarm->cold_lethal_k.high;
    out.danger_low_degc = lethal + alarm->cold_danger_k.low;
    out.danger_high_degc = lethal + alarm->cold_danger_k.high;
    return out;
}

AlarmColdLimits alarm_cold_limits(const BookAlarm *alarm,
                                  const FishNowTank *tanks, int count)
{
    int species_count = 0;
    const FishSpecies *tender = NULL;
    for (int k = 0; k < count; k++) {
        for (int i = 0; i < tanks[k].count; i++) {
            const FishSpecies *species = tanks[k].groups[i].species;
            if (!tender || species->lethal_low_degc > tender->lethal_low_degc) {
                tender = species;
            }
        }
    }
    return limits_of(alarm,
                     tender ? tender : &fish_species_all(&species_count)[0]);
}

/* W/K at the most and at the least, and what cools. */
typedef struct Vessel {
    double most_w_k;
    double least_w_k;
    double water_m3;
    int32_t without_lid;
} Vessel;

static double top_m2(double volume_m3)
{
    const double pi = acos(-1.0);
    double across_m = cbrt(4.0 * volume_m3 / pi);
    return pi * across_m * across_m / 4.0;
}

static void add_vessel(const BookAlarm *alarm, const Tank *tank, bool is_lidded,
                       Vessel *to)
{
    double volume_m3 =
        isfinite(tank->volume_m3) ? fmax(LEAST_M3, tank->volume_m3) : LEAST_M3;
    TankWall wall = tank->wall == WALL_THICK  ? TANK_THICK
                    : tank->wall == WALL_SOME ? TANK_SOME
                                              : TANK_BARE;
    bool has_lid = tank->has_lid || is_lidded;
    double loss_w_k = heat_tank_loss_w_k(volume_m3, wall, has_lid);
    double spread_w_k = has_lid ? top_m2(volume_m3) * (alarm->lid_w_m2_k.high -
                                                       alarm->lid_w_m2_k.value)
                                : 0.0;
    to->most_w_k += loss_w_k + spread_w_k;
    to->least_w_k +=
        (loss_w_k - spread_w_k) * (tank->tunnel < 0 ? ROOM_FRAC : 1.0);
    to->water_m3 += volume_m3;
    to->without_lid += tank->has_lid ? 0 : 1;
}

static Vessel vessels_of(const AlarmHeatAsk *ask, bool is_lidded)
{
    const Farm *farm = ask->farm;
    Vessel sum = {0};
    if (ask->loop < 0) {
        add_vessel(ask->alarm, &farm->tanks[ask->tank], is_lidded, &sum);
        return sum;
    }
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (farm->tanks[k].loop == ask->loop) {
            add_vessel(ask->alarm, &farm->tanks[k], is_lidded, &sum);
        }
    }
    Tank sump = {.volume_m3 = farm->loops[ask->loop].sump_m3,
                 .has_lid = true,
                 .wall = WALL_SOME,
                 .tunnel = -1};
    add_vessel(ask->alarm, &sump, true, &sum);
    return sum;
}

static double flooded_m2(const AlarmHeatAsk *ask)
{
    const Farm *farm = ask->farm;
    double sum_m2 = 0.0;
    for (int32_t i = 0; i < farm->beds_count; i++) {
        const Bed *bed = &farm->beds[i];
        bool is_ours = ask->loop >= 0 && bed->zone >= 0 &&
                       bed->zone < farm->zones_count &&
                       farm->zones[bed->zone].loop == ask->loop;
        bool is_used = ask->day >= bed->from && ask->day < bed->until;
        double area_m2 = bed->length_m * bed->width_m;
        sum_m2 += is_ours && is_used && isfinite(area_m2) ? area_m2 : 0.0;
    }
    return sum_m2;
}

/* Vapour as W/K, taken over the span from the water to air near saturation: the
 * slope of saturation pressure between the two. */
static double vapour_w_k(double w_m2_kpa, double water_degc, double air_degc)
{
    double apart_k = fmax(1.0, water_degc - air_degc);
    return w_m2_kpa *
           (air_saturation_kpa(water_degc) -
            air_saturation_kpa(water_degc - apart_k)) /
           apart_k;
}

typedef struct Ends {
    Cooling fast;
    Cooling slow;
} Ends;

static AlarmSpan span_to(const Ends *ends, double low_degc, double high_degc)
{
    return (AlarmSpan){heat_cooling_h(&ends->fast, high_degc),
                       heat_cooling_h(&ends->slow, low_degc)};
}

static AlarmCold cold_of(const AlarmHeatAsk *ask, const Ends *ends)
{
    const AlarmColdLimits *at = &ask->limits;
    return (AlarmCold){
        .feed = span_to(ends, at->feed_low_degc, at->feed_high_degc),
        .danger = span_to(ends, at->danger_low_degc, at->danger_high_degc),
        .lethal = span_to(ends, at->lethal_low_degc, at->lethal_high_degc),
        .morning_low_degc = heat_cooled_degc(&ends->fast, NIGHT_H),
        .morning_high_degc = heat_cooled_degc(&ends->slow, NIGHT_H),
    };
}

static Ends ends_of(const AlarmHeatAsk *ask, const Vessel *vessel)
{
    double heat_j_k = HEAT_WATER_J_M3_K * vessel->water_m3;
    return (Ends){
        .fast = {.start_degc = ask->start_low_degc,
                 .air_degc = ask->night_low_degc,
                 .heat_j_k = heat_j_k,
                 .loss_w_k = vessel->most_w_k},
        .slow = {.start_degc = ask->start_high_degc,
                 .air_degc = ask->night_high_degc,
                 .heat_j_k = heat_j_k,
                 .loss_w_k = vessel->least_w_k},
    };
}

/* Adds a way for heat to go, to air of another temperature. */
static void add_way(Cooling *cooling, double loss_w_k, double air_degc)
{
    double sum_w_k = cooling->loss_w_k + loss_w_k;
    if (sum_w_k > 0.0) {
        cooling->air_degc =
            (cooling->loss_w_k * cooling->air_degc + loss_w_k * air_degc) /
            sum_w_k;
    }
    cooling->loss_w_k = sum_w_k;
}

/* Beds that flood add their surface to the tunnel's air; the warmth of their
 * stones is left out: they cool first. */
static void add_beds(const AlarmHeatAsk *ask, double area_m2, Ends *ends)
{
    const BookAlarm *alarm = ask->alarm;
    double air_low = ask->night_low_degc + alarm->tunnel_over_k.low;
    double air_high = ask->night_high_degc + alarm->tunnel_over_k.high;
    add_way(&ends->fast,
            area_m2 * (alarm->bed_w_m2_k.high +
                       vapour_w_k(alarm->bed_vapour_w_m2_kpa.high,
                                  ask->start_low_degc, air_low)),
            air_low);
    add_way(&ends->slow,
            area_m2 * (alarm->bed_w_m2_k.low +
                       vapour_w_k(alarm->bed_vapour_w_m2_kpa.low,
                                  ask->start_high_degc, air_high)),
            air_high);
}

AlarmHeat alarm_heat(const AlarmHeatAsk *ask)
{
    Vessel bare = vessels_of(ask, false);
    Vessel lidded = vessels_of(ask, true);
    Ends off = ends_of(ask, &bare);
    Ends shut = ends_of(ask, &lidded);
    Ends on = off;
    add_beds(ask, flooded_m2(ask), &on);
    return (AlarmHeat){
        .water_m3 = bare.water_m3,
        .loss_off_w_k = (off.fast.loss_w_k + off.slow.loss_w_k) / 2.0,
        .loss_on_w_k = (on.fast.loss_w_k + on.slow.loss_w_k) / 2.0,
        .without_lid = bare.without_lid,
        .off = cold_of(ask, &off),
        .on = cold_of(ask, &on),
        .lidded = cold_of(ask, &shut),
    };
}
