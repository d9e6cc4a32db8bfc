/* Fish in an hour: meals, digestion, breath, what they give to the water; and
 * what bad water does to them. */
#include <math.h>

#include "nature/fish/limits.h"
#include "nature/fish/stress.h"
#include "sim/hour_parts.h"

/* Three meals a day, common practice of the trade. */
enum { MEALS = 3 };
static const int MEAL_HOURS[MEALS] = {8, 13, 18};

static const double N_MOL = 14.0067, P_MOL = 30.974, K_MOL = 39.098,
                    CA_MOL = 40.078, MG_MOL = 24.305, NA_MOL = 22.990,
                    CL_MOL = 35.453, O2_MOL = 31.998;

static bool is_meal(int hour)
{
    return hour == MEAL_HOURS[0] || hour == MEAL_HOURS[1] ||
           hour == MEAL_HOURS[2];
}

static double nh3_g_m3(const HourState *s, int v)
{
    double ka = s->warm[v].ammonia;
    return s->tan_g[v] / s->volume_m3[v] * ka / (ka + s->a[v]);
}

static double curve_of(const FishCurve *curve, double degc)
{
    return degc < curve->x[0] || degc > curve->x[curve->count - 1]
               ? 0.0
               : fish_curve_at(curve, degc);
}

/* By the middle table, with luck so far towards the low or the high one. */
static double warmth_of(const FishSpecies *species, double luck, double degc)
{
    double middle = curve_of(&species->warmth[1], degc);
    double end = curve_of(&species->warmth[luck < 0.0 ? 0 : 2], degc);
    double away =
        luck < 0.0 ? lesser(0.0, end - middle) : greater(0.0, end - middle);
    return greater(0.0, middle + fabs(luck) * away);
}

static void meal(const HourFarm *h, HourState *s, int tank, int sp)
{
    School *f = &s->schools[tank * h->species_count + sp];
    int v = h->tank_vessel[tank];
    double warmth =
        s->fish_luck[sp].appetite *
        warmth_of(h->species[sp], s->fish_luck[sp].warmth, s->degc[v]);
    if (!(warmth > 0.0) || h->farm->tanks[tank].use == TANK_PURGE) {
        return;
    }
    double oxygen = s->oxygen_g[v] / s->volume_m3[v];
    double air = f->small_frac * fish_air_frac(oxygen, 50.0) +
                 (1.0 - f->small_frac) * fish_air_frac(oxygen, 200.0);
    double eaten_kg = f->ration_kg_d / MEALS * warmth * air *
                      fish_calm_frac(nh3_g_m3(s, v)) * h->care.feed_frac;
    double spilt_kg = eaten_kg * h->water->uneaten_frac.value;
    f->gut_kg[0] += eaten_kg;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        f->gut_g[0][e] += eaten_kg * f->feed_g_kg[e];
        s->solids_g[v][e] += spilt_kg * f->feed_g_kg[e];
    }
    s->solids_kg[v] += spilt_kg;
    double all_kg = eaten_kg + spilt_kg;
    HourLedger *l = &s->ledger;
    l->in[LEDGER_N_G] += all_kg * f->feed_g_kg[HOUR_N];
    l->in[LEDGER_P_G] += all_kg * f->feed_g_kg[HOUR_P];
    l->in[LEDGER_K_G] += all_kg * f->feed_g_kg[HOUR_K];
    l->in[LEDGER_CA_G] += all_kg * f->feed_g_kg[HOUR_CA];
    s->tank_now[tank].feed_kg += all_kg;
    s->tank_now[tank].eaten_kg += eaten_kg;
    int32_t loop = h->farm->tanks[tank].loop;
    if (loop >= 0) {
        s->loop_now[loop].feed_kg += all_kg;
        s->loop_now[loop].eaten_kg += eaten_kg;
    }
}

