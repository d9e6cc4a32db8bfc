/* The air of a farm through the seven days, its openings held. */
#include "work/vent_day.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "sim/weather_forecast.h"

enum { WEEK_D = 7 };

Farm *vent_air_farm(const Farm *farm, Arena *arena)
{
    Farm *air = ARENA_NEW(arena, Farm);
    *air = *farm;
    air->fish_count = air->plants_count = air->plan_count = 0;
    air->plan_plants_count = air->plan_fish_count = 0;
    air->plan_moves_count = air->plan_cleans_count = 0;
    air->plan_orders_count = 0;
    int32_t count = farm->tunnels_count;
    air->tunnels = ARENA_ARRAY(arena, Tunnel, count);
    for (int32_t t = 0; t < count; t++) {
        air->tunnels[t] = farm->tunnels[t];
    }
    return air;
}

static Err make_weather(AirRun *run)
{
    const VentAsk *ask = run->ask;
    run->weather = ARENA_ARRAY(run->arena, HourWeather, run->days * VENT_DAY_H);
    hour_typical_weather(run->plain, 0, run->days * VENT_DAY_H, run->weather);
    WeatherForecast told;
    weather_forecast_of_farm(ask->farm, &told);
    if (told.count == 0) {
        return ERR_NONE;
    }
    WeatherMaker *maker = NULL;
    TRY(weather_make(ask->farm, ask->book, run->arena, &maker));
    WeatherHours over = {run->weather, run->from_day, run->days,
                         ask->farm->farm->latitude_deg};
    (void)weather_forecast_apply(maker, &told, &over);
    return ERR_NONE;
}

Err air_run_make(const VentAsk *ask, const VentTunnel *tunnels, Arena *arena,
                 AirRun *out)
{
    AirRun run = {
        .ask = ask, .arena = arena, .from_day = week_of(ask->day) - WEEK_D};
    run.days = ask->day - run.from_day + PRESSURE_DAYS;
    Farm *plain = vent_air_farm(ask->farm, arena);
    Farm *ruled = vent_air_farm(ask->farm, arena);
    for (int32_t t = 0; t < ask->farm->tunnels_count; t++) {
        for (int month = 0; month < VENT_MONTHS; month++) {
            double told = ask->farm->tunnels[t].midday_h[month];
            plain->tunnels[t].midday_h[month] = 0.0;
            ruled->tunnels[t].midday_h[month] =
                told < 0.0 ? VENT_USUAL_MIDDAY_H : told;
        }
        ruled->tunnels[t].floor_degc = tunnels[t].floor_degc;
    }
    HourAsk hour = {plain, ask->book, ask->climate, run.from_day,
                    hour_usual_care()};
    TRY(hour_farm_make(&hour, arena, &run.plain));
    hour.farm = ruled;
    TRY(hour_farm_make(&hour, arena, &run.ruled));
    TRY(hour_state_make(run.ruled, arena, &run.start));
    TRY(hour_state_make(run.ruled, arena, &run.room));
    TRY(make_weather(&run));
    for (int at = 0; at < (ask->day - run.from_day) * VENT_DAY_H; at++) {
        hour_step(run.ruled, run.start, &run.weather[at], NULL);
    }
    *out = run;
    return ERR_NONE;
}

const HourWeather *air_run_weather(const AirRun *run, int hour)
{
    return &run->weather[(run->ask->day - run->from_day) * VENT_DAY_H + hour];
}

void air_run_hours(const AirRun *run, const AirPlan *plan, int hours,
                   HourAir *out)
{
    int tunnels = run->ask->farm->tunnels_count;
    hour_state_copy(run->plain, run->start, run->room);
    for (int hour = 0; hour < hours; hour++) {
        bool is_today = hour < VENT_DAY_H;
        for (int t = 0; t < tunnels; t++) {
            double held = plan->is_shut ? 0.0
                          : is_today && plan->hold
                              ? plan->hold(plan->self, t, hour)
                              : NAN;
            hour_hold_vents(run->room, t, held);
        }
        hour_step(is_today ? run->plain : run->ruled, run->room,
                  air_run_weather(run, hour), NULL);
        for (int t = 0; t < tunnels; t++) {
            out[t * hours + hour] = hour_air_of(run->room, t);
        }
    }
}
