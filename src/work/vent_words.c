/* A day's openings in words. */
#include <math.h>
#include <string.h>

#include "base/tongue.h"
#include "work/vent.h"

enum { LINES_MOST = 16, QUARTERS_D = 96 };

static const double SAME_H = 1.0 / 2.0;
static const double DRIES_FRAC = 0.05;

typedef struct Words {
    const VentDay *day;
    const VentTunnel *to;
    Arena *arena;
    const char **lines;
    int count;
} Words;

static void add_line(Words *w, const char *line)
{
    if (w->count < LINES_MOST - 1) {
        w->lines[w->count++] = line;
    }
}

const char *vent_clock(const VentDay *day, double sun_h, Arena *arena)
{
    long quarters = lround(4.0 * (sun_h + day->clock_ahead_h));
    quarters = ((quarters % QUARTERS_D) + QUARTERS_D) % QUARTERS_D;
    return arena_text(arena, "%02ld:%02ld", quarters / 4, quarters % 4 * 15);
}

static const char *span_text(const VentDay *day, const VentSpan *span,
                             Arena *arena)
{
    return arena_text(arena, "%s-%s", vent_clock(day, span->from_h, arena),
                      vent_clock(day, span->until_h, arena));
}

static const char *width_text(double frac, const Arena *arena)
{
    return say(arena, frac > 0.75    ? "wide"
                      : frac > 0.375 ? "half"
                      : frac > 0.125 ? "a quarter"
                                     : "a crack");
}

static bool is_span(const VentSpan *span)
{
    return span->until_h > span->from_h;
}

static const char *hours_text(double hours, Arena *arena)
{
    return hours > 1.0 + 1e-9 || hours < 1.0 - 1e-9
               ? arena_say(arena, "%.3g hours", hours)
               : say(arena, "an hour");
}

static const char *whose_floor(const VentDay *day, const VentTunnel *to,
                               Arena *arena)
{
    return to->floor_way >= 0
               ? arena_say(arena, "the %.0f degC that %s bears", to->floor_degc,
                           day->farm->ways[to->floor_way].id)
               : arena_say(arena, "the floor of %.0f degC", to->floor_degc);
}

/* ---- Each thing ------------------------------------------------------------
 */

static void say_heat(Words *w)
{
    const VentTunnel *to = w->to;
    if (!is_span(&to->heat)) {
        add_line(w, arena_say(w->arena,
                              "Heat: nothing to open for; shut, inside reaches "
                              "%.0f degC.",
                              to->shut_most_degc));
        return;
    }
    bool is_all = to->heat.until_h - to->heat.from_h >= VENT_DAY_H;
    add_line(w, arena_say(w->arena,
                          "Heat: open %s, %s at the widest; shut, inside would "
                          "reach %.0f degC.",
                          is_all ? say(w->arena, "day and night")
                                 : span_text(w->day, &to->heat, w->arena),
                          width_text(to->heat.width_frac, w->arena),
                          to->shut_most_degc));
}

static const char *midday_reason(const Words *w)
{
    const VentTunnel *to = w->to;
    return say(w->arena, to->is_usual ? " (about midday on cold days: common "
                                        "practice of this trade)"
                                      : " (as its row asks)");
}

/* What it does in its hours, or why not so long or so wide. */
static const char *opened_text(const Words *w)
{
    const VentTunnel *to = w->to;
    Arena *arena = w->arena;
    const char *floor = whose_floor(w->day, to, arena);
    const char *open = arena_say(
        arena,
        "open %s %s, inside then at least %.1f degC and down to %.0f %% "
        "humidity (%.0f shut)",
        span_text(w->day, &to->dry, arena),
        width_text(to->dry.width_frac, arena), to->dry_least_degc,
        100.0 * to->dry_rh_frac, 100.0 * to->dry_shut_frac);
    if (to->midday == VENT_AS_ASKED) {
        return arena_text(arena, "%s%s", open, midday_reason(w));
    }
    if (to->midday == VENT_NARROWER) {
        return arena_say(arena,
                         "%s%s; not wider: wide open it would fall to %.1f "
                         "degC, under %s",
                         open, midday_reason(w), to->wide_least_degc, floor);
    }
    return arena_say(arena,
                     "%s; shorter than %s%s: it would fall to %.1f degC, "
                     "under %s",
                     open, hours_text(to->midday_h, arena), midday_reason(w),
                     to->wide_least_degc, floor);
}

