/* How long: the card's tables of oxygen and of cold. */
#include "work/emergency_parts.h"

#include <math.h>
#include <stdio.h>

#include "base/tongue.h"

enum { FISH_LEAST = 4, FISH_MANY = 5 };

static const double MIN_PER_H = 60.0;
static const double LONG_H = 96.0; /* beyond it no hour matters */
static const double SOON_H = 36.0;
static const double STALE_H = 1.0; /* a reading worth making again */

/* Down to the safe side at the low end, up at the high one: five minutes,
 * half hours, hours. */
static double rounded_min(double minutes, bool is_up)
{
    static const struct {
        double below_min, step_min;
    } STEPS[] = {{60.0, 5.0}, {600.0, 30.0}, {INFINITY, 60.0}};
    int at = 0;
    while (minutes >= STEPS[at].below_min) {
        at++;
    }
    double step = STEPS[at].step_min;
    return step * (is_up ? ceil(minutes / step) : floor(minutes / step));
}

static const char *one_text(double minutes, Arena *arena)
{
    return minutes < 90.0 ? arena_say(arena, "%.0f min", minutes)
                          : arena_text(arena, "%.3g h", minutes / MIN_PER_H);
}

const char *emergency_span_text(const AlarmSpan *span, Arena *arena)
{
    if (span->low_h > LONG_H) {
        return say(arena, isinf(span->low_h) ? "holds" : "4 days +");
    }
    if (span->high_h <= 0.0) {
        return say(arena, "now");
    }
    double from = rounded_min(span->low_h * MIN_PER_H, false);
    if (span->high_h > LONG_H) {
        return from < 5.0 ? say(arena, "any time")
                          : arena_text(arena, "%s +", one_text(from, arena));
    }
    double to = fmax(rounded_min(span->high_h * MIN_PER_H, true), 5.0);
    if (from < 5.0) {
        return arena_text(arena, "0-%s", one_text(to, arena));
    }
    if (to < 90.0) {
        return arena_say(arena, "%.0f-%.0f min", from, to);
    }
    if (from < 60.0) {
        return arena_text(arena, "%.0fmin-%.3gh", from, to / MIN_PER_H);
    }
    return arena_text(arena, "%.3g-%.3g h", from / MIN_PER_H, to / MIN_PER_H);
}

static const char *range_text(double low, double high, Arena *arena)
{
    return high - low < 0.1 ? arena_text(arena, "%.1f", low)
                            : arena_text(arena, "%.1f-%.1f", low, high);
}

/* ---- Oxygen ---------------------------------------------------------------
 */

/* Air that runs on, or, where only the blower stopped, the pump's flow. */
static bool has_some_air(const CardWork *work, const EmergencyTank *tank)
{
    return tank->air.has_air || work->e->ask.on == HANGS_AERATOR;
}

static const char *fish_word(const CardWork *work)
{
    return say_n(work->arena, FISH_MANY, "fish", "fish");
}

/* The column of kilos is as wide as its head, which differs by language. */
static int fish_columns(const CardWork *work)
{
    int columns = card_columns(fish_word(work));
    return columns > FISH_LEAST ? columns : FISH_LEAST;
}

static void tell_tank(const CardWork *work, const EmergencyTank *tank)
{
    Arena *arena = work->arena;
    const AlarmAir *air = &tank->air;
    const WaterKnown *temp = &tank->water.of[READ_TEMP];
    const WaterKnown *oxygen = &tank->water.of[READ_OXYGEN];
    const char *id = card_tank_id(work->farm, tank->tank);
    if (!air->has_volume) {
        card_row(work, CARD_TIME,
                 "%-8.8s %4.0f kg, its volume cannot be read: take the "
                 "shortest",
                 id, air->kg.high);
        return;
    }
    const char *spans[] = {has_some_air(work, tank)
                               ? emergency_span_text(&air->with_air.act, arena)
                               : say(arena, "no air"),
                           emergency_span_text(&air->without.act, arena),
                           emergency_span_text(&air->without.gasp, arena),
                           emergency_span_text(&air->without.dying, arena)};
    card_row(work, CARD_TIME, "%-8.8s %s %s %s %s %s %s %s", id,
             card_cell(work, arena_text(arena, "%.0f", air->kg.high),
                       -fish_columns(work)),
             card_cell(work, range_text(temp->low, temp->high, arena), 9),
             card_cell(work, range_text(oxygen->low, oxygen->high, arena), 8),
             card_cell(work, spans[0], 10), card_cell(work, spans[1], 10),
             card_cell(work, spans[2], 10), card_cell(work, spans[3], 0));
}

/* "02:25", to the five minutes before. */
static const char *clock_text(const CardWork *work, double hours)
{
    int minute = work->ask->minute_of_day + (int)floor(hours * MIN_PER_H);
    minute -= minute % 5;
    int day_min = 24 * 60;
    minute %= day_min;
    return arena_text(work->arena, "%02d:%02d", minute / 60, minute % 60);
}

