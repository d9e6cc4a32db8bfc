/* Water that comes and goes in an hour, and its heat. */
#include <math.h>

#include "sim/hour_parts.h"

static const double HOUR_S = 3600.0;
static const double WATER_MJ_M3 = HEAT_WATER_J_M3_K / 1e6;
static const double W_AS_M3 = 3600.0 / HEAT_WATER_J_M3_K; /* of an hour */
static const double KEPT_M3 = 1e-3; /* no vapour from the last litre */

/* ---- Water ----------------------------------------------------------------
 */

/* What a vessel keeps back of what runs through it: what evaporates and what it
 * lacks. */
static double kept_m3(const HourState *s, const Pattern *p, int v, int j,
                      bool is_dry)
{
    double in = is_dry ? 0.0 : p->in_m3_h[j];
    double lack = greater(0.0, p->volume_m3[j] - s->volume_m3[v]);
    return lesser(in, lack + s->vapour_m3_h[v]);
}

/* Vessels keep their level while the pump runs, no more than half of what is in
 * the sump in an hour. */
static double flow_through(HourState *s, const Body *body, const Pattern *p)
{
    int hub = body->first;
    double half_m3 = s->volume_m3[hub] / 2.0;
    bool is_dry = body->loop >= 0 && s->volume_m3[hub] <= body->intake_m3 / 2.0;
    double wanted = 0.0;
    for (int j = 1; j < body->count; j++) {
        wanted += kept_m3(s, p, hub + j, j, is_dry);
    }
    double share = wanted > half_m3 ? half_m3 / wanted : 1.0;
    double net = 0.0;
    for (int j = 1; j < body->count; j++) {
        int v = hub + j;
        double kept = share * kept_m3(s, p, v, j, is_dry);
        s->vapour_m3_h[v] = lesser(
            s->vapour_m3_h[v], greater(0.0, s->volume_m3[v] + kept - KEPT_M3));
        s->in_m3_h[v] = is_dry ? 0.0 : p->in_m3_h[j];
        s->out_m3_h[v] = s->in_m3_h[v] - kept;
        double more = kept - s->vapour_m3_h[v];
        s->mid_m3[v] = s->volume_m3[v] + more / 2.0;
        s->volume_m3[v] += more;
        net -= kept;
    }
    return net;
}

static double total_m3(const HourState *s, const Body *body)
{
    double sum = 0.0;
    for (int j = 0; j < body->count; j++) {
        sum += s->volume_m3[body->first + j];
    }
    return sum;
}

static void flows_of_body(const HourFarm *h, HourState *s, int b)
{
    const Body *body = &h->bodies[b];
    const Pattern *p = &h->patterns[s->pattern[b]];
    int hub = body->first;
    double before = s->volume_m3[hub];
    double total = total_m3(s, body);
    double net = flow_through(s, body, p);
    s->vapour_m3_h[hub] =
        lesser(s->vapour_m3_h[hub], greater(0.0, before + net - KEPT_M3));
    double lost = 0.0;
    for (int j = 0; j < body->count; j++) {
        lost += s->vapour_m3_h[hub + j];
    }
    double lack = greater(0.0, body->total_m3 - total + lost);
    double top_up =
        body->has_source ? lesser(lack, body->top_up_most_m3_h) : 0.0;
    s->in_m3_h[hub] = top_up;
    s->out_m3_h[hub] = 0.0;
    s->volume_m3[hub] = before + net + top_up - s->vapour_m3_h[hub];
    s->mid_m3[hub] = (before + s->volume_m3[hub]) / 2.0;
    s->ledger.in[LEDGER_WATER_M3] += top_up;
    s->ledger.out[LEDGER_WATER_M3] += lost;
    if (body->loop >= 0) {
        HourLoopDay *to = &s->loop_now[body->loop];
        double low = p->lowest_m3 - (body->total_m3 - total);
        to->top_up_m3 += top_up;
        to->vapour_m3 += lost;
        to->sump_least_m3 = lesser(to->sump_least_m3, low);
        to->uncovered_h += p->is_uncovered || low < body->intake_m3 ? 1.0 : 0.0;
    }
}

void hour_flows(const HourFarm *h, HourState *s, const HourNow *now)
{
    (void)now;
    for (int b = 0; b < h->body_count; b++) {
        flows_of_body(h, s, b);
    }
}

/* ---- Heat -----------------------------------------------------------------
 */