static void say_midday(Words *w)
{
    const VentTunnel *to = w->to;
    const Tunnel *row = &w->day->farm->tunnels[to - w->day->tunnels];
    switch (to->midday) {
    case VENT_AS_ASKED:
    case VENT_NARROWER:
    case VENT_SHORTER:
        add_line(w, arena_say(w->arena, "Moisture: %s.", opened_text(w)));
        return;
    case VENT_TOO_COLD:
        add_line(w, arena_say(w->arena,
                              "Moisture: keep it shut today; even an hour, a "
                              "quarter open, takes the air under %s.",
                              whose_floor(w->day, to, w->arena)));
        return;
    case VENT_FOR_WARMTH:
        add_line(w,
                 say(w->arena,
                     "Moisture: open for its warmth longer than midday asks."));
        return;
    case VENT_IN_WIND:
        add_line(w,
                 arena_say(w->arena,
                           "Moisture: kept shut, the wind is over the %.0f m/s "
                           "of its row.",
                           row->shut_wind_m_s));
        return;
    case VENT_IN_FROST:
        add_line(w,
                 arena_say(w->arena,
                           "Moisture: kept shut, outside it is under the %.0f "
                           "degC of its row.",
                           row->shut_outside_degc));
        return;
    case VENT_NO_OPENING:
        add_line(w, say(w->arena, "It has no opening in tunnels.csv."));
        return;
    case VENT_NOT_ASKED:
        add_line(
            w, say(w->arena, "Moisture: its row asks for no hours at midday."));
        return;
    }
}

/* Which of its openings come to so much: the ridge first, where warm wet air
 * leaves by itself and no draught falls on the crop, then the ends, then the
 * sides; common practice of the trade. */
static void say_which(Words *w)
{
    const VentTunnel *to = w->to;
    const Tunnel *row = &w->day->farm->tunnels[to - w->day->tunnels];
    const double areas_m2[] = {row->ridge_m2, row->end_m2, row->side_m2};
    static const char *const NAMES[] = {SAY("ridge"), SAY("ends"),
                                        SAY("sides")};
    double width = fmax(is_span(&to->heat) ? to->heat.width_frac : 0.0,
                        is_span(&to->dry) ? to->dry.width_frac : 0.0);
    double left_m2 = width * tunnel_openings_m2(row);
    bool is_shut = to->midday == VENT_IN_WIND || to->midday == VENT_IN_FROST;
    if (areas_m2[0] + areas_m2[1] + areas_m2[2] <= 0.0 || is_shut ||
        left_m2 <= 0.0) {
        return;
    }
    const char *text = "";
    for (int i = 0; i < 3 && left_m2 > 0.0; i++) {
        if (areas_m2[i] > 0.0) {
            text =
                arena_text(w->arena, "%s%s%s %.0f m2", text, *text ? ", " : "",
                           say(w->arena, NAMES[i]), fmin(left_m2, areas_m2[i]));
            left_m2 -= areas_m2[i];
        }
    }
    add_line(w, arena_say(w->arena, "At the widest: %s.", text));
}

