/* Which zones flood in an hour, and what water that moves. */
#include <math.h>

#include "nature/flow/outlet.h"
#include "sim/hour_parts.h"

enum { BITS = VESSELS_MOST, ZONES_MOST = VESSELS_MOST };

static const double FLOOD_ABOUT_H = 13.0; /* as the climate year has it */
static const double LEAST_M3 = 0.01;

static bool zone_floods(const Zone *zone, int month, int hour)
{
    double hours = zone->hours_d[month];
    double since =
        fmod(hour + 1.0 / 2.0 - (FLOOD_ABOUT_H - hours / 2.0) + 48.0, 24.0);
    return since < hours;
}

typedef struct Made {
    Pattern *pattern;
    const Body *body;
    double to_tanks_m3_h;
    double lowered_m3; /* the sump, at its lowest */
    double rest_m3;
} Made;

static TurnZone turn_of(const HourFarm *h, int32_t zone, double flow_m3_h)
{
    TurnZone turn = {.turn_h = h->farm->zones[zone].minutes / 60.0,
                     .flow_m3_h = flow_m3_h};
    double depth_m3 = 0.0;
    double hole_m3_h = flow_orifice_m3_h(h->water->drain_mm.value, 1.0);
    for (int i = 0; i < h->farm->beds_count; i++) {
        const Bed *bed = &h->farm->beds[i];
        if (bed->zone == zone && bed->until > h->from_day) {
            double space = bed->length_m * bed->width_m * bed->porosity_frac;
            turn.space_m2 += space;
            depth_m3 += space * bed->flood_m;
            turn.hole_m3_h += hole_m3_h;
        }
    }
    turn.depth_m = turn.space_m2 > 0.0 ? depth_m3 / turn.space_m2 : 0.0;
    return turn;
}

static bool is_flooded(const Made *made, int vessel)
{
    return made->pattern->flooded >> (vessel % BITS) & 1u;
}

/* Zones of one pump that are in their hours, in their turn. */
static int zones_of(const HourFarm *h, const Made *made, int32_t pump,
                    int out[ZONES_MOST])
{
    const Body *body = made->body;
    int count = 0;
    for (int j = 1; j < body->count && count < ZONES_MOST; j++) {
        const Vessel *v = &h->vessels[body->first + j];
        if (v->kind != VESSEL_ZONE || !(v->bed_m2 > 0.0) ||
            !is_flooded(made, j) || h->farm->zones[v->row].pump != pump) {
            continue;
        }
        int k = count++;
        while (k > 0 &&
               h->farm->zones[h->vessels[body->first + out[k - 1]].row].turn >
                   h->farm->zones[v->row].turn) {
            out[k] = out[k - 1];
            k--;
        }
        out[k] = j;
    }
    return count;
}

static void add_pump(const HourFarm *h, Made *made, int32_t pump,
                     bool has_tanks)
{
    const Pump *row = &h->farm->pumps[pump];
    int at[ZONES_MOST];
    TurnZone zones[ZONES_MOST];
    TurnTold told[ZONES_MOST];
    int count = zones_of(h, made, pump, at);
    double tanks_frac = !has_tanks ? 0.0 : count > 0 ? row->tanks_frac : 1.0;
    made->to_tanks_m3_h += tanks_frac * row->flow_m3_h;
    if (count < 1) {
        return;
    }
    for (int i = 0; i < count; i++) {
        zones[i] = turn_of(h, h->vessels[made->body->first + at[i]].row,
                           (1.0 - tanks_frac) * row->flow_m3_h);
    }
    TurnsCase turns = {zones, count, made->rest_m3, made->body->intake_m3};
    TurnsTold all;
    flow_turns(&turns, told, &all);
    for (int i = 0; i < count; i++) {
        made->pattern->in_m3_h[at[i]] =
            all.round_h > 0.0 ? told[i].moved_m3 / all.round_h : 0.0;
        made->pattern->volume_m3[at[i]] += told[i].mean_m3;
    }
    made->lowered_m3 += made->rest_m3 - all.lowest_m3;
    made->pattern->together_m3 -= made->rest_m3 - all.together_m3;
    made->pattern->is_uncovered |= all.is_uncovered;
    made->pattern->is_dry_together |= all.is_dry_together;
}

static void fill_pattern(const HourFarm *h, const Body *body, Pattern *pattern)
{
    const Vessel *hub = &h->vessels[body->first];
    double tanks_m3 = 0.0;
    for (int j = 0; j < body->count; j++) {
        const Vessel *v = &h->vessels[body->first + j];
        pattern->volume_m3[j] = v->volume_m3;
        tanks_m3 += v->kind == VESSEL_TANK ? v->volume_m3 : 0.0;
    }
    Made made = {.pattern = pattern, .body = body, .rest_m3 = hub->volume_m3};
    pattern->together_m3 = hub->volume_m3;
    for (int i = 0; body->loop >= 0 && i < h->farm->pumps_count; i++) {
        if (h->farm->pumps[i].loop == body->loop) {
            add_pump(h, &made, i, tanks_m3 > 0.0);
        }
    }
    pattern->lowest_m3 = hub->volume_m3 - made.lowered_m3;
    for (int j = 1; j < body->count; j++) {
        const Vessel *v = &h->vessels[body->first + j];
        if (v->kind == VESSEL_TANK) {
            pattern->in_m3_h[j] = made.to_tanks_m3_h * v->volume_m3 / tanks_m3;
        } else {
            pattern->volume_m3[0] -= pattern->volume_m3[j] - v->volume_m3;
        }
    }
    pattern->volume_m3[0] = fmax(pattern->volume_m3[0], LEAST_M3);
}