/* What leaves the gut dissolved: eaten - solids - built into the body. */
static void excrete(const HourFarm *h, HourState *s, int v,
                    const Elements dissolved, double salt_kg)
{
    static const int TO[HOUR_ELEMENTS] = {-1,      WIDE_P,  WIDE_K,
                                          WIDE_CA, WIDE_MG, WIDE_FE};
    s->ammonia_g_h[v] += dissolved[HOUR_N];
    for (int e = HOUR_P; e < HOUR_ELEMENTS; e++) {
        s->wide_source[v][TO[e]] += dissolved[e];
    }
    double na_g = salt_kg * h->water->feed_na_frac.value * 1000.0;
    double cl_g = salt_kg * h->water->feed_cl_frac.value * 1000.0;
    s->wide_source[v][WIDE_NA] += na_g;
    s->wide_source[v][WIDE_CL] += cl_g;
    s->charge_eq_h[v] +=
        dissolved[HOUR_N] / N_MOL - dissolved[HOUR_P] / P_MOL +
        dissolved[HOUR_K] / K_MOL + 2.0 * dissolved[HOUR_CA] / CA_MOL +
        2.0 * dissolved[HOUR_MG] / MG_MOL + na_g / NA_MOL - cl_g / CL_MOL;
    int32_t loop = h->bodies[h->vessel_body[v]].loop;
    for (int e = 0; e < HOUR_ELEMENTS && loop >= 0; e++) {
        s->loop_now[loop].fish_g[e] += dissolved[e];
    }
}

static void live(const HourFarm *h, HourState *s, int tank, int sp)
{
    const BookWater *w = h->water;
    School *f = &s->schools[tank * h->species_count + sp];
    int v = h->tank_vessel[tank];
    double rate = w->gut_rate_h.value;
    double digested_kg =
        fish_digest_h(h->stays, rate, &f->gut_kg[0], &f->gut_kg[1]);
    double gain_kg =
        s->fish_luck[sp].efficiency * h->species[sp]->efficiency * digested_kg -
        f->upkeep_kg_h;
    Elements dissolved;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        double out_g =
            fish_digest_h(h->stays, rate, &f->gut_g[0][e], &f->gut_g[1][e]);
        double solid_g = h->solids_frac[e] * out_g;
        s->solids_g[v][e] += solid_g;
        dissolved[e] = out_g - solid_g - gain_kg * h->body_g_kg[e];
    }
    s->solids_kg[v] += w->solids_kg_kg.value * digested_kg;
    excrete(h, s, v, dissolved, digested_kg);
    f->digested_kg += digested_kg;
    f->upkeep_kg += f->upkeep_kg_h;
    f->grown_kg += gain_kg;
    double oxygen_g = f->rest_g_h * s->warm[v].breath +
                      1000.0 * w->oxygen_digest_kg_kg.value * digested_kg;
    s->fish_oxygen_g_h[v] += oxygen_g;
    s->carbon_mol_h[v] += w->breath_mol_mol.value * oxygen_g / O2_MOL;
    s->ledger.in[LEDGER_FISH_KG] += greater(gain_kg, 0.0);
    s->ledger.out[LEDGER_FISH_KG] += greater(-gain_kg, 0.0);
}

void hour_fish(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int tank = 0; tank < h->farm->tanks_count; tank++) {
        for (int sp = 0; sp < h->species_count; sp++) {
            School *f = &s->schools[tank * h->species_count + sp];
            if (!(f->count > 0.0)) {
                continue;
            }
            if (is_meal(now->hour)) {
                meal(h, s, tank, sp);
            }
            live(h, s, tank, sp);
        }
    }
}

/* ---- Harm ------------------------------------------------------------------
 */

/* Those that die take their weight and what is in their gut with them. */
static void die(const HourFarm *h, HourState *s, int tank, int sp, double alive)
{
    School *f = &s->schools[tank * h->species_count + sp];
    double dead = 1.0 - alive;
    HourLedger *l = &s->ledger;
    double kg = dead * (f->kg + f->grown_kg);
    l->out[LEDGER_FISH_COUNT] += dead * f->count;
    l->out[LEDGER_FISH_KG] += kg;
    static const int OF[4] = {HOUR_N, HOUR_P, HOUR_K, HOUR_CA};
    static const int IN[4] = {LEDGER_N_G, LEDGER_P_G, LEDGER_K_G, LEDGER_CA_G};
    for (int i = 0; i < 4; i++) {
        l->out[IN[i]] += kg * h->body_g_kg[OF[i]] +
                         dead * (f->gut_g[0][OF[i]] + f->gut_g[1][OF[i]]);
    }
    s->tank_now[tank].dead_count += dead * f->count;
    double *const all[] = {&f->count,     &f->kg,          &f->ration_kg_d,
                           &f->rest_g_h,  &f->upkeep_kg_h, &f->gut_kg[0],
                           &f->gut_kg[1], &f->digested_kg, &f->upkeep_kg,
                           &f->grown_kg};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        *all[i] *= alive;
    }
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        f->gut_g[0][e] *= alive;
        f->gut_g[1][e] *= alive;
    }
    for (int i = 0; i < s->shoal_count; i++) {
        Shoal *shoal = &s->shoals[i];
        if (shoal->school == tank * h->species_count + sp) {
            shoal->count *= alive;
            shoal->ration_kg_d *= alive;
            shoal->upkeep_kg_d *= alive;
        }
    }
}

