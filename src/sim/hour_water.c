/* What is dissolved, in an hour: solids that become mineral, ammonia, nitrite,
 * nutrients and what plants take, alkalinity, oxygen, carbon, pH.
 *
 * Each substance is carried by star_step with its own losses; what one loses
 * the next gains, as loss x mean, so that amounts close. Losses that saturate
 * are taken as first order about the hour's beginning:
 * r c/(K + c) ~ (r/(K + c0)) c. */
#include <math.h>
#include <string.h>

#include "sim/hour_parts.h"

static const double N_MOL = 14.0067, P_MOL = 30.974, K_MOL = 39.098,
                    CA_MOL = 40.078, MG_MOL = 24.305, O2_MOL = 31.998;
/* Oxygen that a gram of nitrogen takes in the two steps of nitrification
 * (1.5 and 0.5 mol/mol), and stands for in denitrification (1.25 mol/mol). */
static const double O2_FIRST = 1.5 * 31.998 / 14.0067;
static const double O2_SECOND = 0.5 * 31.998 / 14.0067;
static const double O2_NITRATE = 1.25 * 31.998 / 14.0067;
static const double TAN_HALF = 1.5;    /* Ks, Ko of nitrogen.h, g/m3 */
static const double OXYGEN_HALF = 1.3; /* */
static const double NITRATE_HALF = 1.0;

/* Halvings of an hour in which beds start, or come to rest. */
enum { STARTING = 5, RESTING = 3 };

static const int ELEMENT_OF[STAR_WIDE] = {HOUR_N,  HOUR_P,  HOUR_K, HOUR_CA,
                                          HOUR_MG, HOUR_FE, -1,     -1};
static const int QUANTITY_OF[STAR_WIDE] = {
    LEDGER_N_G, LEDGER_P_G, LEDGER_K_G, LEDGER_CA_G, -1, -1, -1, -1};

void hour_put(HourLedger *l, int quantity, double amount)
{
    l->in[quantity] += amount > 0.0 ? amount : 0.0;
    l->out[quantity] -= amount < 0.0 ? amount : 0.0;
}

/* ---- Flows as rates --------------------------------------------------------
 */

StarRates hour_flow_rates(HourState *s, const Body *body)
{
    int hub = body->first;
    double leaves = 0.0;
    for (int j = 1; j < body->count; j++) {
        int v = hub + j;
        s->gain_h[v] = s->in_m3_h[v] / s->mid_m3[hub];
        s->back_h[v] = s->loss_h[v] = s->out_m3_h[v] / s->mid_m3[v];
        leaves += s->gain_h[v];
    }
    s->loss_h[hub] = leaves;
    return (StarRates){body->count, s->gain_h + hub, s->back_h + hub,
                       s->loss_h + hub};
}

StarColumn hour_column(HourState *s, const Body *body, double *amount)
{
    int hub = body->first;
    return (StarColumn){s->source + hub, amount + hub, s->mean + hub, false};
}

/* ---- Solids ----------------------------------------------------------------
 */

/* A tank's solids go with its water to the gravel; where none floods, they lie
 * where they are. */
static void carry_solids(const HourFarm *h, HourState *s, const Body *body)
{
    double beds_m3_h = 0.0;
    for (int j = 1; j < body->count; j++) {
        int v = body->first + j;
        beds_m3_h += h->vessels[v].kind == VESSEL_ZONE ? s->in_m3_h[v] : 0.0;
    }
    for (int j = 1; j < body->count && beds_m3_h > 0.0; j++) {
        int tank = body->first + j;
        if (h->vessels[tank].kind != VESSEL_TANK ||
            !(s->out_m3_h[tank] > 0.0)) {
            continue;
        }
        double x = s->out_m3_h[tank] / s->mid_m3[tank];
        double gone = x / (1.0 + x) / beds_m3_h;
        for (int k = 1; k < body->count; k++) {
            int v = body->first + k;
            if (h->vessels[v].kind != VESSEL_ZONE) {
                continue;
            }
            double share = gone * s->in_m3_h[v];
            s->solids_kg[v] += share * s->solids_kg[tank];
            for (int e = 0; e < HOUR_ELEMENTS; e++) {
                s->solids_g[v][e] += share * s->solids_g[tank][e];
            }
        }
        double left = 1.0 - x / (1.0 + x);
        s->solids_kg[tank] *= left;
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            s->solids_g[tank][e] *= left;
        }
    }
}

