/* What a stopped pump, blower or heater, or a power cut does. */
#include "work/emergency.h"

#include <math.h>
#include <stdlib.h>

#include "base/date.h"
#include "base/tongue.h"
#include "nature/air/evapo.h"
#include "nature/water/oxygen.h"
#include "nature/water/topup.h"

static const double DAY_H = 24.0;

void emergency_notice(Emergency *emergency, const char *text)
{
    if (emergency->notice_count < EMERGENCY_NOTICES_MAX) {
        emergency->notices[emergency->notice_count++] = text;
    }
}

static int day_at(const Emergency *e)
{
    return date_day_of_year(e->ask.day) - 1;
}

static double altitude_m(const Farm *farm)
{
    bool is_told = farm->farm_count > 0 && isfinite(farm->farm[0].altitude_m);
    return is_told ? farm->farm[0].altitude_m : 0.0;
}

/* ---- Fish -----------------------------------------------------------------
 */

static void find_fish(Emergency *e, Arena *arena)
{
    const EmergencyAsk *ask = &e->ask;
    if (ask->climate) {
        Err err = fish_now_followed(ask->farm, ask->book, ask->climate,
                                    ask->day, arena, &e->fish);
        if (err.kind == ERR_OK) {
            return;
        }
        emergency_notice(
            e, arena_say(arena, "Fish cannot be followed to this day (%s).",
                         err.text));
    }
    fish_now_counted(ask->farm, ask->book->alarm, ask->day, arena, &e->fish);
    emergency_notice(
        e, say(arena, "Fish are taken as counted in fish.csv, at the most "
                      "grown at full ration in warm water since."));
    if (e->fish.unread > 0) {
        emergency_notice(
            e, arena_say(arena,
                         "%d rows of fish.csv name no tank and are left out: "
                         "look yourself.",
                         e->fish.unread));
    }
}

/* ---- Tanks ----------------------------------------------------------------
 */

static double usual_degc(const Emergency *e, int32_t tank)
{
    return e->ask.climate ? e->ask.climate->tanks[tank].mean_degc[day_at(e)]
                          : NAN;
}

static WaterNow water_of(const Emergency *e, int32_t tank)
{
    const EmergencyAsk *ask = &e->ask;
    bool is_told = ask->told_tank < 0 || ask->told_tank == tank;
    WaterAsk water = {
        .farm = ask->farm,
        .alarm = ask->book->alarm,
        .tank = tank,
        .loop = ask->farm->tanks[tank].loop,
        .at = ask->at,
        .told = is_told ? ask->told : NULL,
        .usual_degc = usual_degc(e, tank),
        .altitude_m = altitude_m(ask->farm),
    };
    return water_now(&water);
}

/* Fresh water that the tank bears at once; NAN where its source is not known.
 */
static double top_up_m3(const Emergency *e, int32_t tank, const WaterNow *water)
{
    const Farm *farm = e->ask.farm;
    int32_t loop = farm->tanks[tank].loop;
    if (loop < 0 || loop >= farm->loops_count) {
        return NAN;
    }
    int32_t source = farm->loops[loop].source;
    if (source < 0 || source >= farm->sources_count) {
        return NAN;
    }
    const WaterKnown *temp = &water->of[READ_TEMP];
    TopUp top_up = {
        .volume_m3 = farm->tanks[tank].volume_m3,
        .tank_degc = (temp->low + temp->high) / 2.0,
        .source_degc = farm->sources[source].temp_degc,
        .chlorine_mg_l = farm->sources[source].chlorine_mg_l,
        .chlorine_most_mg_l = water_chlorine_most_mg_l(),
        .change_most_degc = water_change_most_degc(),
    };
    TopUpLimit limit = {0};
    Err err = water_top_up_limit(&top_up, &limit);
    return err.kind == ERR_OK && isfinite(limit.most_m3) ? limit.most_m3 : NAN;
}

static EmergencyTank tank_of(const Emergency *e, int32_t tank)
{
    EmergencyTank out = {.tank = tank, .water = water_of(e, tank)};
    AlarmAirAsk ask = {
        .hangs = &e->hangs,
        .alarm = e->ask.book->alarm,
        .fish = &e->fish.tanks[tank],
        .water = &out.water,
        .tank = tank,
        .hours_since_meal = e->ask.hours_since_meal,
        .altitude_m = altitude_m(e->ask.farm),
    };
    out.air = alarm_air(&ask);
    fish_now_weights(ask.fish, &out.least_g, &out.most_g);
    out.top_up_m3 = top_up_m3(e, tank, &out.water);
    return out;
}

