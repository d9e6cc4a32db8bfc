/* What the grower gives to the water beside feed, and what deep cleaning takes
 * from the gravel. */
#include <math.h>

#include "base/date.h"
#include "nature/water/base.h"
#include "sim/hour_parts.h"

enum { IRON_EVERY_D = HOUR_IRON_EVERY_D, FIRST_DOSE_H = 8, DOSES_APART_H = 3 };

static const double CACO3_G_EQ = 50.0435;

static void give_base(const HourFarm *h, HourState *s, const Body *body)
{
    int hub = body->first;
    if (!h->dose || -log10(s->a[hub]) >= h->water->dose_ph.value) {
        return;
    }
    double eq =
        h->water->dose_alkalinity_g_m3.value / CACO3_G_EQ * body->total_m3;
    double k_g = eq * h->dose_g_eq[HOUR_K];
    double ca_g = eq * h->dose_g_eq[HOUR_CA];
    s->alkalinity_mol[hub] += eq;
    s->dic_mol[hub] += eq * h->dose_dic_mol_eq;
    s->wide_g[hub][WIDE_K] += k_g;
    s->wide_g[hub][WIDE_CA] += ca_g;
    s->wide_g[hub][WIDE_MG] += eq * h->dose_g_eq[HOUR_MG];
    s->ledger.in[LEDGER_ALKALINITY_EQ] += eq;
    s->ledger.in[LEDGER_CARBON_MOL] += eq * h->dose_dic_mol_eq;
    s->ledger.in[LEDGER_K_G] += k_g;
    s->ledger.in[LEDGER_CA_G] += ca_g;
    if (body->loop >= 0) {
        HourLoopDay *to = &s->loop_now[body->loop];
        to->dosed_eq += eq;
        to->dosed_g[HOUR_K] += k_g;
        to->dosed_g[HOUR_CA] += ca_g;
        to->dosed_g[HOUR_MG] += eq * h->dose_g_eq[HOUR_MG];
    }
}

static void give_iron(const HourFarm *h, HourState *s, int b)
{
    static const double TARGET_G_M3 = 2.0; /* common practice of the trade */
    const Body *body = &h->bodies[b];
    int hub = body->first;
    if (s->iron_wait[b]-- > 0) {
        return;
    }
    s->iron_wait[b] = IRON_EVERY_D;
    double has = s->wide_g[hub][WIDE_FE] / s->volume_m3[hub];
    double g = fmax(0.0, TARGET_G_M3 - has) * body->total_m3;
    s->wide_g[hub][WIDE_FE] += g;
    s->loop_now[body->loop].dosed_g[HOUR_FE] += g;
}

/* A salt of the store that brings an element but no alkalinity; NULL. */
static const BookBase *salt_of(const HourFarm *h, int element)
{
    for (int i = 0; i < h->farm->bases_count; i++) {
        const BookBase *base = book_base(h->book, h->farm->bases[i].kind);
        if (!base || base->caco3_g_g.value > 0.0) {
            continue;
        }
        double frac = element == HOUR_K    ? base->k_frac.value
                      : element == HOUR_CA ? base->ca_frac.value
                      : element == HOUR_MG ? base->mg_frac.value
                                           : base->fe_frac.value;
        if (frac > 0.0) {
            return base;
        }
    }
    return NULL;
}

bool hour_has_salt(const HourFarm *h, int element)
{
    return salt_of(h, element) != NULL;
}

/* Salts of potassium, calcium and magnesium up to what the book says; with
 * their sulphate, which is left out, they change no alkalinity. */
static void give_salts(const HourFarm *h, HourState *s, const Body *body)
{
    const BookWater *w = h->water;
    const struct {
        int element, wide, quantity;
        double target_g_m3;
    } rows[] = {{HOUR_K, WIDE_K, LEDGER_K_G, w->salt_k_g_m3.value},
                {HOUR_CA, WIDE_CA, LEDGER_CA_G, w->salt_ca_g_m3.value},
                {HOUR_MG, WIDE_MG, -1, w->salt_mg_g_m3.value}};
    int hub = body->first;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double has = s->wide_g[hub][rows[i].wide] / s->volume_m3[hub];
        double g = (rows[i].target_g_m3 - has) * body->total_m3;
        if (!(g > 0.0) || !h->has_salt[rows[i].element]) {
            continue;
        }
        s->wide_g[hub][rows[i].wide] += g;
        s->loop_now[body->loop].dosed_g[rows[i].element] += g;
        if (rows[i].quantity >= 0) {
            s->ledger.in[rows[i].quantity] += g;
        }
    }
}

/* Beds that are deep cleaned this week lose their solids. */
static void clean(const HourFarm *h, HourState *s, const PlanClean *row)
{
    const Bed *bed = &h->farm->beds[row->bed];
    if (bed->zone < 0) {
        return;
    }
    int v = h->zone_vessel[bed->zone];
    if (!(h->vessels[v].bed_m2 > 0.0)) {
        return;
    }
    double share = h->water->solids_gone_frac.value * bed->length_m *
                   bed->width_m / h->vessels[v].bed_m2;
    static const int IN[HOUR_ELEMENTS] = {LEDGER_N_G,  LEDGER_P_G, LEDGER_K_G,
                                          LEDGER_CA_G, -1,         -1};
    s->solids_kg[v] *= 1.0 - share;
    int32_t loop = h->farm->zones[bed->zone].loop;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        double g = share * s->solids_g[v][e];
        s->solids_g[v][e] -= g;
        s->loop_now[loop].lost_g[e] += g;
        if (IN[e] >= 0) {
            s->ledger.out[IN[e]] += g;
        }
    }
}

/* From eight in the morning on, three hours apart. */
void hour_give_base(const HourFarm *h, HourState *s, int hour)
{
    int since = hour - FIRST_DOSE_H;
    if (!h->care.gives_base || since < 0 || since % DOSES_APART_H != 0 ||
        since / DOSES_APART_H >= (int)(h->water->dose_portions_d.value + 0.5)) {
        return;
    }
    for (int b = 0; b < h->body_count; b++) {
        give_base(h, s, &h->bodies[b]);
    }
}

void hour_care_day(const HourFarm *h, HourState *s, int32_t date)
{
    for (int b = 0; b < h->body_count; b++) {
        if (h->care.gives_iron && h->bodies[b].loop >= 0) {
            give_iron(h, s, b);
        }
        if (h->care.gives_salts && h->bodies[b].loop >= 0 &&
            date_weekday(date) == 0) {
            give_salts(h, s, &h->bodies[b]);
        }
    }
    for (int i = 0; i < h->farm->plan_cleans_count; i++) {
        if (h->farm->plan_cleans[i].on == date) {
            clean(h, s, &h->farm->plan_cleans[i]);
        }
    }
}
