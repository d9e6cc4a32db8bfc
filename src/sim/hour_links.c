/* Water that goes from one water to another, or to waste: transfers, valves
 * left open and drains that tell what they move in a day, in the months in
 * which they are open. It goes with all that is dissolved in it; what a loop
 * then has over its mark spills. Overflows and links within one loop are in its
 * own round. */
#include <math.h>

#include "sim/hour_parts.h"

static const double WATER_MJ_M3 = HEAT_WATER_J_M3_K / 1e6;
static const double MOST_FRAC = 0.2; /* of a vessel in an hour */

/* The vessel at an end: a tank, or the sump of a loop; -1: neither. */
static int vessel_at(const HourFarm *h, int32_t tank, int32_t loop)
{
    if (tank >= 0) {
        return h->tank_vessel[tank];
    }
    for (int b = 0; b < h->body_count && loop >= 0; b++) {
        if (h->bodies[b].loop == loop) {
            return h->bodies[b].first;
        }
    }
    return -1;
}

void hour_make_links(HourFarm *h, Arena *arena)
{
    h->links = ARENA_ARRAY(arena, WaterLink, h->farm->links_count);
    for (int i = 0; i < h->farm->links_count; i++) {
        const Link *row = &h->farm->links[i];
        WaterLink link = {.from = vessel_at(h, row->from_tank, row->from_loop),
                          .to = vessel_at(h, row->to_tank, row->to_loop),
                          .months = (unsigned)row->months,
                          .m3_h = row->flow_m3_d / DAY_H};
        bool is_waste = row->kind == LINK_DRAIN && link.to < 0;
        bool is_between = row->kind != LINK_OVERFLOW && link.from >= 0 &&
                          link.to >= 0 &&
                          h->vessel_body[link.from] != h->vessel_body[link.to];
        if (link.m3_h > 0.0 && link.from >= 0 && (is_waste || is_between)) {
            h->links[h->link_count++] = link;
        }
    }
}

static void lose(HourState *s, double *amount, double share, int quantity)
{
    double gone = share * *amount;
    *amount -= gone;
    if (quantity >= 0) {
        s->ledger.out[quantity] += gone;
    }
}

/* Water to waste with all that is in it. */
static void spill(const HourFarm *h, HourState *s, int v, double m3)
{
    static const int WIDE_IN[STAR_WIDE] = {
        LEDGER_N_G, LEDGER_P_G, LEDGER_K_G, LEDGER_CA_G, -1, -1, -1, -1};
    static const int OF[STAR_WIDE] = {HOUR_N,  HOUR_P,  HOUR_K, HOUR_CA,
                                      HOUR_MG, HOUR_FE, -1,     -1};
    double share = m3 / s->volume_m3[v];
    int32_t loop = h->bodies[h->vessel_body[v]].loop;
    double heat = m3 * s->degc[v];
    s->heat[v] -= heat;
    s->ledger.out[LEDGER_HEAT_MJ] += WATER_MJ_M3 * heat;
    for (int c = 0; c < STAR_WIDE; c++) {
        if (loop >= 0 && OF[c] >= 0) {
            s->loop_now[loop].lost_g[OF[c]] += share * s->wide_g[v][c];
        }
        lose(s, &s->wide_g[v][c], share, WIDE_IN[c]);
    }
    lose(s, &s->tan_g[v], share, LEDGER_N_G);
    lose(s, &s->nitrite_g[v], share, LEDGER_N_G);
    lose(s, &s->oxygen_g[v], share, LEDGER_OXYGEN_G);
    lose(s, &s->alkalinity_mol[v], share, LEDGER_ALKALINITY_EQ);
    lose(s, &s->dic_mol[v], share, LEDGER_CARBON_MOL);
    s->volume_m3[v] -= m3;
    s->ledger.out[LEDGER_WATER_M3] += m3;
    s->degc[v] = s->heat[v] / (s->volume_m3[v] + h->vessels[v].gravel_m3);
}

/* What a body holds over its mark leaves its hub. */
static void spill_over(const HourFarm *h, HourState *s, const Body *body)
{
    double total = 0.0;
    for (int j = 0; j < body->count; j++) {
        total += s->volume_m3[body->first + j];
    }
    double over = fmin(total - body->total_m3,
                       (1.0 - MOST_FRAC) * s->volume_m3[body->first]);
    if (over > 0.0) {
        spill(h, s, body->first, over);
    }
}

void hour_run_links(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int i = 0; i < h->link_count; i++) {
        const WaterLink *link = &h->links[i];
        double m3 = fmin(link->m3_h, MOST_FRAC * s->volume_m3[link->from]);
        if (!(link->months >> now->month & 1u)) {
            continue;
        }
        if (link->to < 0) {
            spill(h, s, link->from, m3);
            continue;
        }
        int hub = h->bodies[h->vessel_body[link->to]].first;
        hour_move_water(h, s, link->from, link->to, m3);
        if (hub != link->to) { /* a tank overflows into its sump */
            hour_move_water(h, s, link->to, hub, m3);
        }
    }
    for (int i = 0; i < h->link_count; i++) {
        const WaterLink *link = &h->links[i];
        if (link->to >= 0 && (link->months >> now->month & 1u)) {
            spill_over(h, s, &h->bodies[h->vessel_body[link->to]]);
        }
    }
}