static void tell_first(const CardWork *work)
{
    const Emergency *e = work->e;
    double first_h = INFINITY;
    for (int i = 0; i < e->with_fish; i++) {
        const AlarmAir *air = &e->tanks[i].air;
        first_h =
            air->has_volume ? fmin(first_h, air->without.act.low_h) : first_h;
    }
    double act = e->ask.book->alarm->oxygen_act_mg_l.value;
    if (first_h <= 1.0 / 12.0) {
        card_say(work, CARD_TIME,
                 "Without air the first tank may be at %.3g mg/L at once. Plan "
                 "on the low ends: this is no countdown.",
                 act);
    } else if (first_h < 24.0) {
        card_say(work, CARD_TIME,
                 "Without air the first tank may be at %.3g mg/L by %s. Plan "
                 "on the low ends: this is no countdown.",
                 act, clock_text(work, first_h));
    }
}

/* "18.7 h", "6 to 154 days". */
static const char *age_text(double newest_h, double oldest_h, Arena *arena)
{
    static const double DAYS_FROM_H = 72.0;
    bool is_days = oldest_h > DAYS_FROM_H;
    double unit_h = is_days ? 24.0 : 1.0;
    const char *unit = is_days ? say(arena, "days") : "h";
    return oldest_h - newest_h > unit_h / 10.0
               ? arena_say(arena, "%.1f to %.1f %s", newest_h / unit_h,
                           oldest_h / unit_h, unit)
               : arena_text(arena, "%.1f %s", oldest_h / unit_h, unit);
}

static void tell_grounds(const CardWork *work)
{
    const Emergency *e = work->e;
    double newest_h = INFINITY;
    double oldest_h = 0.0;
    bool is_widened = false;
    for (int i = 0; i < e->with_fish; i++) {
        const WaterKnown *oxygen = &e->tanks[i].water.of[READ_OXYGEN];
        is_widened = is_widened || e->tanks[i].air.is_widened;
        if (oxygen->from == WATER_READ) {
            newest_h = fmin(newest_h, oxygen->age_h);
            oldest_h = fmax(oldest_h, oxygen->age_h);
        }
    }
    const char *age =
        isfinite(newest_h)
            ? arena_say(work->arena,
                        "Oxygen was read %s before; the older, the wider. ",
                        age_text(newest_h, oldest_h, work->arena))
            : "";
    card_say(
        work, CARD_TIME, "%s%s%s%s", age,
        isfinite(newest_h) && oldest_h < STALE_H
            ? ""
            : say(work->arena, "Read it now and ask again with tank= and "
                               "oxygen_mg_l=. "),
        e->ask.hours_since_meal < 0.0
            ? say(work->arena, "The last meal is not told: taken as just fed. ")
            : "",
        is_widened ? say(work->arena, "Fish over 150 g or water outside 24-32 "
                                      "degC: beyond one published law, so "
                                      "widened.")
                   : "");
}

void card_tell_time(const CardWork *work)
{
    const Emergency *e = work->e;
    if (e->ask.on == HANGS_HEATER) {
        return;
    }
    if (e->with_fish == 0) {
        card_say(work, CARD_TIME,
                 "No fish are told in the tanks that hang on "
                 "it. Look all the same.");
        return;
    }
    double act = e->ask.book->alarm->oxygen_act_mg_l.value;
    const char *runs =
        say(work->arena, e->ask.on == HANGS_POWER     ? "battery,"
                         : e->ask.on == HANGS_AERATOR ? "pump runs,"
                                                      : "air runs,");
    const char *to =
        card_cell(work, arena_say(work->arena, "to %.3g", act), 10);
    card_row(work, CARD_TIME, "%s %s %s %s %s %s",
             card_cell(work, say(work->arena, "tank"), 8),
             card_cell(work, fish_word(work), -fish_columns(work)),
             card_cell(work, say(work->arena, "water"), 9),
             card_cell(work, say(work->arena, "oxygen"), 8),
             card_cell(work, runs, 10),
             card_cell(work, say(work->arena, "no air and no flow:"), 0));
    card_row(work, CARD_TIME, "%-8s %s %-9s %-8s %s %s %s %s", "",
             card_cell(work, "kg", -fish_columns(work)), "degC", "mg/L", to, to,
             card_cell(work, say(work->arena, "gasping"), 10),
             card_cell(work, say(work->arena, "dying"), 0));
    for (int i = 0; i < e->with_fish && i < CARD_TANKS_MAX; i++) {
        tell_tank(work, &e->tanks[i]);
    }
    if (e->with_fish > CARD_TANKS_MAX) {
        card_say(work, CARD_TIME, "And %d tanks that last longer (--json).",
                 e->with_fish - CARD_TANKS_MAX);
    }
    tell_first(work);
    tell_grounds(work);
}