static int worst_first(const void *left, const void *right)
{
    const EmergencyTank *a = left;
    const EmergencyTank *b = right;
    if (a->air.has_fish != b->air.has_fish) {
        return a->air.has_fish ? -1 : 1;
    }
    if (alarm_air_is_worse(&a->air, &b->air)) {
        return -1;
    }
    if (alarm_air_is_worse(&b->air, &a->air)) {
        return 1;
    }
    return a->tank < b->tank ? -1 : 1;
}

static void find_tanks(Emergency *e, Arena *arena)
{
    const Farm *farm = e->ask.farm;
    e->tanks = ARENA_ARRAY(arena, EmergencyTank, farm->tanks_count);
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (hangs_tank(&e->hangs, k) || e->ask.on == HANGS_POWER) {
            e->tanks[e->tank_count++] = tank_of(e, k);
        }
    }
    qsort(e->tanks, (size_t)e->tank_count, sizeof *e->tanks, worst_first);
    while (e->with_fish < e->tank_count &&
           e->tanks[e->with_fish].air.has_fish) {
        e->with_fish++;
    }
}

/* ---- Cold -----------------------------------------------------------------
 */

/* The night may stay as cold as a cold one of its season gets, or no colder
 * than its usual mean. */
static void find_night(Emergency *e)
{
    const BookAlarm *alarm = e->ask.book->alarm;
    const ClimateYear *climate = e->ask.climate;
    if (!isnan(e->ask.outside_degc)) {
        e->night_low_degc = e->ask.outside_degc;
        e->night_high_degc = e->ask.outside_degc;
        e->night_from = WATER_TOLD;
    } else if (climate) {
        e->night_low_degc = climate->outside_min_degc[day_at(e)] -
                            e->ask.book->common->cold_night_drop_degc.value;
        e->night_high_degc = climate->outside_mean_degc[day_at(e)];
        e->night_from = WATER_USUAL;
    } else {
        e->night_low_degc = alarm->night_degc.low;
        e->night_high_degc = alarm->night_degc.high;
        e->night_from = WATER_ASSUMED;
    }
}

static void add_cold(Emergency *e, int32_t heater)
{
    const Farm *farm = e->ask.farm;
    int32_t tank = farm->heaters[heater].tank;
    bool is_alone = tank >= 0 && tank < farm->tanks_count;
    int32_t loop = is_alone ? -1 : farm->heaters[heater].loop;
    EmergencyCold *cold = &e->colds[e->cold_count++];
    *cold = (EmergencyCold){.loop = loop,
                            .tank = is_alone ? tank : -1,
                            .start_low_degc = INFINITY,
                            .start_high_degc = -INFINITY};
    bool has_fish = false;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (!hangs_heater_serves(farm, heater, k)) {
            continue;
        }
        WaterNow water = water_of(e, k);
        cold->start_low_degc =
            fmin(cold->start_low_degc, water.of[READ_TEMP].low);
        cold->start_high_degc =
            fmax(cold->start_high_degc, water.of[READ_TEMP].high);
        const FishNowTank *fish = &e->fish.tanks[k];
        AlarmColdLimits at = alarm_cold_limits(e->ask.book->alarm, fish, 1);
        if (!has_fish ||
            (fish->count > 0 &&
             at.lethal_high_degc > cold->limits.lethal_high_degc)) {
            cold->limits = at;
        }
        has_fish = has_fish || fish->count > 0;
    }
    if (!isfinite(cold->start_low_degc)) {
        e->cold_count--; /* a loop without tanks */
        return;
    }
    AlarmHeatAsk ask = {
        .farm = farm,
        .alarm = e->ask.book->alarm,
        .loop = loop,
        .tank = cold->tank,
        .start_low_degc = cold->start_low_degc,
        .start_high_degc = cold->start_high_degc,
        .night_low_degc = e->night_low_degc,
        .night_high_degc = e->night_high_degc,
        .limits = cold->limits,
        .day = e->ask.day,
    };
    cold->heat = alarm_heat(&ask);
}

static void find_colds(Emergency *e, Arena *arena)
{
    const Farm *farm = e->ask.farm;
    e->colds = ARENA_ARRAY(arena, EmergencyCold, farm->heaters_count);
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        const Heater *heater = &farm->heaters[i];
        bool is_told = false;
        for (int32_t j = 0; j < i; j++) {
            is_told = is_told || (e->hangs.heaters[j] &&
                                  farm->heaters[j].loop == heater->loop &&
                                  farm->heaters[j].tank == heater->tank);
        }
        if (!e->hangs.heaters[i] || is_told) {
            continue;
        }
        if ((heater->tank >= 0 && heater->tank < farm->tanks_count) ||
            (heater->loop >= 0 && heater->loop < farm->loops_count)) {
            add_cold(e, i);
        }
    }
}

