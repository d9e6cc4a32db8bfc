/* How long the oxygen of a tank lasts in an emergency. */
#include "sim/alarm_air.h"

#include <math.h>

#include "farm/fish_figures.h"
#include "nature/fish/oxygen_need.h"
#include "nature/water/oxygen_fall.h"

/* One end of the range: everything that shortens it, or that lengthens it. */
typedef struct End {
    OxygenFall still; /* no air, no inflow; limit to be set */
    double air_1_h;   /* with air and what flow is left */
    double battery_h;
} End;

/* Aerators that serve the tank: rating by the share, and the least battery of
 * those that are without power. */
typedef struct TankAir {
    double standard_kg_h;
    double battery_h;
    bool is_some;
    bool is_on_battery;
} TankAir;

static TankAir tank_air(const AlarmAirAsk *ask)
{
    const Farm *farm = ask->hangs->farm;
    TankAir air = {.battery_h = INFINITY};
    for (int32_t i = 0; i < farm->aerators_count; i++) {
        const Aerator *row = &farm->aerators[i];
        bool is_off = ask->hangs->aerators[i];
        bool has_battery = isfinite(row->battery_h) && row->battery_h > 0.0;
        if (!hangs_aerator_serves(farm, i, ask->tank) ||
            (is_off && !has_battery)) {
            continue;
        }
        double share =
            row->tank == ask->tank ? 1.0 : hangs_share_frac(farm, ask->tank);
        double kg_h = row->power_w / 1000.0 * row->oxygen_kg_kwh * share;
        air.is_some = true;
        air.standard_kg_h += isfinite(kg_h) ? kg_h : 0.0;
        if (is_off) {
            air.is_on_battery = true;
            air.battery_h = fmin(air.battery_h, row->battery_h);
        }
    }
    return air;
}

/* Pumps of the loop that run on: their flow to the tanks over the volume. */
static double flow_1_h(const AlarmAirAsk *ask, double volume_m3)
{
    const Farm *farm = ask->hangs->farm;
    int32_t loop = farm->tanks[ask->tank].loop;
    double flow_m3_h = 0.0;
    for (int32_t i = 0; i < farm->pumps_count && loop >= 0; i++) {
        const Pump *pump = &farm->pumps[i];
        double to_tanks = pump->flow_m3_h * pump->tanks_frac *
                          hangs_share_frac(farm, ask->tank);
        if (pump->loop == loop && !ask->hangs->pumps[i] && isfinite(to_tanks)) {
            flow_m3_h += to_tanks;
        }
    }
    return flow_m3_h / volume_m3;
}

/* The farm's own figure of what its fish use, over the book's. */
static double own_frac(const AlarmAirAsk *ask, const FishSpecies *species,
                       bool is_high)
{
    const OwnFigure *own =
        fish_figures_own(ask->hangs->farm, species->name, FISH_OXYGEN);
    double end = !own ? NAN : is_high ? own->high : own->low;
    return end > 0.0 && species->oxygen_frac > 0.0 ? end / species->oxygen_frac
                                                   : 1.0;
}

static OxygenNeed need_of(const AlarmAirAsk *ask)
{
    const WaterKnown *temp = &ask->water->of[READ_TEMP];
    OxygenSpan span = {temp->low, temp->high, ask->hours_since_meal};
    OxygenNeed sum = {0};
    for (int i = 0; i < ask->fish->count; i++) {
        const FishNowGroup *group = &ask->fish->groups[i];
        OxygenNeed need =
            fish_oxygen_need(group->species, &group->slices, &span);
        sum.low_g_h += need.low_g_h * group->low_frac *
                       own_frac(ask, group->species, false);
        sum.high_g_h += need.high_g_h * group->high_frac *
                        own_frac(ask, group->species, true);
        sum.is_widened = sum.is_widened || need.is_widened;
    }
    sum.low_g_h *= 1.0 + ask->alarm->bacteria_frac.low;
    sum.high_g_h *= 1.0 + ask->alarm->bacteria_frac.high;
    return sum;
}

static End short_end(const AlarmAirAsk *ask, const AlarmAir *is,
                     const TankAir *air, double volume_m3)
{
    const BookAlarm *alarm = ask->alarm;
    AirTransfer transfer = {air->standard_kg_h, alarm->aerator_frac.low, 1.0};
    return (End){
        .still = {.start_mg_l = ask->water->of[READ_OXYGEN].low,
                  .full_mg_l = water_now_full_mg_l(
                      ask->water->of[READ_TEMP].high, ask->altitude_m),
                  .transfer_1_h = alarm->surface_1_h.low,
                  .use_mg_l_h = is->high_g_h / volume_m3},
        .air_1_h = water_air_rate_1_h(&transfer, volume_m3) +
                   alarm->flow_frac.low * flow_1_h(ask, volume_m3),
        .battery_h = air->is_on_battery
                         ? air->battery_h * alarm->battery_frac.low
                         : INFINITY,
    };
}