/* ---- Cold -----------------------------------------------------------------
 */

static void put_cold_row(const CardWork *work, const char *what,
                         const char *first, const char *second,
                         const char *third)
{
    card_row(work, CARD_TIME, "  %s %s %s %s", card_cell(work, what, 28),
             card_cell(work, first, 14), card_cell(work, second, 14),
             card_cell(work, third, 0));
}

static void cold_row(const CardWork *work, const EmergencyCold *cold,
                     const char *what, const AlarmSpan *const spans[3])
{
    bool has_beds = cold->loop >= 0;
    put_cold_row(
        work, what, has_beds ? emergency_span_text(spans[0], work->arena) : "",
        emergency_span_text(spans[1], work->arena),
        cold->heat.without_lid > 0 ? emergency_span_text(spans[2], work->arena)
                                   : "");
}

static const char *limit_text(const CardWork *work, const char *what,
                              double low, double high)
{
    return high - low < 0.05
               ? arena_say(work->arena, "%s, %.3g degC", what, low)
               : arena_say(work->arena, "%s, %.3g-%.3g degC", what, low, high);
}

static void tell_limits(const CardWork *work, const EmergencyCold *cold)
{
    const AlarmHeat *heat = &cold->heat;
    const AlarmColdLimits *at = &cold->limits;
    put_cold_row(work, say(work->arena, "to"),
                 cold->loop >= 0 ? say(work->arena, "beds flooding") : "",
                 say(work->arena, "beds off"),
                 heat->without_lid > 0 ? say(work->arena, "and all lidded")
                                       : "");
    const AlarmSpan *const feed[] = {&heat->on.feed, &heat->off.feed,
                                     &heat->lidded.feed};
    const AlarmSpan *const danger[] = {&heat->on.danger, &heat->off.danger,
                                       &heat->lidded.danger};
    const AlarmSpan *const lethal[] = {&heat->on.lethal, &heat->off.lethal,
                                       &heat->lidded.lethal};
    cold_row(work, cold,
             limit_text(work, say(work->arena, "no feed"), at->feed_low_degc,
                        at->feed_high_degc),
             feed);
    cold_row(work, cold,
             limit_text(work, say(work->arena, "danger"), at->danger_low_degc,
                        at->danger_high_degc),
             danger);
    cold_row(work, cold,
             limit_text(work, say(work->arena, "fish die"), at->lethal_low_degc,
                        at->lethal_high_degc),
             lethal);
    put_cold_row(
        work, say(work->arena, "after 12 h, degC"),
        cold->loop >= 0
            ? arena_text(work->arena, "%.0f-%.0f", heat->on.morning_low_degc,
                         heat->on.morning_high_degc)
            : "",
        arena_text(work->arena, "%.0f-%.0f", heat->off.morning_low_degc,
                   heat->off.morning_high_degc),
        heat->without_lid > 0 ? arena_text(work->arena, "%.0f-%.0f",
                                           heat->lidded.morning_low_degc,
                                           heat->lidded.morning_high_degc)
                              : "");
}

void card_tell_cold(const CardWork *work)
{
    static const char *const FROM[] = {[WATER_TOLD] = SAY("as told"),
                                       [WATER_USUAL] = SAY("by the season"),
                                       [WATER_ASSUMED] = SAY("assumed")};
    const Emergency *e = work->e;
    bool is_short = e->ask.on == HANGS_POWER;
    for (int i = 0; i < e->cold_count && i < 3; i++) {
        const EmergencyCold *cold = &e->colds[i];
        const char *id = cold->loop >= 0 ? work->farm->loops[cold->loop].id
                                         : work->farm->tanks[cold->tank].id;
        if (is_short && cold->heat.off.feed.low_h > SOON_H) {
            continue;
        }
        if (is_short) {
            card_say(work, CARD_WARMTH,
                     "Cold comes later: %s %.2g-%.2g degC now, to %.3g degC "
                     "(no feed): %s.",
                     id, cold->start_low_degc, cold->start_high_degc,
                     cold->limits.feed_high_degc,
                     emergency_span_text(&cold->heat.off.feed, work->arena));
            continue;
        }
        card_row(work, CARD_TIME, "%s: %.3g m3 at %.3g-%.3g degC", id,
                 cold->heat.water_m3, cold->start_low_degc,
                 cold->start_high_degc);
        tell_limits(work, cold);
    }
    if (!is_short && e->cold_count > 0) {
        card_say(
            work, CARD_TIME,
            "Outside %.2g to %.2g degC all the while (%s); no sun counted. "
            "\"holds\": it comes to rest above.",
            e->night_low_degc, e->night_high_degc,
            say(work->arena, FROM[e->night_from]));
    }
}
