/* Gases in an hour: oxygen, dissolved carbon, and the pH that settles. */
#include <math.h>

#include "sim/hour_parts.h"

static const double CA_MOL = 40.078;
static const double SCARCE = 0.05; /* oxygen at which all use is halved */
static const double LOW = 0.5;     /* below this use is no longer steady */

/* ---- Gases ------------------------------------------------------------------
 */

/* Exchange of a vessel with the air, 1/h, at its temperature. */
static double exchange_1_h(const HourFarm *h, const HourState *s, int v)
{
    return h->vessels[v].air_1_h * s->warm[v].transfer;
}

/* Water that falls into a vessel makes up a share of what it lacks: so much
 * less of what it carried arrives, and as much more as air gives. */
static void oxygen_rates(const HourFarm *h, HourState *s, const Body *body)
{
    int hub = body->first;
    double fall = h->water->fall_frac.value;
    double beta = h->water->air_beta_frac.value;
    double at_hub = s->warm[hub].oxygen_g_m3;
    double still = exchange_1_h(h, s, hub);
    s->source[hub] += still * beta * at_hub * s->mid_m3[hub] +
                      s->in_m3_h[hub] * body->source_oxygen_g_m3;
    s->loss_h[hub] += still;
    for (int j = 1; j < body->count; j++) {
        int v = hub + j;
        double by = exchange_1_h(h, s, v);
        s->gain_h[v] *= 1.0 - fall;
        s->back_h[v] *= 1.0 - fall;
        s->source[v] += by * beta * s->warm[v].oxygen_g_m3 * s->mid_m3[v] +
                        fall * s->in_m3_h[v] * s->warm[v].oxygen_g_m3;
        s->source[hub] += fall * s->out_m3_h[v] * at_hub;
        s->loss_h[v] += by;
    }
}

/* What air and source gave less what they took, from rates and means. */
static double from_air_g(const HourFarm *h, const HourState *s,
                         const Body *body)
{
    int hub = body->first;
    double fall = h->water->fall_frac.value;
    double beta = h->water->air_beta_frac.value;
    double sum = 0.0;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        double by = exchange_1_h(h, s, v);
        sum += by * (beta * s->warm[v].oxygen_g_m3 * s->mid_m3[v] - s->mean[v]);
        if (j) {
            sum += fall * s->in_m3_h[v] *
                   (s->warm[v].oxygen_g_m3 - s->mean[hub] / s->mid_m3[hub]);
            sum += fall * s->out_m3_h[v] *
                   (s->warm[hub].oxygen_g_m3 - s->mean[v] / s->mid_m3[v]);
        }
    }
    return sum + s->in_m3_h[hub] * body->source_oxygen_g_m3;
}

static double use_g_h(const HourState *s, int v)
{
    double rot = s->rot_oxygen_g_h[v] > 0.0 ? s->rot_oxygen_g_h[v] : 0.0;
    return s->fish_oxygen_g_h[v] + rot + s->ammonia_g_h[v];
}

/* Where oxygen runs short all who use it get less, by c/(c + SCARCE): found by
 * repeating the step. */
static double oxygen_scarce(const HourFarm *h, HourState *s, const Body *body,
                            const double *before)
{
    enum { ROUNDS = 12 };
    int hub = body->first;
    double used = 0.0;
    for (int round = 0; round < ROUNDS; round++) {
        StarRates rates = hour_flow_rates(s, body);
        for (int j = 0; j < body->count; j++) {
            s->source[hub + j] = 0.0;
        }
        oxygen_rates(h, s, body);
        used = 0.0;
        double share[VESSELS_MOST] = {0.0};
        for (int j = 0; j < body->count; j++) {
            int v = hub + j;
            double near = round ? s->mean[v] : before[j];
            share[j] = use_g_h(s, v) / (near + SCARCE * s->mid_m3[v]);
            s->loss_h[v] += share[j];
            s->oxygen_g[v] = before[j];
        }
        StarColumn column = hour_column(s, body, s->oxygen_g);
        star_step(&rates, s->part_h, &column, s->room);
        for (int j = 0; j < body->count; j++) {
            used += share[j] * s->mean[hub + j];
        }
    }
    return used;
}

void hour_oxygen(const HourFarm *h, HourState *s, const Body *body)
{
    int hub = body->first;
    double before[VESSELS_MOST];
    StarRates rates = hour_flow_rates(s, body);
    double used = 0.0;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        double held = s->oxygen_g[v];
        double use = use_g_h(s, v) * held / (held + SCARCE * s->mid_m3[v]);
        before[j] = held;
        s->source[v] = -use;
        used += use;
    }
    oxygen_rates(h, s, body);
    StarColumn column = hour_column(s, body, s->oxygen_g);
    column.is_signed = true;
    star_step(&rates, s->part_h, &column, s->room);
    bool is_low = false;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        double least = lesser(s->oxygen_g[v], s->mean[v]);
        is_low = is_low || (least < LOW * s->mid_m3[v] && use_g_h(s, v) > 0.0);
        is_low = is_low || least < 0.0;
    }
    if (is_low) {
        used = oxygen_scarce(h, s, body, before);
    }
    hour_put(&s->ledger, LEDGER_OXYGEN_G, s->part_h * from_air_g(h, s, body));
    s->ledger.out[LEDGER_OXYGEN_G] += s->part_h * used;
}