static void rot(const HourFarm *h, HourState *s, int v)
{
    if (!(s->solids_kg[v] > 0.0)) {
        return;
    }
    const BookWater *w = h->water;
    double share = w->mineral_d.value / DAY_H * s->warm[v].mineral;
    share = share < 1.0 ? share : 1.0;
    double kg = share * s->solids_kg[v];
    s->solids_kg[v] -= kg;
    s->rot_oxygen_g_h[v] = 1000.0 * w->solids_oxygen_kg_kg.value * kg;
    s->carbon_mol_h[v] += s->rot_oxygen_g_h[v] / O2_MOL;
    static const int TO[HOUR_ELEMENTS] = {-1,      WIDE_P,  WIDE_K,
                                          WIDE_CA, WIDE_MG, WIDE_FE};
    Elements freed;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        freed[e] = share * s->solids_g[v][e];
        s->solids_g[v][e] -= freed[e];
        if (TO[e] >= 0) {
            s->wide_source[v][TO[e]] += freed[e];
        }
    }
    s->ammonia_g_h[v] += freed[HOUR_N];
    s->charge_eq_h[v] += freed[HOUR_N] / N_MOL - freed[HOUR_P] / P_MOL +
                         freed[HOUR_K] / K_MOL + 2.0 * freed[HOUR_CA] / CA_MOL +
                         2.0 * freed[HOUR_MG] / MG_MOL;
    int32_t loop = h->bodies[h->vessel_body[v]].loop;
    for (int e = 0; e < HOUR_ELEMENTS && loop >= 0; e++) {
        s->loop_now[loop].mineral_g[e] += freed[e];
    }
}

/* ---- Ammonia and nitrite ----------------------------------------------------
 */

/* f(pH) of nitrogen.h: its middle line, by pH from 5 to 9.5. */
double hour_film_ph(double ph)
{
    static const double PH[] = {5.0, 5.5, 6.0, 7.0, 7.5, 8.0, 8.8, 9.5};
    static const double SHARE[] = {0.0, 0.18, 0.32, 0.7, 0.9, 1.0, 0.9, 0.2};
    enum { LAST = sizeof PH / sizeof *PH - 1 };
    if (ph <= PH[0]) {
        return SHARE[0];
    }
    for (int i = 1; i <= LAST; i++) {
        if (ph <= PH[i]) {
            double part = (ph - PH[i - 1]) / (PH[i] - PH[i - 1]);
            return SHARE[i - 1] + part * (SHARE[i] - SHARE[i - 1]);
        }
    }
    return SHARE[LAST];
}

/* One step of nitrification: losses film/(half + c) by vessel, c the hour's
 * mean where it is far from the beginning's (a bed that starts again), else the
 * beginning's. turned gets g/h. */
static void film_step(HourState *s, const Body *body, double *amount,
                      const double *film, double half, double *turned)
{
    enum { ROUNDS = 4 };
    static const double FAR = 0.02;
    int hub = body->first;
    double before[VESSELS_MOST], near[VESSELS_MOST];
    for (int j = 0; j < body->count; j++) {
        before[j] = amount[hub + j];
        near[j] = before[j] / s->mid_m3[hub + j];
    }
    bool is_far = true;
    for (int round = 0; round < ROUNDS && is_far; round++) {
        StarRates rates = hour_flow_rates(s, body);
        for (int j = 0; j < body->count; j++) {
            turned[j] = film[j] / (half + near[j]);
            s->loss_h[hub + j] += turned[j];
            amount[hub + j] = before[j];
        }
        StarColumn column = hour_column(s, body, amount);
        star_step(&rates, s->part_h, &column, s->room);
        is_far = false;
        for (int j = 0; j < body->count; j++) {
            double mean = s->mean[hub + j] / s->mid_m3[hub + j];
            bool is_off = fabs(mean - near[j]) > FAR * (half + near[j]);
            is_far = is_far || (film[j] > 0.0 && is_off);
            near[j] = mean;
        }
    }
    for (int j = 0; j < body->count; j++) {
        turned[j] *= s->mean[hub + j];
    }
}

