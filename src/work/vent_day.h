/* Between vent.c, vent_day.c and pressure_weeks.c: the air of a farm run by the
 * hour, its openings held. No other file includes it. */
#ifndef LEAT_WORK_VENT_DAY_H
#define LEAT_WORK_VENT_DAY_H

#include "sim/hour.h"
#include "work/vent.h"

/* The farm's air: without its fish and plan, which do not move it. */
typedef struct AirRun {
    const VentAsk *ask;
    Arena *arena;
    int32_t from_day;
    int days; /* from then to the end of the seven */
    HourWeather *weather;
    HourFarm *plain;  /* openings by their warmth only */
    HourFarm *ruled;  /* and at midday, no colder than the crops' floor */
    HourState *start; /* 0 h of the day */
    HourState *room;  /* for a run from it */
} AirRun;

/* A copy of the farm without fish, plants and plan, which have no part in the
 * air as it is modelled; its rows of tunnels may be changed. */
Farm *vent_air_farm(const Farm *farm, Arena *arena);

/* Floors and midday hours by tunnel go into the second farm. */
NODISCARD Err air_run_make(const VentAsk *ask, const VentTunnel *tunnels,
                           Arena *arena, AirRun *out);

/* The weather of an hour of the seven days. */
const HourWeather *air_run_weather(const AirRun *run, int hour);

/* How far a tunnel is held open in an hour of the day; NAN: by its rule. */
typedef double AirHold(const void *self, int tunnel, int hour);

/* Runs hours from the day's 0 h on; out [tunnel * hours + hour]. After the day
 * itself openings follow their rule with midday hours; with is_shut they are
 * shut throughout. */
typedef struct AirPlan {
    const void *self;
    AirHold *hold;
    bool is_shut;
} AirPlan;
void air_run_hours(const AirRun *run, const AirPlan *plan, int hours,
                   HourAir *out);

#endif
