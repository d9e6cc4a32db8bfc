/* The air of the tunnels in an hour, and what it gives to each water: heat to
 * gravel and tanks, and the water that leaves as vapour. */
#include <math.h>

#include "nature/air/evapo.h"
#include "nature/heat/damp.h"
#include "sim/hour_parts.h"

static const double HOUR_S = 3600.0;
static const double WATER_KG_M3 = 1000.0;
/* Air, wind and sky over beds in the open; as the climate year has it. */
static const double OPEN_W_M2_K = 12.0;
static const double OPEN_ABSORBED_FRAC = 0.8;

double hour_light_w_m2(const HourFarm *h, const HourNow *now, int32_t tunnel,
                       int row)
{
    const HourWeather *w = now->weather;
    if (tunnel < 0) {
        return w->direct_w_m2 + w->diffuse_w_m2;
    }
    const ModelTunnel *is = &h->model->tunnels[tunnel];
    double diffuse = w->diffuse_w_m2 * is->cover.diffuse_frac *
                     is->cover.kept_frac[now->month];
    if (w->direct_w_m2 <= 0.0) {
        return diffuse;
    }
    const double *frac = h->direct_frac[is->lit_as] +
                         (now->day * DAY_H + now->hour) * CLIMATE_ROWS;
    double share =
        row < CLIMATE_ROWS ? frac[row] : (frac[0] + frac[1] + frac[2]) / 3.0;
    return diffuse + w->direct_w_m2 * share * is->cover.kept_frac[now->month];
}

HourAir hour_air_of(const HourState *s, int tunnel)
{
    return s->vents[tunnel].air;
}

void hour_hold_vents(HourState *s, int tunnel, double open_frac)
{
    s->vents[tunnel].held_frac = open_frac;
}

/* By the grower's rule, or as they are held; true: open to dry, not to cool. */
static bool set_vents(const HourFarm *h, const HourState *s, const HourNow *now,
                      int32_t t, TunnelHouse *house)
{
    double held = s->vents[t].held_frac;
    if (!isnan(held)) {
        house->vent_most_frac = held;
        house->vent_at_degc = -INFINITY;
        return true;
    }
    VentHour hour = {.month = now->month,
                     .hour = now->hour,
                     .night_degc = h->model->days[now->day].min_degc,
                     .outside_degc = now->weather->outside_degc,
                     .wind_m_s = now->weather->wind_m_s,
                     .was_open = s->vents[t].was_open};
    return vent_rule_set(&h->model->tunnels[t].rule, &hour, house);
}

static void note_tunnel(HourState *s, int32_t t, const TunnelFlows *flows)
{
    HourTunnelDay *to = &s->tunnel_day[t];
    double air = s->tunnels[t].air_degc;
    to->air_degc += air / DAY_H;
    to->air_least_degc = lesser(to->air_least_degc, air);
    to->air_most_degc = greater(to->air_most_degc, air);
    to->heater_kwh += flows->heater_w / 1000.0;
    double mj = HOUR_S / 1e6;
    HourLedger *l = &s->ledger;
    /* What tanks gave was booked when they gave it. */
    double in = flows->sun_w + flows->heater_w;
    double out = flows->latent_w + flows->cover_w + flows->air_w +
                 flows->sky_w + flows->rim_w + flows->beds_w;
    l->in[LEDGER_HEAT_MJ] += in * mj;
    l->out[LEDGER_HEAT_MJ] += out * mj;
}

/* The air's moisture after its heat: the vapour is what the heat paid for. What
 * condenses gives its heat back in the next hour, as tanks do. */