/* First step, then second; leaves what each turned as oxygen and charge. */
static void nitrify(const HourFarm *h, HourState *s, const Body *body)
{
    int hub = body->first;
    double film[VESSELS_MOST], turned[VESSELS_MOST];
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        s->source[v] = s->ammonia_g_h[v];
        film[j] = 0.0;
        if (h->vessels[v].film_g_h > 0.0) {
            double m3 = s->mid_m3[v];
            double oxygen = s->oxygen_g[v] / m3;
            film[j] = h->vessels[v].film_g_h * s->warm[v].film *
                      hour_film_ph(-log10(s->a[v])) * oxygen /
                      (OXYGEN_HALF + oxygen) / m3;
        }
    }
    film_step(s, body, s->tan_g, film, TAN_HALF, turned);
    double turned_g = 0.0;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        s->source[v] = turned[j];
        turned_g += turned[j];
        s->charge_eq_h[v] -= 2.0 * turned[j] / N_MOL;
        s->ammonia_g_h[v] = O2_FIRST * turned[j]; /* from now on: its oxygen */
        film[j] *= h->water->nitrite_times.value;
    }
    film_step(s, body, s->nitrite_g, film, h->water->nitrite_half_g_m3.value,
              turned);
    for (int j = 0; j < body->count; j++) {
        s->wide_source[hub + j][WIDE_NITRATE] += turned[j];
        s->ammonia_g_h[hub + j] += O2_SECOND * turned[j];
    }
    if (body->loop >= 0) {
        s->loop_now[body->loop].nitrified_g += s->part_h * turned_g;
    }
}

/* ---- What goes round, and what plants take ----------------------------------
 */

double hour_share_of_day(const HourFarm *h, const HourState *s,
                         const HourNow *now, int v)
{
    double dark = h->water->dark_uptake_frac.value;
    int32_t t = h->vessels[v].light;
    if (t < 0 || !(s->tunnel_now[t].before_j_m2 > 0.0)) {
        return 1.0 / DAY_H;
    }
    double light = hour_light_w_m2(h, now, t, CLIMATE_ROWS) * 3600.0 /
                   s->tunnel_now[t].before_j_m2;
    return dark / DAY_H + (1.0 - dark) * light;
}

/* Losses of a zone beside its flow: roots, denitrification, iron that falls
 * out. */
static void zone_losses(const HourFarm *h, HourState *s, int v, double hours,
                        Wide loss, double *out_air)
{
    const BookWater *w = h->water;
    double m3 = s->mid_m3[v];
    int hub = h->bodies[h->vessel_body[v]].first;
    double like = m3 / s->mid_m3[hub];
    /* Of what comes in the step. */
    double stays = s->part_h / (1.0 + s->part_h * s->out_m3_h[v] / m3);
    for (int c = 0; c < STAR_WIDE; c++) {
        int e = ELEMENT_OF[c];
        loss[c] = 0.0;
        if (e >= 0) {
            double asked = s->ask_g_d[v][e] * hours;
            /* Where a flood brings richer water, by that: never over asked. */
            double own = s->wide_g[v][c] + stays * s->wide_source[v][c];
            double near = like * s->wide_g[hub][c];
            near = near > own ? near : own;
            loss[c] = asked / (h->half_g_m3[e] * m3 + near);
            s->asked_g[v][e] += s->part_h * asked;
        }
    }
    *out_air = w->denitrify_frac.value * s->rot_oxygen_g_h[v] / O2_NITRATE /
               (NITRATE_HALF * m3 + s->wide_g[v][WIDE_NITRATE]);
}

/* Straight in pH from 7 to 8. */
static double high_frac(double a)
{
    return a < 1e-7 ? lesser(1.0, -log10(a) - 7.0) : 0.0;
}

