/* The openings of a day: by warmth, at midday, in the morning. */
#include "work/vent.h"

#include <math.h>

#include "base/date.h"
#include "sim/bed_kinds.h"
#include "sim/plant_stand.h"
#include "sim/weather_forecast.h"
#include "work/outlook.h"
#include "work/vent_day.h"
#include "work/vent_working.h"

static const double OPEN_LEAST_FRAC = 0.02;
static const double NEAR_K = 0.05;
static const double WIDTHS[] = {1.0, 0.5, 0.25};
enum { WIDTH_COUNT = sizeof WIDTHS / sizeof *WIDTHS };
/* Judged: a fresh breeze, from which the windward side stays shut. */
static const double LEE_ONLY_M_S = 8.0;
/* Judged: how much over the cold that kills a crop is still safe for it. */
static const double SAFE_OVER_K = 3.0;
static const double TENDER_OVER_K = 2.0;
static const double MORNING_SAVES_H = 1.0;

/* ---- What stands there -----------------------------------------------------
 */

static Err find_batches(const VentAsk *ask, Arena *arena, VentDay *day)
{
    OutlookStand stand = {ask->farm, ask->book, ask->climate, week_of(ask->day),
                          2};
    PlantStand plants;
    TRY(outlook_stand(&stand, arena, &plants));
    day->batches = ARENA_ARRAY(arena, VentBatch, plants.batch_count);
    for (int b = 0; b < plants.batch_count; b++) {
        const PlantStandBatch *batch = &plants.batches[b];
        if (batch->set_day < ask->day + PRESSURE_DAYS &&
            batch->clear_day > ask->day) {
            day->batches[day->batch_count++] =
                (VentBatch){batch->id, batch->way, batch->bed,
                            ask->farm->beds[batch->bed].tunnel};
        }
    }
    return ERR_NONE;
}

/* No colder than this while it is opened at midday: where the book knows a cold
 * that spoils the crop that, else somewhat over what kills it. */
static double floor_of(const PlantRule *rule)
{
    return fmax(0.0, isnan(rule->chill_degc)
                         ? rule->frost_kill_degc + SAFE_OVER_K
                         : rule->chill_degc);
}

static Err find_floors(const VentAsk *ask, const VentDay *day, int t)
{
    VentTunnel *to = &day->tunnels[t];
    to->floor_way = to->tender_way = -1;
    to->tender_degc = -INFINITY;
    for (int b = 0; b < day->batch_count; b++) {
        if (day->batches[b].tunnel != t) {
            continue;
        }
        PlantRule rule;
        int way = day->batches[b].way;
        TRY(plant_rule_of_farm(ask->book, ask->farm, way, &rule));
        if (floor_of(&rule) > to->floor_degc) {
            to->floor_degc = floor_of(&rule);
            to->floor_way = way;
        }
        if (rule.frost_kill_degc > to->tender_degc) {
            to->tender_degc = rule.frost_kill_degc;
            to->tender_way = way;
        }
    }
    if (ask->farm->tunnels[t].floor_degc >= 0.0) {
        to->floor_degc = ask->farm->tunnels[t].floor_degc;
        to->floor_way = -1;
    }
    return ERR_NONE;
}

/* ---- Trials ----------------------------------------------------------------
 */

/* One tunnel held open through a span, the rest by their rules. */
typedef struct Trial {
    int tunnel;
    VentSpan span;
} Trial;

static double share_of(const VentSpan *span, int hour)
{
    double from = fmax(span->from_h, hour);
    double until = fmin(span->until_h, hour + 1.0);
    return fmax(until - from, 0.0);
}

static double hold_trial(const void *self, int tunnel, int hour)
{
    const Trial *trial = self;
    double share = share_of(&trial->span, hour);
    return tunnel == trial->tunnel && share > 0.0
               ? share * trial->span.width_frac
               : NAN;
}

/* Runs it; the least air inside within its hours. */
static double try_span(const AirRun *run, const Trial *trial, HourAir *air)
{
    AirPlan plan = {trial, hold_trial, false};
    air_run_hours(run, &plan, VENT_DAY_H, air);
    double least = INFINITY;
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        if (share_of(&trial->span, hour) > 0.0) {
            least =
                fmin(least, air[trial->tunnel * VENT_DAY_H + hour].air_degc);
        }
    }
    return least;
}

static VentSpan midday_span(double hours, double width_frac)
{
    const double midday_h = 13.0; /* as vent_midday_share has it */
    return (VentSpan){midday_h - hours / 2.0, midday_h + hours / 2.0,
                      width_frac};
}

/* The longest, then the widest opening that leaves the crops their warmth. */
static void find_midday(const AirRun *run, int t, HourAir *air, VentTunnel *to)
{
    Trial trial = {t, midday_span(to->midday_h, 1.0)};
    to->wide_least_degc = try_span(run, &trial, air);
    to->midday = VENT_TOO_COLD;
    int tries = (int)ceil(to->midday_h);
    for (int less = 0; less < tries; less++) {
        double hours = to->midday_h - less;
        for (int w = 0; w < WIDTH_COUNT; w++) {
            trial.span = midday_span(hours, WIDTHS[w]);
            double least = try_span(run, &trial, air);
            if (least < to->floor_degc - NEAR_K) {
                continue;
            }
            to->dry = trial.span;
            to->dry_least_degc = least;
            to->midday = less > 0 ? VENT_SHORTER
                         : w > 0  ? VENT_NARROWER
                                  : VENT_AS_ASKED;
            return;
        }
    }
}