/* CO2 about the hour's beginning: c0 + slope (C - C0), at the alkalinity of the
 * hour's mean, which s->mean still holds; exchange and falls take it towards
 * that of the air. */
void hour_carbon(const HourFarm *h, HourState *s, const Body *body)
{
    int hub = body->first;
    double strip = h->water->strip_frac.value;
    double fall = strip * h->water->fall_frac.value;
    StarRates rates = hour_flow_rates(s, body);
    double at_hub = s->warm[hub].co2_mol_m3;
    double *rest = s->before + hub; /* c0 - slope C0, mol/m3 */
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        double m3 = s->mid_m3[v];
        PhPoint p = warmth_ph(&s->warm[v], s->mean[v] / m3, s->dic_mol[v] / m3,
                              s->a[v]);
        s->co2_slope[v] = p.slope;
        rest[j] = p.co2_mol_m3 - p.slope * s->dic_mol[v] / m3;
        double by = strip * exchange_1_h(h, s, v);
        s->source[v] =
            s->carbon_mol_h[v] + by * m3 * (s->warm[v].co2_mol_m3 - rest[j]);
        s->loss_h[v] += by * p.slope;
    }
    s->source[hub] += s->in_m3_h[hub] * body->source_dic_mol_m3;
    for (int j = 1; j < body->count; j++) {
        int v = hub + j;
        double in = fall * s->in_m3_h[v] * (s->warm[v].co2_mol_m3 - rest[0]);
        double out = fall * s->out_m3_h[v] * (at_hub - rest[j]);
        s->gain_h[v] *= 1.0 - fall * s->co2_slope[hub];
        s->back_h[v] *= 1.0 - fall * s->co2_slope[v];
        s->source[v] += in;
        s->source[hub] += out;
    }
    StarColumn column = hour_column(s, body, s->dic_mol);
    star_step(&rates, s->part_h, &column, s->room);
    double gained = s->in_m3_h[hub] * body->source_dic_mol_m3;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        double m3 = s->mid_m3[v];
        double co2 = rest[j] + s->co2_slope[v] * s->mean[v] / m3;
        double by = strip * exchange_1_h(h, s, v);
        gained += s->carbon_mol_h[v] + by * m3 * (s->warm[v].co2_mol_m3 - co2);
        if (j) {
            double hub_co2 =
                rest[0] + s->co2_slope[hub] * s->mean[hub] / s->mid_m3[hub];
            gained += fall * s->in_m3_h[v] * (s->warm[v].co2_mol_m3 - hub_co2);
            gained += fall * s->out_m3_h[v] * (at_hub - co2);
        }
    }
    hour_put(&s->ledger, LEDGER_CARBON_MOL, s->part_h * gained);
}

/* Lime falls out of water that holds far more than calcite's balance:
 * CaCO3 takes 2 eq and 1 mol. */
static void scale(const HourFarm *h, HourState *s, const Body *body, int v)
{
    double m3 = s->volume_m3[v];
    double calcium = s->wide_g[v][WIDE_CA] / CA_MOL / m3;
    double carbonate = s->co2_mol_m3[v] * s->warm[v].k12 / (s->a[v] * s->a[v]);
    double most = h->water->scale_over.value * s->warm[v].calcite;
    if (!(calcium * carbonate > most)) {
        return;
    }
    /* Carbonate is replaced from bicarbonate as it goes. */
    double share = lesser(0.5, s->part_h * h->water->scale_h.value);
    double mol = share * (carbonate - most / calcium) * m3;
    mol = lesser(mol, 0.5 * lesser(calcium * m3, s->dic_mol[v]));
    s->wide_g[v][WIDE_CA] -= mol * CA_MOL;
    s->alkalinity_mol[v] -= 2.0 * mol;
    s->dic_mol[v] -= mol;
    s->ledger.out[LEDGER_CA_G] += mol * CA_MOL;
    s->ledger.out[LEDGER_ALKALINITY_EQ] += 2.0 * mol;
    s->ledger.out[LEDGER_CARBON_MOL] += mol;
    if (body->loop >= 0) {
        s->loop_now[body->loop].lost_g[HOUR_CA] += mol * CA_MOL;
    }
}

void hour_settle_ph(const HourFarm *h, HourState *s, const Body *body)
{
    for (int j = 0; j < body->count; j++) {
        int v = body->first + j;
        scale(h, s, body, v);
        PhPoint p =
            warmth_ph(&s->warm[v], s->alkalinity_mol[v] / s->volume_m3[v],
                      s->dic_mol[v] / s->volume_m3[v], s->a[v]);
        s->a[v] = p.a;
        s->co2_mol_m3[v] = p.co2_mol_m3;
    }
}