static End long_end(const AlarmAirAsk *ask, const AlarmAir *is,
                    const TankAir *air, double volume_m3)
{
    const BookAlarm *alarm = ask->alarm;
    AirTransfer transfer = {air->standard_kg_h, alarm->aerator_frac.high, 1.0};
    return (End){
        .still = {.start_mg_l = ask->water->of[READ_OXYGEN].high,
                  .full_mg_l = water_now_full_mg_l(
                      ask->water->of[READ_TEMP].low, ask->altitude_m),
                  .transfer_1_h = alarm->surface_1_h.high,
                  .use_mg_l_h = is->low_g_h / volume_m3},
        .air_1_h =
            water_air_rate_1_h(&transfer, volume_m3) + flow_1_h(ask, volume_m3),
        .battery_h = air->is_on_battery
                         ? air->battery_h * alarm->battery_frac.high
                         : INFINITY,
    };
}

static double without_air_h(const End *end, double limit_mg_l)
{
    OxygenFall fall = end->still;
    fall.limit_mg_l = limit_mg_l;
    return water_oxygen_fall_h(&fall);
}

/* While air runs, then without it from where the water stands by then. */
static double with_air_h(const End *end, double limit_mg_l)
{
    OxygenFall fall = end->still;
    fall.limit_mg_l = limit_mg_l;
    fall.transfer_1_h += end->air_1_h;
    double hours = water_oxygen_fall_h(&fall);
    if (hours <= end->battery_h) {
        return hours;
    }
    OxygenFall rest = end->still;
    rest.limit_mg_l = limit_mg_l;
    rest.start_mg_l = water_oxygen_after_mg_l(&fall, end->battery_h);
    return end->battery_h + water_oxygen_fall_h(&rest);
}

typedef double HoursTo(const End *end, double limit_mg_l);

static AlarmHours hours_of(const BookAlarm *alarm, const End *low,
                           const End *high, HoursTo *hours_to)
{
    double act = alarm->oxygen_act_mg_l.value;
    return (AlarmHours){
        .act = {hours_to(low, act), hours_to(high, act)},
        .gasp = {hours_to(low, alarm->oxygen_gasp_mg_l.high),
                 hours_to(high, alarm->oxygen_gasp_mg_l.low)},
        .dying = {hours_to(low, alarm->oxygen_dying_mg_l.high),
                  hours_to(high, alarm->oxygen_dying_mg_l.low)},
    };
}

AlarmAir alarm_air(const AlarmAirAsk *ask)
{
    double volume_m3 = ask->hangs->farm->tanks[ask->tank].volume_m3;
    AlarmAir is = {.kg = fish_now_kg(ask->fish)};
    is.has_fish = is.kg.high > 0.0;
    is.has_volume = isfinite(volume_m3) && volume_m3 > 0.0;
    TankAir air = tank_air(ask);
    is.has_air = air.is_some;
    is.is_on_battery = air.is_on_battery;
    is.battery_low_h = INFINITY;
    is.battery_high_h = INFINITY;
    if (air.is_on_battery) {
        is.battery_low_h = air.battery_h * ask->alarm->battery_frac.low;
        is.battery_high_h = air.battery_h * ask->alarm->battery_frac.high;
    }
    if (!is.has_fish || !is.has_volume) {
        return is;
    }
    OxygenNeed need = need_of(ask);
    is.low_g_h = need.low_g_h;
    is.high_g_h = need.high_g_h;
    is.is_widened = need.is_widened;
    is.density_kg_m3 = is.kg.value / volume_m3;
    is.density_most_kg_m3 = is.kg.high / volume_m3;
    End low = short_end(ask, &is, &air, volume_m3);
    End high = long_end(ask, &is, &air, volume_m3);
    is.without = hours_of(ask->alarm, &low, &high, without_air_h);
    is.with_air = hours_of(ask->alarm, &low, &high, with_air_h);
    return is;
}

bool alarm_air_is_worse(const AlarmAir *a, const AlarmAir *b)
{
    bool a_counts = a->has_fish && a->has_volume;
    bool b_counts = b->has_fish && b->has_volume;
    if (a_counts != b_counts) {
        return a_counts;
    }
    return a_counts && a->without.act.low_h < b->without.act.low_h;
}