static void say_wet(Words *w)
{
    const VentTunnel *to = w->to;
    if (is_span(&to->morning)) {
        add_line(w, arena_say(w->arena,
                              "Leaves stay wet into the morning: opened %s "
                              "already %s they dry %s sooner.",
                              width_text(to->morning.width_frac, w->arena),
                              span_text(w->day, &to->morning, w->arena),
                              hours_text(to->morning_saves_h, w->arena)));
    }
    add_line(w,
             arena_say(w->arena,
                       "Wet leaves: %.0f h of the day so, %.0f h shut; "
                       "humidity %.0f %% and %.0f %%; week %.0f and %.0f h a "
                       "day.",
                       to->wet_h[VENT_OPENED], to->wet_h[VENT_SHUT],
                       100.0 * to->rh_frac[VENT_OPENED],
                       100.0 * to->rh_frac[VENT_SHUT],
                       to->week_wet_h[VENT_OPENED], to->week_wet_h[VENT_SHUT]));
    if (is_span(&to->dry) && to->dry_shut_frac - to->dry_rh_frac < DRIES_FRAC) {
        add_line(w, say(w->arena, "The air outside hardly dries it today."));
    }
    bool is_useful = to->wet_h[VENT_SHUT] - to->wet_h[VENT_OPENED] > SAME_H;
    if (to->wet_h[VENT_SHUT] > SAME_H && !is_useful && is_span(&to->dry)) {
        add_line(
            w,
            say(w->arena,
                "Opening dries the day; the night's dew comes back with the "
                "cold and what wet gravel gives, unless it is opened or warmed "
                "in the evening and at dawn."));
    }
}

static void say_night(Words *w)
{
    const VentTunnel *to = w->to;
    const char *frost =
        say(w->arena,
            to->night_out_degc < 0.0 ? "Frost outside tonight" : "Tonight");
    const char *fleece =
        to->is_fleeced ? arena_say(w->arena, "; fleece on: about %.1f below it",
                                   to->crop_degc)
                       : "";
    add_line(w, arena_say(w->arena, "%s: %.1f degC; inside at least %.1f%s.",
                          frost, to->night_out_degc, to->night_degc, fleece));
    if (to->tender_way >= 0) {
        add_line(
            w, arena_say(w->arena,
                         "%s may be lost (dies at %.0f degC): shut by early "
                         "afternoon to keep the warmth%s.",
                         w->day->farm->ways[to->tender_way].id, to->tender_degc,
                         to->is_fleeced
                             ? ""
                             : say(w->arena, ", fleece over it tonight")));
    }
}

const char *const *vent_lines(const VentDay *day, int tunnel, Arena *arena)
{
    Words w = {.day = day,
               .to = &day->tunnels[tunnel],
               .arena = arena,
               .lines = ARENA_ARRAY(arena, const char *, LINES_MOST)};
    if (w.to->midday != VENT_NO_OPENING) {
        say_heat(&w);
    }
    say_midday(&w);
    say_which(&w);
    say_wet(&w);
    if (w.to->is_windy && w.to->midday != VENT_IN_WIND) {
        add_line(&w,
                 arena_say(arena,
                           "Wind %.0f m/s in the mean: open only the lee side, "
                           "or keep it shut; doors fast.",
                           day->wind_m_s));
    }
    say_night(&w);
    return w.lines;
}

const char *vent_brief(const VentDay *day, int tunnel, Arena *arena)
{
    const VentTunnel *to = &day->tunnels[tunnel];
    if (to->midday == VENT_IN_WIND || to->midday == VENT_IN_FROST) {
        return say(arena, to->midday == VENT_IN_WIND ? "keep shut: wind"
                                                     : "keep shut: frost");
    }
    bool is_heat = is_span(&to->heat);
    const VentSpan *span = is_heat ? &to->heat : &to->dry;
    if (!is_span(span)) {
        return say(arena, to->midday == VENT_TOO_COLD ? "keep shut: too cold"
                                                      : "keep shut");
    }
    if (span->until_h - span->from_h >= VENT_DAY_H) {
        return arena_say(arena, "open day and night, up to %s",
                         width_text(span->width_frac, arena));
    }
    return arena_say(arena, "open %s, %s", span_text(day, span, arena),
                     width_text(span->width_frac, arena));
}