static StarRates heat_rates(const HourFarm *h, HourState *s, const Body *body)
{
    int hub = body->first;
    double hub_m3 = s->mid_m3[hub];
    double leaves = s->vapour_m3_h[hub] + h->vessels[hub].loss_w_k * W_AS_M3;
    for (int j = 1; j < body->count; j++) {
        int v = hub + j;
        double like_m3 = s->mid_m3[v] + h->vessels[v].gravel_m3;
        s->gain_h[v] = s->in_m3_h[v] / hub_m3;
        s->back_h[v] = s->out_m3_h[v] / like_m3;
        s->loss_h[v] = (s->out_m3_h[v] + s->vapour_m3_h[v] +
                        h->vessels[v].loss_w_k * W_AS_M3) /
                       like_m3;
        leaves += s->in_m3_h[v];
    }
    s->loss_h[hub] = leaves / hub_m3;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        s->source[v] = W_AS_M3 * (s->heat_w[v] +
                                  h->vessels[v].loss_w_k * s->ambient_degc[v]);
    }
    s->source[hub] +=
        W_AS_M3 * body->pump_w + s->in_m3_h[hub] * body->source_degc;
    return (StarRates){body->count, s->gain_h + hub, s->back_h + hub,
                       s->loss_h + hub};
}

static double like_m3(const HourFarm *h, const HourState *s, int v)
{
    return s->volume_m3[v] + h->vessels[v].gravel_m3;
}

/* Heaters by turns: each gives what brings its water to its target, as far as
 * it can; returns MJ. */
static double heat_up(const HourFarm *h, HourState *s, const Body *body,
                      const StarRates *rates, unsigned month)
{
    int hub = body->first;
    double given_mj = 0.0;
    for (int i = 0; i < body->heater_count; i++) {
        const BodyHeater *heater = &body->heaters[i];
        int at = hub + heater->vessel;
        double degc = s->heat[at] / like_m3(h, s, at);
        if (!(heater->months >> month & 1u) || degc >= heater->target_degc) {
            continue;
        }
        for (int j = 0; j < body->count; j++) {
            s->before[hub + j] = 0.0;
            s->source[hub + j] = 0.0;
        }
        s->source[at] = W_AS_M3;
        double *mean = s->carbon_mol_h + hub; /* not in use yet */
        StarColumn column = {s->source + hub, s->before + hub, mean, true};
        star_step(rates, 1.0, &column, s->room);
        double by_w = s->before[at] / like_m3(h, s, at);
        double power_w =
            lesser(heater->power_w, (heater->target_degc - degc) / by_w);
        for (int j = 0; j < body->count; j++) {
            s->heat[hub + j] += power_w * s->before[hub + j];
            s->mean[hub + j] += power_w * mean[j];
        }
        given_mj += power_w * HOUR_S / 1e6;
    }
    return given_mj;
}

static void heat_of_body(const HourFarm *h, HourState *s, int b, unsigned month)
{
    const Body *body = &h->bodies[b];
    int hub = body->first;
    StarRates rates = heat_rates(h, s, body);
    double given = 0.0;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        given += WATER_MJ_M3 * s->source[v];
    }
    StarColumn column = {s->source + hub, s->heat + hub, s->mean + hub, true};
    star_step(&rates, 1.0, &column, s->room);
    double ambient = 0.0;
    for (int j = 0; j < body->count; j++) {
        ambient += h->vessels[hub + j].loss_w_k * s->ambient_degc[hub + j];
    }
    double heater_mj = heat_up(h, s, body, &rates, month);
    double gone = 0.0;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        double mid = s->mid_m3[v] + (j ? h->vessels[v].gravel_m3 : 0.0);
        double mean_degc = s->mean[v] / mid;
        double to_air = h->vessels[v].loss_w_k * W_AS_M3 * mean_degc;
        gone += WATER_MJ_M3 * (to_air + s->vapour_m3_h[v] * mean_degc);
        if (h->vessels[v].tunnel >= 0) {
            double to_w =
                h->vessels[v].loss_w_k * (mean_degc - s->ambient_degc[v]);
            s->tanks_w[h->vessels[v].tunnel] += to_w;
            hour_put(&s->ledger, LEDGER_HEAT_MJ, to_w * HOUR_S / 1e6);
        }
        s->degc[v] = s->heat[v] / like_m3(h, s, v);
    }
    hour_put(&s->ledger, LEDGER_HEAT_MJ, given - HOUR_S / 1e6 * ambient);
    hour_put(&s->ledger, LEDGER_HEAT_MJ, heater_mj);
    hour_put(&s->ledger, LEDGER_HEAT_MJ, HOUR_S / 1e6 * ambient - gone);
    if (body->loop >= 0) {
        s->loop_now[body->loop].heater_kwh += heater_mj / 3.6;
    }
}

void hour_heat(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int b = 0; b < h->body_count; b++) {
        heat_of_body(h, s, b, (unsigned)now->month);
    }
    for (int v = 0; v < h->vessel_count; v++) {
        s->warm[v] = warmth_at(&h->warmth, s->degc[v]);
    }
}