/* ---- Plants ---------------------------------------------------------------
 */

/* Light to heat: 2.06 mol of usable light in a MJ of sun; 2.45 MJ a kg of
 * vapour. Source: [FAO56] for the latter; the former is the usual figure. */
static double draws_mm_d(const Emergency *e)
{
    static const double MOL_PER_MJ = 2.06;
    static const double MJ_PER_MM = 2.45;
    static const double AT_SEA_KPA = 101.3;
    const ClimateYear *climate = e->ask.climate;
    double most = 0.0;
    for (int32_t i = 0; i < e->ask.farm->tunnels_count; i++) {
        const ClimateTunnel *tunnel = &climate->tunnels[i];
        double sun_mj = tunnel->dli_mol[day_at(e)] / MOL_PER_MJ;
        double warm = fmin(60.0, fmax(-20.0, tunnel->mean_degc[day_at(e)]));
        most = fmax(most, sun_mj / MJ_PER_MM *
                              air_equilibrium_frac(warm, AT_SEA_KPA));
    }
    if (e->ask.farm->tunnels_count == 0) {
        most = climate->outside_dli_mol[day_at(e)] / MOL_PER_MJ / MJ_PER_MM *
               air_equilibrium_frac(20.0, AT_SEA_KPA);
    }
    return most;
}

/* Water that the roots can still draw over what the season's light takes. */
static void find_plants(Emergency *e)
{
    static const double LEAST_MM_D = 0.3;
    static const double ASSUMED_LOW_MM_D = 1.0;
    static const double ASSUMED_HIGH_MM_D = 6.0;
    static const double CLEAR_OVER_USUAL = 1.5; /* a clear day; judged */
    const BookAlarm *alarm = e->ask.book->alarm;
    double low = ASSUMED_LOW_MM_D;
    double high = ASSUMED_HIGH_MM_D;
    if (e->ask.climate) {
        low = fmax(LEAST_MM_D, draws_mm_d(e) / CLEAR_OVER_USUAL);
        high = fmax(LEAST_MM_D, draws_mm_d(e) * CLEAR_OVER_USUAL);
    }
    double depth_m = INFINITY;
    for (int32_t i = 0; i < e->ask.farm->beds_count; i++) {
        double at = e->ask.farm->beds[i].depth_m;
        depth_m =
            e->hangs.beds[i] && isfinite(at) ? fmin(depth_m, at) : depth_m;
    }
    if (!isfinite(depth_m)) {
        e->plants = (AlarmSpan){0.0, INFINITY};
        e->young = e->plants;
        return;
    }
    double least_mm = 1000.0 * depth_m * alarm->gravel_held_frac.low;
    double most_mm = 1000.0 * depth_m * alarm->gravel_held_frac.high;
    e->plants = (AlarmSpan){DAY_H * least_mm / high, DAY_H * most_mm / low};
    e->young = (AlarmSpan){e->plants.low_h * alarm->young_root_frac.low,
                           e->plants.high_h * alarm->young_root_frac.high};
}

/* ---- All of it ------------------------------------------------------------
 */

static void tell_waters(Emergency *e, Arena *arena)
{
    int unread = 0;
    int untold = 0;
    for (int i = 0; i < e->with_fish; i++) {
        const EmergencyTank *tank = &e->tanks[i];
        unread += tank->water.of[READ_OXYGEN].from == WATER_ASSUMED ? 1 : 0;
        untold += tank->water.of[READ_TEMP].from == WATER_ASSUMED ? 1 : 0;
    }
    const BookAlarm *alarm = e->ask.book->alarm;
    if (unread > 0 && e->ask.on != HANGS_HEATER) {
        emergency_notice(
            e,
            arena_say(arena,
                      "%d of %d tanks have no oxygen reading: %.3g mg/L or "
                      "more is taken. Read it, and ask again.",
                      unread, e->with_fish, alarm->oxygen_unread_mg_l.value));
    }
    if (untold > 0) {
        emergency_notice(
            e, arena_say(arena,
                         "%d tanks have no temperature: %.3g-%.3g degC is "
                         "taken.",
                         untold, alarm->temp_unread_degc.low,
                         alarm->temp_unread_degc.high));
    }
}

void emergency_make(const EmergencyAsk *ask, Arena *arena, Emergency *out)
{
    *out = (Emergency){.ask = *ask};
    hangs_find(ask->farm, ask->on, ask->row, arena, &out->hangs);
    find_fish(out, arena);
    find_tanks(out, arena);
    find_night(out);
    find_colds(out, arena);
    find_plants(out);
    tell_waters(out, arena);
}