double hour_iron_loss_1_h(const HourFarm *h, double a)
{
    double low = h->water->iron_loss_d.value;
    double high = h->water->iron_loss_high_d.value;
    return (low + high_frac(a) * (high - low)) / DAY_H;
}

/* As calcium phosphate, 3 Ca for 2 P. */
double hour_phosphorus_loss_1_h(const HourFarm *h, double a)
{
    return high_frac(a) * h->water->phosphorus_loss_high_d.value / DAY_H;
}

static double calcium_with_1_h(const HourState *s, int v, double phosphorus_h)
{
    double mol = 1.5 * phosphorus_h * s->wide_g[v][WIDE_P] / P_MOL;
    double held = s->wide_g[v][WIDE_CA] / CA_MOL;
    return held > 0.0 ? mol / (held + mol) : 0.0;
}

/* Books what the block's losses took, now that the means are known. */
static void book_losses(const HourFarm *h, HourState *s, const Body *body,
                        Elements *fallen)
{
    HourLoopDay *to = body->loop >= 0 ? &s->loop_now[body->loop] : NULL;
    for (int j = 0; j < body->count; j++) {
        int v = body->first + j;
        double through = j ? s->out_m3_h[v] / s->mid_m3[v] : s->loss_h[v];
        for (int c = 0; c < STAR_WIDE; c++) {
            int e = ELEMENT_OF[c];
            double gone = (s->wide_loss[v][c] - through) * s->wide_mean[v][c];
            if (e < 0 || !(gone > 0.0)) {
                continue;
            }
            double lost = fallen[j][e] * s->wide_mean[v][c];
            lost = lost < gone ? lost : gone;
            double taken = h->vessels[v].kind == VESSEL_ZONE ? gone - lost : 0;
            if (QUANTITY_OF[c] >= 0) {
                s->ledger.out[QUANTITY_OF[c]] += s->part_h * gone;
            }
            s->taken_g[v][e] += s->part_h * taken;
            static const double EQ_G[HOUR_ELEMENTS] = {
                1.0 / N_MOL,   1.0 / P_MOL,   -1.0 / K_MOL,
                -2.0 / CA_MOL, -2.0 / MG_MOL, 0.0};
            s->charge_eq_h[v] += EQ_G[e] * gone;
            if (e == HOUR_N) { /* nitrate breathed in place of oxygen */
                s->rot_oxygen_g_h[v] -= O2_NITRATE * lost;
            }
            if (to) {
                to->taken_g[e] += s->part_h * taken;
                to->lost_g[e] += s->part_h * (gone - taken);
            }
        }
    }
}

static void go_round(const HourFarm *h, HourState *s, const Body *body,
                     const HourNow *now)
{
    int hub = body->first;
    StarRates rates = hour_flow_rates(s, body);
    Elements fallen[VESSELS_MOST];
    double iron_h = hour_iron_loss_1_h(h, s->a[hub]);
    double lime_h = hour_phosphorus_loss_1_h(h, s->a[hub]);
    HourLoopDay *to = body->loop >= 0 ? &s->loop_now[body->loop] : NULL;
    for (int j = 0; j < body->count; j++) {
        int v = hub + j;
        Wide extra = {0.0};
        double air = 0.0;
        if (h->vessels[v].kind == VESSEL_ZONE) {
            zone_losses(h, s, v, hour_share_of_day(h, s, now, v), extra, &air);
        }
        Elements out = {[HOUR_N] = air,
                        [HOUR_P] = lime_h,
                        [HOUR_CA] = calcium_with_1_h(s, v, lime_h),
                        [HOUR_FE] = iron_h};
        memcpy(fallen[j], out, sizeof out);
        double through = j ? s->out_m3_h[v] / s->mid_m3[v] : s->loss_h[v];
        for (int c = 0; c < STAR_WIDE; c++) {
            int e = ELEMENT_OF[c];
            s->wide_loss[v][c] = through + extra[c] + (e >= 0 ? out[e] : 0.0);
        }
    }
    for (int c = 0; c < STAR_WIDE; c++) {
        double come = s->in_m3_h[hub] * body->source_g_m3[c];
        s->wide_source[hub][c] += come;
        if (QUANTITY_OF[c] >= 0) {
            s->ledger.in[QUANTITY_OF[c]] += s->part_h * come;
        }
        if (to && ELEMENT_OF[c] >= 0) {
            to->source_g[ELEMENT_OF[c]] += s->part_h * come;
        }
    }
    StarBlock block = {body->count,
                       rates.gain_h,
                       rates.back_h,
                       (const double(*)[STAR_WIDE])(s->wide_loss + hub),
                       (const double(*)[STAR_WIDE])(s->wide_source + hub),
                       s->wide_g + hub,
                       s->wide_mean + hub};
    star_block_step(&block, s->part_h, s->room);
    book_losses(h, s, body, fallen);
}