static unsigned long long floods_of(const HourFarm *h, const Body *body,
                                    int month, int hour)
{
    unsigned long long bits = 0;
    for (int j = 1; j < body->count; j++) {
        const Vessel *v = &h->vessels[body->first + j];
        if (v->kind == VESSEL_ZONE &&
            zone_floods(&h->farm->zones[v->row], month, hour)) {
            bits |= 1ull << (j % BITS);
        }
    }
    return bits;
}

static int pattern_of(HourFarm *h, Arena *arena, const Body *body, int from,
                      unsigned long long bits)
{
    for (int i = from; i < h->pattern_count; i++) {
        if (h->patterns[i].flooded == bits) {
            return i;
        }
    }
    Pattern *made = &h->patterns[h->pattern_count];
    *made = (Pattern){.flooded = bits,
                      .in_m3_h = ARENA_ARRAY(arena, double, body->count),
                      .volume_m3 = ARENA_ARRAY(arena, double, body->count)};
    fill_pattern(h, body, made);
    return h->pattern_count++;
}

Err hour_make_patterns(HourFarm *h, Arena *arena)
{
    h->patterns = ARENA_ARRAY(arena, Pattern, h->body_count * MONTHS * DAY_H);
    for (int b = 0; b < h->body_count; b++) {
        Body *body = &h->bodies[b];
        int16_t *at = ARENA_ARRAY(arena, int16_t, MONTHS * DAY_H);
        int from = h->pattern_count;
        if (body->count > BITS) {
            return err_make(ERR_LIMIT, "loop %s has over %d tanks and zones",
                            h->farm->loops[body->loop].id, BITS - 1);
        }
        for (int i = 0; i < MONTHS * DAY_H; i++) {
            at[i] = (int16_t)pattern_of(
                h, arena, body, from, floods_of(h, body, i / DAY_H, i % DAY_H));
        }
        body->pattern = at;
    }
    return ERR_NONE;
}

HourFlood hour_flood(const HourFarm *h, int loop, int month, int hour)
{
    HourFlood told = {0};
    for (int b = 0; b < h->body_count; b++) {
        const Body *body = &h->bodies[b];
        if (body->loop != loop) {
            continue;
        }
        const Pattern *p = &h->patterns[body->pattern[month * DAY_H + hour]];
        told = (HourFlood){.sump_m3 = h->vessels[body->first].volume_m3,
                           .sump_lowest_m3 = p->lowest_m3,
                           .together_m3 = p->together_m3,
                           .is_uncovered = p->is_uncovered,
                           .is_dry_together = p->is_dry_together};
        for (int j = 1; j < body->count; j++) {
            bool is_zone = h->vessels[body->first + j].kind == VESSEL_ZONE;
            *(is_zone ? &told.to_beds_m3_h : &told.to_tanks_m3_h) +=
                p->in_m3_h[j];
        }
    }
    return told;
}

/* ---- When the floods change ------------------------------------------------
 */

void hour_move_water(const HourFarm *h, HourState *s, int from, int to,
                     double m3)
{
    double share = m3 / s->volume_m3[from];
    share = share > 1.0 ? 1.0 : share;
    double heat = share * s->volume_m3[from] * s->degc[from];
    s->heat[from] -= heat;
    s->heat[to] += heat;
    double *const all[] = {s->oxygen_g, s->tan_g, s->nitrite_g,
                           s->alkalinity_mol, s->dic_mol};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        double part = share * all[i][from];
        all[i][from] -= part;
        all[i][to] += part;
    }
    for (int c = 0; c < STAR_WIDE; c++) {
        double part = share * s->wide_g[from][c];
        s->wide_g[from][c] -= part;
        s->wide_g[to][c] += part;
    }
    double moved = share * s->volume_m3[from];
    s->volume_m3[from] -= moved;
    s->volume_m3[to] += moved;
    for (int k = 0; k < 2; k++) {
        int v = k ? to : from;
        s->degc[v] = s->heat[v] / (s->volume_m3[v] + h->vessels[v].gravel_m3);
    }
}

void hour_turn_floods(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int b = 0; b < h->body_count; b++) {
        const Body *body = &h->bodies[b];
        int wanted = body->pattern[now->month * DAY_H + now->hour];
        s->is_started[b] = s->is_stopped[b] = false;
        if (wanted == s->pattern[b]) {
            continue;
        }
        s->pattern[b] = (int16_t)wanted;
        const Pattern *p = &h->patterns[wanted];
        int hub = body->first;
        for (int pass = 0; pass < 2; pass++) { /* what drains comes first */
            for (int j = 1; j < body->count; j++) {
                int v = hub + j;
                double more = p->volume_m3[j] - s->volume_m3[v];
                double room = s->volume_m3[hub] - LEAST_M3;
                if (h->vessels[v].kind != VESSEL_ZONE) {
                    continue;
                }
                if (pass == 0 && more < 0.0) {
                    hour_move_water(h, s, v, hub, -more);
                    s->is_stopped[b] = true;
                }
                if (pass == 1 && more > 0.0 && room > 0.0) {
                    hour_move_water(h, s, hub, v, fmin(more, room));
                    s->is_started[b] = true;
                }
            }
        }
    }
}