static void note_tank(HourState *s, int tank, const HourNow *now, double degc,
                      double oxygen)
{
    HourTankDay *to = &s->tank_now[tank];
    to->temp_degc += degc / DAY_H;
    to->temp_least_degc = lesser(to->temp_least_degc, degc);
    to->temp_most_degc = greater(to->temp_most_degc, degc);
    to->oxygen_g_m3 += oxygen / DAY_H;
    if (oxygen < to->oxygen_least_g_m3) {
        to->oxygen_least_g_m3 = oxygen;
        to->oxygen_least_hour = now->hour;
    }
}

enum {
    SUFFERS_OXYGEN = 1u,
    SUFFERS_AMMONIA = 2u,
    SUFFERS_NITRITE = 4u,
    SUFFERS_COLD = 8u,
    SUFFERS_HEAT = 16u
};

/* What a school bears that it should not. */
static unsigned suffering(const HourFarm *h, const HourState *s, int tank,
                          int sp, const FishHarm *harm)
{
    const School *f = &s->schools[tank * h->species_count + sp];
    const FishCurve *eats = &h->species[sp]->warmth[1];
    int v = h->tank_vessel[tank];
    double degc = s->degc[v];
    double chloride = s->wide_g[v][WIDE_CL] / s->volume_m3[v];
    unsigned is = 0;
    is |= harm->oxygen_mg_l < h->danger_g_m3 ? SUFFERS_OXYGEN : 0;
    is |= harm->nh3_mg_l > f->nh3_caution_g_m3 ? SUFFERS_AMMONIA : 0;
    is |= harm->nitrite_mg_l > fish_nitrite_caution_mg_l(chloride)
              ? SUFFERS_NITRITE
              : 0;
    is |= degc < eats->x[0] ? SUFFERS_COLD : 0;
    is |= degc > eats->x[eats->count - 1] ? SUFFERS_HEAT : 0;
    return is;
}

static void note_suffering(HourTankDay *to, unsigned is)
{
    to->suffered_h += is & (SUFFERS_OXYGEN | SUFFERS_AMMONIA) ? 1.0 : 0.0;
    to->low_oxygen_h += is & SUFFERS_OXYGEN ? 1.0 : 0.0;
    to->ammonia_h += is & SUFFERS_AMMONIA ? 1.0 : 0.0;
    to->nitrite_h += is & SUFFERS_NITRITE ? 1.0 : 0.0;
    to->cold_h += is & SUFFERS_COLD ? 1.0 : 0.0;
    to->hot_h += is & SUFFERS_HEAT ? 1.0 : 0.0;
}

void hour_harm(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int tank = 0; tank < h->farm->tanks_count; tank++) {
        int v = h->tank_vessel[tank];
        double m3 = s->volume_m3[v];
        FishHarm harm = {.oxygen_mg_l = s->oxygen_g[v] / m3,
                         .nh3_mg_l = nh3_g_m3(s, v),
                         .nitrite_mg_l = s->nitrite_g[v] / m3};
        note_tank(s, tank, now, s->degc[v], harm.oxygen_mg_l);
        unsigned suffers = 0;
        HourTankDay *to = &s->tank_now[tank];
        to->nh3_most_g_m3 = greater(to->nh3_most_g_m3, harm.nh3_mg_l);
        for (int sp = 0; sp < h->species_count; sp++) {
            School *f = &s->schools[tank * h->species_count + sp];
            if (!(f->count > 0.0)) {
                continue;
            }
            harm.nh3_deadly_mg_l = f->nh3_deadly_g_m3;
            harm.nitrite_deadly_mg_l = greater(
                0.1, fish_nitrite_deadly_mg_l(s->wide_g[v][WIDE_CL] / m3));
            suffers |= suffering(h, s, tank, sp, &harm);
            double rate = fish_harm_1_h(&harm);
            if (rate > 0.0) {
                die(h, s, tank, sp, exp(-rate));
            }
        }
        note_suffering(to, suffers);
    }
}