/* "H1, H2: open ..; H3: ..": neighbours that do the same are told together. */
static const char *briefs_text(const VentDay *day, Arena *arena)
{
    const char *text = "";
    int count = day->farm->tunnels_count;
    for (int t = 0; t < count; t++) {
        const char *brief = vent_brief(day, t, arena);
        const char *ids = day->farm->tunnels[t].id;
        while (t + 1 < count &&
               strcmp(vent_brief(day, t + 1, arena), brief) == 0) {
            t++;
            ids = arena_text(arena, "%s, %s", ids, day->farm->tunnels[t].id);
        }
        text = arena_text(arena, "%s%s%s: %s", text, *text ? "; " : "", ids,
                          brief);
    }
    return text;
}

/* ---- Moulds ----------------------------------------------------------------
 */

/* "lettuce-leaf 20, lettuce-head 11": batches by way; "" for none. */
static const char *hit_text(const VentDay *day, int tunnel, Mould mould,
                            Arena *arena)
{
    const char *text = "";
    for (int way = 0; way < day->farm->ways_count; way++) {
        int count = 0;
        if (!mould_hits(mould, day->farm, day->book, way)) {
            continue;
        }
        for (int b = 0; b < day->batch_count; b++) {
            const VentBatch *batch = &day->batches[b];
            count += batch->tunnel == tunnel && batch->way == way;
        }
        if (count > 0) {
            text = arena_text(arena, "%s%s%s %d", text, *text ? ", " : "",
                              day->farm->ways[way].id, count);
        }
    }
    return text;
}

const char *const *vent_pressure_lines(const VentDay *day, int tunnel,
                                       PressureLevel least, Arena *arena)
{
    const char **lines = ARENA_ARRAY(arena, const char *, MOULD_COUNT + 1);
    const VentTunnel *to = &day->tunnels[tunnel];
    int count = 0;
    for (int m = 0; m < MOULD_COUNT; m++) {
        Mould mould = (Mould)m;
        const Pressure *is = &to->pressure[VENT_OPENED][m];
        const char *hit = hit_text(day, tunnel, mould, arena);
        if (is->level < least || !*hit) {
            continue;
        }
        const Pressure *shut = &to->pressure[VENT_SHUT][m];
        const char *than =
            shut->level == is->level
                ? ""
                : arena_say(arena, " (shut: %s)",
                            say(arena, pressure_word(shut->level)));
        lines[count++] = arena_say(arena, "%s %s%s. Batches: %s.",
                                   say(arena, mould_name(mould)),
                                   pressure_text(mould, is, arena), than, hit);
    }
    return lines;
}

bool vent_mould_presses(const VentDay *day, Mould mould, PressureLevel least)
{
    for (int b = 0; b < day->batch_count; b++) {
        const VentBatch *batch = &day->batches[b];
        if (batch->tunnel >= 0 &&
            mould_hits(mould, day->farm, day->book, batch->way) &&
            day->tunnels[batch->tunnel].pressure[VENT_OPENED][mould].level >=
                least) {
            return true;
        }
    }
    return false;
}

const char *vent_note(const VentDay *day, Arena *arena)
{
    const char *high = "";
    for (int m = 0; m < MOULD_COUNT; m++) {
        const char *ids = "";
        for (int t = 0; t < day->farm->tunnels_count; t++) {
            bool is_high =
                day->tunnels[t].pressure[VENT_OPENED][m].level >= PRESSURE_HIGH;
            if (is_high && *hit_text(day, t, (Mould)m, arena)) {
                ids = arena_text(arena, "%s%s%s", ids, *ids ? ", " : "",
                                 day->farm->tunnels[t].id);
            }
        }
        if (*ids) {
            high = arena_text(arena, "%s%s%s (%s)", high, *high ? ", " : "",
                              say(arena, mould_name((Mould)m)), ids);
        }
    }
    const char *briefs = briefs_text(day, arena);
    return *high ? arena_say(arena, "%s. High: %s.", briefs, high)
                 : arena_text(arena, "%s.", briefs);
}
