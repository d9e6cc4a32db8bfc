/* What is held, what came and went: the ledger of an hour, and days told. */
#include <math.h>
#include <string.h>

#include "nature/sun/solar.h"
#include "sim/hour_parts.h"

static const double WATER_MJ_M3 = HEAT_WATER_J_M3_K / 1e6;
static const double AS_MOVED = 1e-4;

const char *hour_quantity_name(int quantity)
{
    static const char *const NAMES[LEDGER_COUNT] = {
        "water",      "heat",   "nitrogen",     "oxygen",
        "alkalinity", "carbon", "phosphorus",   "potassium",
        "calcium",    "fish",   "kilos of fish"};
    return NAMES[quantity];
}

double hour_ledger_residual_frac(const HourLedger *l, int q)
{
    double moved = l->in[q] + l->out[q] + AS_MOVED * fabs(l->held[q]);
    double off = fabs(l->in[q] - l->out[q] - l->stored[q]);
    return moved > 0.0 ? off / moved : off > 0.0 ? INFINITY : 0.0;
}

void hour_ledger_add(HourLedger *sum, const HourLedger *hour)
{
    for (int q = 0; q < LEDGER_COUNT; q++) {
        sum->in[q] += hour->in[q];
        sum->out[q] += hour->out[q];
        sum->stored[q] += hour->stored[q];
        sum->held[q] = hour->held[q];
    }
}

static void held_water(const HourFarm *h, const HourState *s, double *held)
{
    for (int v = 0; v < h->vessel_count; v++) {
        held[LEDGER_WATER_M3] += s->volume_m3[v];
        held[LEDGER_HEAT_MJ] += WATER_MJ_M3 * s->heat[v];
        held[LEDGER_N_G] += s->tan_g[v] + s->nitrite_g[v] +
                            s->wide_g[v][WIDE_NITRATE] + s->solids_g[v][HOUR_N];
        held[LEDGER_OXYGEN_G] += s->oxygen_g[v];
        held[LEDGER_ALKALINITY_EQ] += s->alkalinity_mol[v];
        held[LEDGER_CARBON_MOL] += s->dic_mol[v];
        held[LEDGER_P_G] += s->wide_g[v][WIDE_P] + s->solids_g[v][HOUR_P];
        held[LEDGER_K_G] += s->wide_g[v][WIDE_K] + s->solids_g[v][HOUR_K];
        held[LEDGER_CA_G] += s->wide_g[v][WIDE_CA] + s->solids_g[v][HOUR_CA];
    }
}

void hour_held(const HourFarm *h, const HourState *s, double held[])
{
    memset(held, 0, LEDGER_COUNT * sizeof *held);
    held_water(h, s, held);
    for (int t = 0; t < h->farm->tunnels_count; t++) {
        held[LEDGER_HEAT_MJ] +=
            (tunnel_held_j(&h->model->tunnels[t].house, &s->tunnels[t]) +
             s->tanks_w[t] * 3600.0) /
            1e6;
    }
    for (int i = 0; i < h->model->bed_count; i++) {
        if (h->surfaces[i].vessel < 0) {
            held[LEDGER_HEAT_MJ] +=
                s->beds[i].heat_j_k * s->beds[i].gravel_degc / 1e6;
        }
    }
    static const int IN[4] = {LEDGER_N_G, LEDGER_P_G, LEDGER_K_G, LEDGER_CA_G};
    static const int OF[4] = {HOUR_N, HOUR_P, HOUR_K, HOUR_CA};
    int schools = h->farm->tanks_count * h->species_count;
    for (int k = 0; k < schools; k++) {
        const School *f = &s->schools[k];
        double kg = f->kg + f->grown_kg;
        held[LEDGER_FISH_COUNT] += f->count;
        held[LEDGER_FISH_KG] += kg;
        for (int i = 0; i < 4; i++) {
            held[IN[i]] += kg * h->body_g_kg[OF[i]] + f->gut_g[0][OF[i]] +
                           f->gut_g[1][OF[i]];
        }
    }
}

void hour_ledger_open(HourState *s)
{
    memset(s->ledger.in, 0, sizeof s->ledger.in);
    memset(s->ledger.out, 0, sizeof s->ledger.out);
}

void hour_ledger_close(const HourFarm *h, HourState *s)
{
    double held[LEDGER_COUNT];
    hour_held(h, s, held);
    for (int q = 0; q < LEDGER_COUNT; q++) {
        s->ledger.stored[q] = held[q] - s->ledger.held[q];
        s->ledger.held[q] = held[q];
    }
}

