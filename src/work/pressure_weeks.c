/* Moulds' pressure through the weeks: the farm's air by the hour, a week at a
 * time against the rules. */
#include "sim/hour.h"
#include "sim/plant_stand.h"
#include "sim/weather_forecast.h"
#include "work/pressure.h"
#include "work/vent_day.h"

enum { DAY_H = 24, WEEK_D = 7 };

typedef struct Air {
    const PressureAsk *ask;
    HourFarm *hours;
    HourState *state;
    HourWeather weather[PRESSURE_HOURS]; /* of a week */
    PressureAir *week;                   /* [tunnel * PRESSURE_HOURS + hour] */
    WeatherMaker *maker;                 /* NULL: there is no forecast */
    WeatherForecast told;
} Air;

static Err open_air(const PressureAsk *ask, Arena *arena, Air *air)
{
    HourAsk hour = {vent_air_farm(ask->farm, arena), ask->book, ask->climate,
                    ask->first_week - WEEK_D, hour_usual_care()};
    air->ask = ask;
    TRY(hour_farm_make(&hour, arena, &air->hours));
    TRY(hour_state_make(air->hours, arena, &air->state));
    air->week = ARENA_ARRAY(arena, PressureAir,
                            ask->farm->tunnels_count * PRESSURE_HOURS);
    weather_forecast_of_farm(ask->farm, &air->told);
    return air->told.count > 0
               ? weather_make(ask->farm, ask->book, arena, &air->maker)
               : ERR_NONE;
}

static void run_week(Air *air)
{
    int64_t at = hour_state_hours(air->state);
    hour_typical_weather(air->hours, at, PRESSURE_HOURS, air->weather);
    if (air->maker) {
        WeatherHours over = {
            air->weather, air->ask->first_week - WEEK_D + (int32_t)(at / DAY_H),
            WEEK_D, air->ask->farm->farm->latitude_deg};
        (void)weather_forecast_apply(air->maker, &air->told, &over);
    }
    for (int hour = 0; hour < PRESSURE_HOURS; hour++) {
        const HourWeather *now = &air->weather[hour];
        hour_step(air->hours, air->state, now, NULL);
        for (int t = 0; t < air->ask->farm->tunnels_count; t++) {
            HourAir is = hour_air_of(air->state, t);
            air->week[t * PRESSURE_HOURS + hour] =
                (PressureAir){is.air_degc, is.rh_frac, is.is_leaf_wet,
                              now->direct_w_m2 + now->diffuse_w_m2 <= 0};
        }
    }
}

static bool stands(const PressureAsk *ask, const PlantStandBatch *batch,
                   int tunnel, int week)
{
    int32_t monday = ask->first_week + WEEK_D * week;
    return ask->farm->beds[batch->bed].tunnel == tunnel &&
           batch->set_day < monday + WEEK_D && batch->clear_day > monday;
}

/* Marks the weeks in which a batch of the way stands in the tunnel. */
static int mark_weeks(const PressureAsk *ask, const PlantStand *stand, int way,
                      int tunnel, bool *out)
{
    int count = 0;
    for (int week = 0; week < ask->weeks; week++) {
        out[week] = false;
        for (int b = 0; b < stand->batch_count && !out[week]; b++) {
            out[week] = stand->batches[b].way == way &&
                        stands(ask, &stand->batches[b], tunnel, week);
        }
        count += out[week];
    }
    return count;
}

static void find_run(const PressureWeeks *made, const bool *stands_in,
                     PressureRun *run)
{
    run->first_week = -1;
    for (int week = 0; week < made->weeks; week++) {
        int at = (week * made->tunnels + run->tunnel) * MOULD_COUNT;
        bool is_high = made->all[at + (int)run->mould].level == PRESSURE_HIGH;
        if (stands_in[week] && is_high) {
            run->first_week = run->first_week < 0 ? week : run->first_week;
            run->last_week = week;
            run->high_weeks++;
        }
    }
}

static void find_runs(const PressureAsk *ask, const PlantStand *stand,
                      Arena *arena, PressureWeeks *made)
{
    int most = made->tunnels * MOULD_COUNT * ask->farm->ways_count;
    bool *stands_in = ARENA_ARRAY(arena, bool, ask->weeks);
    made->runs = ARENA_ARRAY(arena, PressureRun, most);
    for (int t = 0; t < made->tunnels; t++) {
        for (int way = 0; way < ask->farm->ways_count; way++) {
            int count = mark_weeks(ask, stand, way, t, stands_in);
            for (int m = 0; m < MOULD_COUNT && count > 0; m++) {
                PressureRun run = {.tunnel = t,
                                   .mould = (Mould)m,
                                   .way = way,
                                   .standing_weeks = count};
                find_run(made, stands_in, &run);
                if (run.high_weeks > 0 &&
                    mould_hits(run.mould, ask->farm, ask->book, way)) {
                    made->runs[made->run_count++] = run;
                }
            }
        }
    }
}

Err pressure_weeks_make(const PressureAsk *ask, const PlantStand *stand,
                        Arena *arena, PressureWeeks *out)
{
    PressureWeeks made = {.weeks = ask->weeks,
                          .tunnels = ask->farm->tunnels_count};
    Air *air = ARENA_NEW(arena, Air);
    TRY(open_air(ask, arena, air));
    run_week(air); /* the week before */
    made.all =
        ARENA_ARRAY(arena, Pressure, made.weeks * made.tunnels * MOULD_COUNT);
    for (int week = 0; week < made.weeks; week++) {
        run_week(air);
        for (int t = 0; t < made.tunnels; t++) {
            pressure_of_week(
                air->week + (ptrdiff_t)t * PRESSURE_HOURS,
                &made.all[(week * made.tunnels + t) * MOULD_COUNT]);
        }
    }
    find_runs(ask, stand, arena, &made);
    *out = made;
    return ERR_NONE;
}