static void alkalinity(HourState *s, const Body *body)
{
    int hub = body->first;
    StarRates rates = hour_flow_rates(s, body);
    double come = s->in_m3_h[hub] * body->source_alkalinity_mol_m3;
    hour_put(&s->ledger, LEDGER_ALKALINITY_EQ, s->part_h * come);
    for (int j = 0; j < body->count; j++) {
        s->source[hub + j] = s->charge_eq_h[hub + j];
        hour_put(&s->ledger, LEDGER_ALKALINITY_EQ,
                 s->part_h * s->charge_eq_h[hub + j]);
    }
    s->source[hub] += come;
    StarColumn column = hour_column(s, body, s->alkalinity_mol);
    column.is_signed = true;
    star_step(&rates, s->part_h, &column, s->room);
}

void hour_solids(const HourFarm *h, HourState *s)
{
    for (int b = 0; b < h->body_count; b++) {
        carry_solids(h, s, &h->bodies[b]);
    }
    for (int v = 0; v < h->vessel_count; v++) {
        rot(h, s, v);
    }
}

static void water_part(const HourFarm *h, HourState *s, const Body *body,
                       const HourNow *now)
{
    nitrify(h, s, body);
    go_round(h, s, body, now);
    alkalinity(s, body);
    hour_carbon(h, s, body);
    hour_oxygen(h, s, body);
    hour_settle_ph(h, s, body);
}

/* What fish and solids give in the hour, which each part of it begins with. */
typedef struct Given {
    double ammonia_g_h[VESSELS_MOST], rot_oxygen_g_h[VESSELS_MOST];
    double charge_eq_h[VESSELS_MOST];
    Wide wide_source[VESSELS_MOST];
} Given;

static void copy_given(HourState *s, const Body *body, Given *given,
                       bool is_back)
{
    size_t bytes = (size_t)body->count * sizeof(double);
    double *const own[] = {s->ammonia_g_h, s->rot_oxygen_g_h, s->charge_eq_h,
                           s->wide_source[0]};
    double *const kept[] = {given->ammonia_g_h, given->rot_oxygen_g_h,
                            given->charge_eq_h, given->wide_source[0]};
    for (int i = 0; i < 4; i++) {
        size_t wide = i == 3 ? STAR_WIDE : 1;
        double *here = own[i] + (size_t)body->first * wide;
        memcpy(is_back ? here : kept[i], is_back ? kept[i] : here,
               bytes * wide);
    }
}

/* An hour in which beds start or rest begins with short parts, each twice as
 * long as the one before: the little water that lies in them turns what comes
 * within minutes. */
static void water_turned(const HourFarm *h, HourState *s, const Body *body,
                         const HourNow *now, int halvings)
{
    Given given;
    copy_given(s, body, &given, false);
    s->part_h = ldexp(1.0, -halvings);
    for (int i = 0; i <= halvings; i++) {
        copy_given(s, body, &given, true);
        water_part(h, s, body, now);
        s->part_h *= i > 0 ? 2.0 : 1.0;
    }
    s->part_h = 1.0;
}

void hour_water(const HourFarm *h, HourState *s, const HourNow *now)
{
    s->part_h = 1.0;
    for (int b = 0; b < h->body_count; b++) {
        if (s->is_started[b] || s->is_stopped[b]) {
            water_turned(h, s, &h->bodies[b], now,
                         s->is_started[b] ? STARTING : RESTING);
        } else {
            water_part(h, s, &h->bodies[b], now);
        }
    }
}