/* From the first hour of light on, as long as leaves stay wet. */
static void find_morning(const AirRun *run, int t, HourAir *air, VentTunnel *to)
{
    int rise = 0;
    while (rise < VENT_DAY_H && air_run_weather(run, rise)->diffuse_w_m2 <= 0) {
        rise++;
    }
    AirPlan plain = {NULL, NULL, false};
    air_run_hours(run, &plain, VENT_DAY_H, air);
    int until = rise;
    while (until < VENT_DAY_H && air[t * VENT_DAY_H + until].is_leaf_wet) {
        until++;
    }
    /* The narrowest that saves most. */
    for (int w = WIDTH_COUNT - 1; w >= 0 && until > rise; w--) {
        Trial trial = {t, {rise, until, WIDTHS[w]}};
        double least = try_span(run, &trial, air);
        int dry = rise;
        while (dry < until && air[t * VENT_DAY_H + dry].is_leaf_wet) {
            dry++;
        }
        double saves_h = until - dry;
        if (least >= to->floor_degc - NEAR_K && saves_h >= MORNING_SAVES_H &&
            saves_h > to->morning_saves_h) {
            to->morning = (VentSpan){rise, fmax(dry, rise + 1.0), WIDTHS[w]};
            to->morning_saves_h = saves_h;
        }
    }
}

/* ---- The day ---------------------------------------------------------------
 */

static void find_heat(const HourAir *air, VentTunnel *to)
{
    bool is_any = false;
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        double open = air[hour].vent_frac;
        if (open < OPEN_LEAST_FRAC) {
            continue;
        }
        to->heat.from_h = is_any ? to->heat.from_h : hour;
        to->heat.until_h = hour + 1.0;
        to->heat.width_frac = fmax(to->heat.width_frac, open);
        is_any = true;
    }
}

/* Shut by its row in the wind or the cold of its midday hours. */
static bool is_kept_shut(const AirRun *run, const Tunnel *row, VentTunnel *to)
{
    VentSpan span = midday_span(to->midday_h, 1.0);
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        const HourWeather *now = air_run_weather(run, hour);
        if (share_of(&span, hour) <= 0.0) {
            continue;
        }
        if (row->shut_wind_m_s >= 0.0 && now->wind_m_s > row->shut_wind_m_s) {
            to->midday = VENT_IN_WIND;
            return true;
        }
        if (now->outside_degc < row->shut_outside_degc) {
            to->midday = VENT_IN_FROST;
            return true;
        }
    }
    return false;
}

static void advise(const AirRun *run, int t, const HourAir *plain, HourAir *air,
                   VentTunnel *to)
{
    const Tunnel *row = &run->ask->farm->tunnels[t];
    find_heat(plain + (ptrdiff_t)t * VENT_DAY_H, to);
    to->is_windy =
        air_run_weather(run, VENT_DAY_H / 2)->wind_m_s > LEE_ONLY_M_S;
    if (tunnel_openings_m2(row) <= 0.0) {
        to->midday = VENT_NO_OPENING;
        return;
    }
    if (to->midday_h <= 0.0) {
        to->midday = VENT_NOT_ASKED;
    } else if (!is_kept_shut(run, row, to)) {
        bool is_open = to->heat.until_h - to->heat.from_h >= to->midday_h;
        to->midday = VENT_FOR_WARMTH;
        if (!is_open) {
            find_midday(run, t, air, to);
        }
    }
    if (to->midday != VENT_IN_WIND && to->midday != VENT_IN_FROST) {
        find_morning(run, t, air, to);
    }
}

static double hold_advised(const void *self, int tunnel, int hour)
{
    const VentTunnel *to = (const VentTunnel *)self + tunnel;
    double share = share_of(&to->dry, hour);
    return share > 0.0 ? share * to->dry.width_frac : NAN;
}

static void tell_hours(const AirRun *run, const HourAir *air, int way,
                       VentTunnel *to)
{
    PressureAir week[PRESSURE_HOURS];
    for (int hour = 0; hour < PRESSURE_HOURS; hour++) {
        const HourWeather *now = air_run_weather(run, hour);
        const HourAir *is = &air[hour];
        week[hour] = (PressureAir){is->air_degc, is->rh_frac, is->is_leaf_wet,
                                   now->direct_w_m2 + now->diffuse_w_m2 <= 0};
        double wet_h = is->is_leaf_wet ? 1.0 : 0.0;
        to->week_wet_h[way] += wet_h / PRESSURE_DAYS;
        if (hour < VENT_DAY_H) {
            to->hours[way][hour] =
                (VentAir){now->outside_degc, is->air_degc, is->rh_frac,
                          is->vent_frac, is->is_leaf_wet};
            to->wet_h[way] += wet_h;
            to->rh_frac[way] += is->rh_frac / VENT_DAY_H;
        }
    }
    pressure_of_week(week, to->pressure[way]);
}