static DampFlows damp_of_tunnel(const TunnelHouse *house, const TunnelHour *now,
                                const TunnelFlows *flows, double beds_m2,
                                int32_t t, HourState *s)
{
    double leaf_m2 = tunnel_leaf_m2(house, now->leaf_frac, beds_m2);
    DampHour hour = {.step_s = HOUR_S,
                     .outside_degc = now->outside_degc,
                     .outside_kpa = now->vapour_kpa,
                     .wind_m_s = now->wind_m_s,
                     .air_degc = s->tunnels[t].air_degc,
                     .vent_m3_s = flows->vent_m3_s,
                     .given_kg_s = damp_kg_s_of_w(flows->latent_w),
                     .leaf_m3_s =
                         now->sun_w_m2 > 0.0 ? 0.0 : damp_leaf_m3_s(leaf_m2)};
    DampFlows damp = damp_step(house, &hour, &s->held_g_m3[t]);
    s->tanks_w[t] += damp.back_w;
    hour_put(&s->ledger, LEDGER_HEAT_MJ, damp.back_w * HOUR_S / 1e6);
    s->tunnel_day[t].rh_frac += damp.rh_frac / DAY_H;
    s->tunnel_day[t].wet_h += damp.is_leaf_wet ? 1.0 : 0.0;
    return damp;
}

static void air_of_tunnel(const HourFarm *h, HourState *s, const HourNow *now,
                          int32_t t)
{
    const ModelTunnel *is = &h->model->tunnels[t];
    const HourWeather *w = now->weather;
    TunnelHouse house = is->house;
    house.heater_w = is->heater_w[now->month];
    bool is_aired = set_vents(h, s, now, t, &house);
    TunnelNow *sun = &s->tunnel_now[t];
    double mean = 0.0;
    for (int row = 0; row < CLIMATE_ROWS; row++) {
        double w_m2 = hour_light_w_m2(h, now, t, row);
        sun->sun_j_m2[row] += w_m2 * HOUR_S;
        mean += w_m2 / CLIMATE_ROWS;
    }
    sun->sun_j_m2[CLIMATE_ROWS] += mean * HOUR_S;
    TunnelHour hour = {.step_s = HOUR_S,
                       .outside_degc = w->outside_degc,
                       .vapour_kpa = w->vapour_kpa,
                       .wind_m_s = w->wind_m_s,
                       .clear_frac = w->clear_frac,
                       .sun_w_m2 = mean,
                       .leaf_frac = h->model->common->tunnel_leaf_frac.value,
                       .tanks_w = s->tanks_w[t],
                       .film_is_dry = !s->vents[t].air.is_film_wet};
    TunnelBeds beds = {s->beds + is->first_bed, is->bed_count};
    TunnelFlows flows = tunnel_step(&house, &hour, &beds, &s->tunnels[t]);
    s->tanks_w[t] = 0.0;
    double air_degc = s->tunnels[t].air_degc;
    bool is_fleeced = vent_rule_fleeced(&is->rule, now->month, air_degc);
    sun->sum_degc += air_degc;
    double crop_degc = air_degc + (is_fleeced ? is->rule.fleece_over_k : 0.0);
    sun->least_degc = lesser(sun->least_degc, crop_degc);
    s->tunnel_day[t].crop_least_degc =
        lesser(s->tunnel_day[t].crop_least_degc, crop_degc);
    sun->most_degc = greater(sun->most_degc, air_degc);
    note_tunnel(s, t, &flows);
    DampFlows damp = damp_of_tunnel(&house, &hour, &flows, is->beds_m2, t, s);
    s->vents[t].was_open = flows.vent_m3_s > 0.0 && !is_aired;
    s->vents[t].air = (HourAir){.air_degc = air_degc,
                                .rh_frac = damp.rh_frac,
                                .vent_frac = flows.vent_frac,
                                .vent_m3_s = flows.vent_m3_s,
                                .is_leaf_wet = damp.is_leaf_wet,
                                .is_film_wet = damp.is_film_wet,
                                .is_fleeced = is_fleeced};
    /* The beds' plants and wet stones drink by their share of the beds. */
    double vapour_m3_h = (damp_kg_s_of_w(flows.latent_w) + damp.leaf_kg_s) *
                         HOUR_S / WATER_KG_M3;
    for (int i = 0; i < is->bed_count && is->beds_m2 > 0.0; i++) {
        int v = h->surfaces[is->first_bed + i].vessel;
        if (v >= 0) {
            s->vapour_m3_h[v] +=
                vapour_m3_h * beds.beds[i].area_m2 / is->beds_m2;
        }
    }
}