/* ---- Days
 * -------------------------------------------------------------------- */

void hour_days_make(const HourFarm *h, int days, Arena *arena, HourDays *out)
{
    const Farm *farm = h->farm;
    *out = (HourDays){
        .count = days,
        .loops = ARENA_ARRAY(arena, HourLoopDay, days * farm->loops_count),
        .tanks = ARENA_ARRAY(arena, HourTankDay, days * farm->tanks_count),
        .tunnels =
            ARENA_ARRAY(arena, HourTunnelDay, days * farm->tunnels_count),
        .plants = ARENA_ARRAY(arena, HourPlantDay, days * h->plant_count),
    };
}

static void tell_loops(const HourFarm *h, const HourState *s, HourLoopDay *to)
{
    static const int FROM[HOUR_ELEMENTS] = {WIDE_NITRATE, WIDE_P,  WIDE_K,
                                            WIDE_CA,      WIDE_MG, WIDE_FE};
    for (int b = 0; b < h->body_count; b++) {
        const Body *body = &h->bodies[b];
        if (body->loop < 0) {
            continue;
        }
        HourLoopDay *day = &to[body->loop];
        *day = s->loop_now[body->loop];
        int hub = body->first;
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            day->element_g_m3[e] = s->wide_g[hub][FROM[e]] / s->volume_m3[hub];
        }
        day->sodium_g_m3 = s->wide_g[hub][WIDE_NA] / s->volume_m3[hub];
        day->chloride_g_m3 = s->wide_g[hub][WIDE_CL] / s->volume_m3[hub];
        for (int j = 0; j < body->count; j++) {
            day->solids_kg += s->solids_kg[hub + j];
            for (int e = 0; e < HOUR_ELEMENTS; e++) {
                day->asked_g[e] += s->asked_g[hub + j][e];
            }
        }
    }
}

static void tell_day(const HourFarm *h, const HourState *s, int day,
                     HourDays *out)
{
    const Farm *farm = h->farm;
    tell_loops(h, s, out->loops + day * farm->loops_count);
    for (int i = 0; i < farm->tanks_count; i++) {
        HourTankDay *to = &out->tanks[day * farm->tanks_count + i];
        *to = s->tank_now[i];
        for (int sp = 0; sp < h->species_count; sp++) {
            const School *f = &s->schools[i * h->species_count + sp];
            to->count += f->count;
            to->kg += f->kg + f->grown_kg;
        }
    }
    for (int t = 0; t < farm->tunnels_count; t++) {
        HourTunnelDay *to = &out->tunnels[day * farm->tunnels_count + t];
        *to = s->tunnel_day[t];
        to->dli_mol =
            sun_dli_mol_m2_d(s->tunnel_now[t].sun_j_m2[CLIMATE_ROWS] / 1e6);
    }
}

static void tell_plants(const HourFarm *h, const HourState *s, int day,
                        HourDays *out)
{
    int32_t date = h->from_day + (int32_t)((s->hours - 1) / DAY_H);
    for (int i = 0; i < h->plant_count; i++) {
        const PlantState *is = &s->plants[i];
        out->plants[day * h->plant_count + i] = (HourPlantDay){
            .grown_frac = fmin(1.0, is->degc_d / h->plants[i].total_degc_d),
            .short_frac = is->short_frac,
            .scarcest = is->scarcest,
            .is_there = hour_plant_stands(&h->plants[i], is, date)};
    }
}

/* Without a division where it is not the worst. */
static void note_residual(const HourLedger *l, int q, HourDays *out)
{
    double moved = l->in[q] + l->out[q] + AS_MOVED * fabs(l->held[q]);
    double off = fabs(l->in[q] - l->out[q] - l->stored[q]);
    if (off > out->worst_residual_frac * moved) {
        out->worst_residual_frac = hour_ledger_residual_frac(l, q);
        out->worst_quantity = q;
    }
}

void hour_run(const HourFarm *h, HourState *s, const HourWeather *weather,
              HourDays *out)
{
    for (int day = 0; day < out->count; day++) {
        for (int hour = 0; hour < DAY_H; hour++) {
            hour_step(h, s, &weather[day * DAY_H + hour], NULL);
            hour_ledger_add(&out->ledger, &s->ledger);
            for (int q = 0; q < LEDGER_COUNT; q++) {
                note_residual(&s->ledger, q, out);
            }
        }
        tell_day(h, s, day, out);
        if (!out->plants_at_end || day == out->count - 1) {
            tell_plants(h, s, day, out);
        }
    }
}