static void tell_night(const AirRun *run, const HourAir *air,
                       const VentRule *rule, VentTunnel *to)
{
    to->night_degc = to->crop_degc = to->night_out_degc = INFINITY;
    for (int hour = VENT_EVENING_H; hour < VENT_NIGHT_UNTIL_H; hour++) {
        double over_k = air[hour].is_fleeced ? rule->fleece_over_k : 0.0;
        to->night_degc = fmin(to->night_degc, air[hour].air_degc);
        to->crop_degc = fmin(to->crop_degc, air[hour].air_degc + over_k);
        to->night_out_degc =
            fmin(to->night_out_degc, air_run_weather(run, hour)->outside_degc);
        to->is_fleeced = to->is_fleeced || air[hour].is_fleeced;
    }
    if (to->night_degc > to->tender_degc + TENDER_OVER_K) {
        to->tender_way = -1;
    }
}

static void tell_weather(const AirRun *run, VentDay *day)
{
    day->outside_most_degc = -INFINITY;
    day->outside_least_degc = INFINITY;
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        const HourWeather *now = air_run_weather(run, hour);
        day->outside_most_degc =
            fmax(day->outside_most_degc, now->outside_degc);
        day->outside_least_degc =
            fmin(day->outside_least_degc, now->outside_degc);
        day->wind_m_s += now->wind_m_s / VENT_DAY_H;
    }
    WeatherForecast told;
    weather_forecast_of_farm(day->farm, &told);
    day->is_forecast = weather_forecast_day(&told, day->day) != NULL;
    for (int d = 0; d < PRESSURE_DAYS; d++) {
        day->forecast_days += weather_forecast_day(&told, day->day + d) != NULL;
    }
}

static void tell_extremes(VentTunnel *to)
{
    to->shut_most_degc = -INFINITY;
    to->dry_rh_frac = to->dry_shut_frac = INFINITY;
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        const VentAir *shut = &to->hours[VENT_SHUT][hour];
        double rh_frac = to->hours[VENT_OPENED][hour].rh_frac;
        to->shut_most_degc = fmax(to->shut_most_degc, shut->air_degc);
        if (share_of(&to->dry, hour) > 0.0 && rh_frac < to->dry_rh_frac) {
            to->dry_rh_frac = rh_frac;
            to->dry_shut_frac = shut->rh_frac;
        }
    }
}

Err vent_day_make(const VentAsk *ask, Arena *arena, VentDay *out)
{
    int32_t count = ask->farm->tunnels_count;
    VentDay day = {.farm = ask->farm,
                   .book = ask->book,
                   .day = ask->day,
                   .clock_ahead_h = ask->clock_ahead_h,
                   .tunnels = ARENA_ARRAY(arena, VentTunnel, count)};
    TRY(find_batches(ask, arena, &day));
    int month = date_month(ask->day) - 1;
    for (int32_t t = 0; t < count; t++) {
        double told_h = ask->farm->tunnels[t].midday_h[month];
        day.tunnels[t].is_usual = told_h < 0.0;
        day.tunnels[t].midday_h = told_h < 0.0 ? VENT_USUAL_MIDDAY_H : told_h;
        TRY(find_floors(ask, &day, t));
    }
    AirRun run;
    TRY(air_run_make(ask, day.tunnels, arena, &run));
    tell_weather(&run, &day);
    HourAir *plain = ARENA_ARRAY(arena, HourAir, count * VENT_DAY_H);
    HourAir *air = ARENA_ARRAY(arena, HourAir, count * PRESSURE_HOURS);
    AirPlan by_warmth = {NULL, NULL, false};
    air_run_hours(&run, &by_warmth, VENT_DAY_H, plain);
    for (int32_t t = 0; t < count; t++) {
        advise(&run, t, plain, air, &day.tunnels[t]);
    }
    for (int way = 0; way < VENT_WAYS; way++) {
        AirPlan plan = {day.tunnels, hold_advised, way == VENT_SHUT};
        air_run_hours(&run, &plan, PRESSURE_HOURS, air);
        for (int32_t t = 0; t < count; t++) {
            const HourAir *its = air + (ptrdiff_t)t * PRESSURE_HOURS;
            tell_hours(&run, its, way, &day.tunnels[t]);
            if (way == VENT_OPENED) {
                VentRule rule =
                    vent_rule_of(&ask->farm->tunnels[t], ask->book->common);
                tell_night(&run, its, &rule, &day.tunnels[t]);
                vent_working_night(ask, t, its, &day.tunnels[t]);
            }
            vent_working_wet(ask, t, way, &day.tunnels[t]);
        }
    }
    for (int32_t t = 0; t < count; t++) {
        tell_extremes(&day.tunnels[t]);
    }
    vent_working_outside(ask, &day);
    *out = day;
    return ERR_NONE;
}