static void air_of_open_beds(const HourFarm *h, HourState *s,
                             const HourNow *now)
{
    const HourWeather *w = now->weather;
    TunnelNow *open = &s->tunnel_now[h->farm->tunnels_count];
    open->sum_degc += w->outside_degc;
    open->least_degc = lesser(open->least_degc, w->outside_degc);
    open->most_degc = greater(open->most_degc, w->outside_degc);
    open->sun_j_m2[CLIMATE_ROWS] += (w->direct_w_m2 + w->diffuse_w_m2) * HOUR_S;
    SkyHour sky = {w->outside_degc, w->vapour_kpa, w->clear_frac};
    double bare = 1.0 - h->model->common->tunnel_leaf_frac.value;
    double sky_w_m2 = air_sky_loss_mj_m2_h(&sky) * 1e6 / HOUR_S;
    for (int i = h->model->open_first; i < h->model->bed_count; i++) {
        TunnelBed *bed = &s->beds[i];
        bool is_wet = h->surfaces[i].vessel >= 0;
        double by_w_k = OPEN_W_M2_K * bed->area_m2;
        double net_w = bare * bed->area_m2 *
                       (OPEN_ABSORBED_FRAC * bed->light_frac *
                            (w->direct_w_m2 + w->diffuse_w_m2) -
                        sky_w_m2);
        double rate = bed->heat_j_k / HOUR_S;
        double at = is_wet ? bed->water_degc : bed->gravel_degc;
        at = (rate * at + by_w_k * w->outside_degc + net_w) / (rate + by_w_k);
        bed->to_bed_w = by_w_k * (w->outside_degc - at) + net_w;
        if (!is_wet) {
            bed->gravel_degc = at;
        }
    }
}

/* Beds get the temperature of their zone's water and gravel; a zone that rests
 * gives no vapour from its stones. */
static void show_beds(const HourFarm *h, HourState *s)
{
    for (int i = 0; i < h->model->bed_count; i++) {
        int v = h->surfaces[i].vessel;
        if (v < 0) {
            continue;
        }
        const Pattern *p = &h->patterns[s->pattern[h->vessel_body[v]]];
        int j = v - h->bodies[h->vessel_body[v]].first;
        TunnelBed *bed = &s->beds[i];
        bed->is_flooded = p->in_m3_h[j] > 0.0;
        bed->water_degc = bed->gravel_degc = s->degc[v];
        double share = bed->area_m2 / h->vessels[v].bed_m2;
        bed->heat_j_k = HEAT_WATER_J_M3_K * share *
                        (s->volume_m3[v] + h->vessels[v].gravel_m3);
    }
}

void hour_air(const HourFarm *h, HourState *s, const HourNow *now)
{
    for (int v = 0; v < h->vessel_count; v++) {
        s->vapour_m3_h[v] = 0.0;
        s->heat_w[v] = 0.0;
    }
    show_beds(h, s);
    for (int32_t t = 0; t < h->farm->tunnels_count; t++) {
        air_of_tunnel(h, s, now, t);
    }
    air_of_open_beds(h, s, now);
    for (int i = 0; i < h->model->bed_count; i++) {
        int v = h->surfaces[i].vessel;
        double to_w = s->beds[i].to_bed_w;
        if (v >= 0) {
            s->heat_w[v] += to_w;
        } else { /* gravel that never floods */
            double mj = HOUR_S / 1e6;
            s->ledger.in[LEDGER_HEAT_MJ] += greater(to_w, 0.0) * mj;
            s->ledger.out[LEDGER_HEAT_MJ] += greater(-to_w, 0.0) * mj;
        }
    }
    for (int v = 0; v < h->vessel_count; v++) {
        int32_t t = h->vessels[v].tunnel;
        s->ambient_degc[v] =
            t >= 0 ? s->tunnels[t].air_degc : now->weather->outside_degc;
        double warmer = greater(0.0, s->degc[v] - s->ambient_degc[v]);
        s->vapour_m3_h[v] +=
            h->vessels[v].vapour_m3_wh * h->vessels[v].loss_w_k * warmer;
    }
}
