/* The tunnel's heat balance, solved at the end of the step. */
#include "nature/heat/tunnel.h"

#include <assert.h>
#include <math.h>

#include "base/extremes.h"
#include "nature/air/evapo.h"
#include "nature/air/vapour.h"
#include "nature/heat/exchange.h"

/* The coefficients of the equations in the header. */
static const double SURFACE_W_M2_K = 5.5;
static const double GROUND_J_M2_K = 0.15 * 2.2e6;
static const double DEEP_J_M2_K = 1.0 * 2.2e6;
static const double GROUND_DEEP_W_M2_K = 2.0;
static const double DEEP_UNDER_W_M2_K = 0.3;
static const double RIM_W_M_K = 1.38;
static const double AIR_J_M2_K = 15e3;
static const double ABSORBED_FRAC = 0.85;
static const double GRAVEL_VAPOUR_W_M2_KPA = 3.0;
static const double LEAF_SPREAD = 1.2;
static const double WET_FILM_FRAC = 0.5;
static const double VENT_DISCHARGE = 0.65;
static const double VENT_WIND_EFFECT = 0.10;

TunnelHouse tunnel_house_of(double length_m, double width_m, double height_m)
{
    const double pi = acos(-1.0);
    double a = width_m / 2.0, h = height_m;
    double round_m =
        pi / 2.0 * (3.0 * (a + h) - sqrt((3.0 * a + h) * (a + 3.0 * h)));
    double end_m2 = pi * a * h / 2.0;
    return (TunnelHouse){
        .floor_m2 = length_m * width_m,
        .ground_m2 = length_m * width_m,
        .cover_m2 = round_m * length_m + 2.0 * end_m2,
        .volume_m3 = end_m2 * length_m,
        .rim_m = 2.0 * (length_m + width_m),
        .vent_most_frac = 1.0,
    };
}

double tunnel_flows_residual_w(const TunnelFlows *flows)
{
    return flows->sun_w + flows->heater_w + flows->tanks_w - flows->latent_w -
           flows->cover_w - flows->air_w - flows->sky_w - flows->rim_w -
           flows->beds_w - flows->stored_w;
}

double tunnel_held_j(const TunnelHouse *house, const TunnelState *state)
{
    return AIR_J_M2_K * house->floor_m2 * state->air_degc +
           house->ground_m2 * (GROUND_J_M2_K * state->ground_degc +
                               DEEP_J_M2_K * state->deep_degc);
}

/* T = constant + slope Ta at the end of the step. */
typedef struct Line {
    double constant;
    double slope;
} Line;

typedef struct Balance {
    Line ground;
    Line deep;       /* by Tg */
    double free_w;   /* what the air gains whatever its temperature */
    double pull_w_k; /* what it loses by each degree, all but vents */
} Balance;

static void add_ground(const TunnelHouse *house, const TunnelHour *hour,
                       const TunnelState *state, double net_w, Balance *sum)
{
    double area = house->ground_m2;
    double rate_deep = DEEP_J_M2_K * area / hour->step_s;
    double rate_ground = GROUND_J_M2_K * area / hour->step_s;
    double down = GROUND_DEEP_W_M2_K * area;
    double under = DEEP_UNDER_W_M2_K * area;
    double rim = RIM_W_M_K * house->rim_m;
    /* The top has no mass: what it gets it shares between air and layer. */
    double both = SURFACE_W_M2_K + house->ground_w_m2_k;
    double surface = area * SURFACE_W_M2_K * house->ground_w_m2_k / both;
    double into_w = net_w * house->ground_w_m2_k / both;
    if (area <= 0.0) {
        sum->ground = (Line){state->ground_degc, 0.0};
        sum->deep = (Line){state->deep_degc, 0.0};
        return;
    }
    double deep_by = rate_deep + down + under + rim;
    sum->deep = (Line){(rate_deep * state->deep_degc +
                        under * house->deep_degc + rim * hour->outside_degc) /
                           deep_by,
                       down / deep_by};
    double ground_by = rate_ground + surface + down * (1.0 - sum->deep.slope);
    sum->ground = (Line){(rate_ground * state->ground_degc + into_w +
                          down * sum->deep.constant) /
                             ground_by,
                         surface / ground_by};
    sum->free_w += surface * sum->ground.constant + net_w - into_w;
    sum->pull_w_k += surface * (1.0 - sum->ground.slope);
}

static Line bed_line(const TunnelBed *bed, double step_s, double net_w)
{
    if (bed->is_flooded) {
        return (Line){bed->water_degc, 0.0};
    }
    double rate = bed->heat_j_k / step_s;
    double surface = SURFACE_W_M2_K * bed->area_m2;
    double by = rate + surface;
    return (Line){(rate * bed->gravel_degc + net_w) / by, surface / by};
}

/* Through all openings as far as they may open, W/K. */
static double vent_w_k(const TunnelHouse *house, const TunnelHour *hour,
                       double air_degc, double *out_m3_s)
{
    bool has_low = house->vent_m2 > 0.0;
    bool has_both = has_low && house->ridge_m2 > 0.0;
    VentSet vent = {.area_m2 = has_low ? house->vent_m2 : house->ridge_m2,
                    .height_m = house->vent_height_m,
                    .outside_degc = hour->outside_degc,
                    .excess_k = air_degc - hour->outside_degc,
                    .wind_m_s = hour->wind_m_s,
                    .discharge = VENT_DISCHARGE,
                    .wind_effect = VENT_WIND_EFFECT};
    double m3_s;
    if (has_both) {
        vent.area_m2 = house->ridge_m2;
        vent.height_m = house->ridge_over_m;
        m3_s = heat_vent_two_m3_s(&vent, house->vent_m2);
    } else {
        m3_s = heat_vent_m3_s(&vent);
    }
    *out_m3_s = house->vent_most_frac * house->vent_pass_frac * m3_s;
    return heat_air_w_k(3600.0 * *out_m3_s);
}

/* Air with the vents as far open as they may be. More is drawn the hotter it is
 * inside, with the root of the excess: Newton's step with a slope between those
 * of wind and of chimney. */
static double wide_degc(const TunnelHouse *house, const TunnelHour *hour,
                        const Balance *sum, double from_degc,
                        TunnelFlows *flows)
{
    double outside = hour->outside_degc;
    double flow_m3_s = 0.0;
    double air = from_degc;
    for (int round = 0; round < 6; round++) {
        double full = vent_w_k(house, hour, air, &flow_m3_s);
        double gain =
            sum->free_w - sum->pull_w_k * air - full * (air - outside);
        air += gain / (sum->pull_w_k + 1.25 * full);
    }
    double full = vent_w_k(house, hour, air, &flow_m3_s);
    flows->vent_m3_s = flow_m3_s;
    flows->vent_frac = house->vent_most_frac;
    return (sum->free_w + full * outside) / (sum->pull_w_k + full);
}

/* The air's temperature with vents as the grower would set them. */
static double vented_degc(const TunnelHouse *house, const TunnelHour *hour,
                          const Balance *sum, TunnelFlows *flows)
{
    double outside = hour->outside_degc;
    double closed = sum->free_w / sum->pull_w_k;
    if (house->vent_m2 + house->ridge_m2 <= 0.0 ||
        house->vent_most_frac <= 0.0) {
        return closed;
    }
    if (isinf(house->vent_at_degc)) {
        return wide_degc(house, hour, sum, closed, flows);
    }
    if (closed <= house->vent_at_degc || closed <= outside) {
        return closed;
    }
    double low = greater(outside, house->vent_at_degc);
    if (low > outside) {
        double flow_m3_s = 0.0;
        double full = vent_w_k(house, hour, low, &flow_m3_s);
        double need = (sum->free_w - sum->pull_w_k * low) / (low - outside);
        if (need <= full) {
            flows->vent_m3_s = flow_m3_s * need / full;
            flows->vent_frac = house->vent_most_frac * need / full;
            return low;
        }
    }
    return wide_degc(house, hour, sum, low, flows);
}

/* What lies below the sun: leaves, bare parts of beds, bare ground. */
typedef struct Floor {
    double leaf_m2;
    double ground_m2;
} Floor;

double tunnel_leaf_m2(const TunnelHouse *house, double leaf_frac,
                      double beds_m2)
{
    return lesser(LEAF_SPREAD * leaf_frac * beds_m2, house->floor_m2);
}

static Floor floor_of(const TunnelHouse *house, const TunnelHour *hour,
                      const TunnelBeds *beds)
{
    double beds_m2 = 0.0;
    for (int i = 0; i < beds->count; i++) {
        beds_m2 += beds->beds[i].area_m2;
    }
    double leaf_m2 = tunnel_leaf_m2(house, hour->leaf_frac, beds_m2);
    double bare_m2 =
        house->floor_m2 - leaf_m2 - (1.0 - hour->leaf_frac) * beds_m2;
    return (Floor){leaf_m2,
                   house->ground_m2 > 0.0 ? greater(bare_m2, 0.0) : 0.0};
}

/* Vapour from below the dry stones of a flooded bed. */
static double bed_vapour_w(const TunnelHour *hour, const TunnelBed *bed)
{
    if (!bed->is_flooded) {
        return 0.0;
    }
    double water_degc = lesser(greater(bed->water_degc, 0.0), 50.0);
    double lack_kpa = air_saturation_kpa(water_degc) - hour->vapour_kpa;
    return GRAVEL_VAPOUR_W_M2_KPA * greater(lack_kpa, 0.0) * bed->area_m2;
}

/* Sun less sky of a bed's bare part. */
static double on_bed_w(const TunnelHour *hour, const TunnelBed *bed,
                       double net_w_m2)
{
    return net_w_m2 * (1.0 - hour->leaf_frac) * bed->area_m2 * bed->light_frac;
}

/* Dry and flooded beds pull on the air; their sun is taken from the air's. */
static void add_beds(const TunnelHour *hour, const TunnelBeds *beds,
                     double net_w_m2, Balance *sum)
{
    for (int i = 0; i < beds->count; i++) {
        const TunnelBed *bed = &beds->beds[i];
        double bed_w = on_bed_w(hour, bed, net_w_m2);
        Line line = bed_line(bed, hour->step_s, bed_w);
        double surface = SURFACE_W_M2_K * bed->area_m2;
        sum->free_w += surface * line.constant - bed_w;
        sum->pull_w_k += surface * (1.0 - line.slope);
    }
}

/* What the beds took, once the air is known. */
static double settle_beds(const TunnelHour *hour, const TunnelBeds *beds,
                          double net_w_m2, double air_degc)
{
    double taken_w = 0.0;
    for (int i = 0; i < beds->count; i++) {
        TunnelBed *bed = &beds->beds[i];
        bed->vapour_w = bed_vapour_w(hour, bed);
        double bed_w = on_bed_w(hour, bed, net_w_m2);
        Line line = bed_line(bed, hour->step_s, bed_w);
        double bed_degc = line.constant + line.slope * air_degc;
        bed->to_bed_w = SURFACE_W_M2_K * bed->area_m2 * (air_degc - bed_degc) +
                        bed_w - bed->vapour_w;
        taken_w += bed->to_bed_w;
        if (!bed->is_flooded) {
            bed->gravel_degc = bed_degc;
        }
    }
    return taken_w;
}

/* What comes from outside whatever the air's temperature. */
static TunnelFlows given_flows(const TunnelHouse *house, const TunnelHour *hour,
                               const Floor *floor, const TunnelState *state)
{
    TunnelFlows flows = {.sun_w =
                             ABSORBED_FRAC * hour->sun_w_m2 * house->floor_m2,
                         .tanks_w = hour->tanks_w};
    if (flows.sun_w > 0.0) {
        double leaf_degc = lesser(greater(state->air_degc, -30.0), 60.0);
        flows.latent_w = flows.sun_w * floor->leaf_m2 / house->floor_m2 *
                         air_equilibrium_frac(leaf_degc, house->pressure_kpa);
    }
    SkyHour sky = {.temp_degc = hour->outside_degc,
                   .vapour_kpa = hour->vapour_kpa,
                   .clear_frac = hour->clear_frac};
    double film_frac = hour->film_is_dry ? 1.0 : WET_FILM_FRAC;
    flows.sky_w = house->sky_frac * film_frac * house->floor_m2 * 1e6 / 3600.0 *
                  air_sky_loss_mj_m2_h(&sky);
    return flows;
}

TunnelFlows tunnel_step(const TunnelHouse *house, const TunnelHour *hour,
                        const TunnelBeds *beds, TunnelState *state)
{
    assert(hour->step_s > 0.0 && house->floor_m2 > 0.0);
    Floor floor = floor_of(house, hour, beds);
    TunnelFlows flows = given_flows(house, hour, &floor, state);
    double leaf_vapour_w = flows.latent_w;
    double air_rate = AIR_J_M2_K * house->floor_m2 / hour->step_s;
    double cover_w_k =
        house->cover_m2 *
        heat_cover_loss_at_w_m2_k(house->cover_w_m2_k, hour->wind_m_s);
    double leak_w_k =
        heat_air_w_k(house->volume_m3 * heat_leak_changes_h(hour->wind_m_s));
    double net_w = flows.sun_w - flows.sky_w;
    double net_w_m2 = net_w / house->floor_m2;
    double ground_w = net_w_m2 * floor.ground_m2;
    Balance sum = {.free_w = air_rate * state->air_degc +
                             (cover_w_k + leak_w_k) * hour->outside_degc +
                             net_w - ground_w - leaf_vapour_w + flows.tanks_w,
                   .pull_w_k = air_rate + cover_w_k + leak_w_k};
    add_ground(house, hour, state, ground_w, &sum);
    add_beds(hour, beds, net_w_m2, &sum);
    double air = vented_degc(house, hour, &sum, &flows);
    if (air < house->heater_at_degc && house->heater_w > 0.0) {
        double need_w = sum.pull_w_k * house->heater_at_degc - sum.free_w;
        flows.heater_w = lesser(need_w, house->heater_w);
        air = (sum.free_w + flows.heater_w) / sum.pull_w_k;
    }
    double ground = sum.ground.constant + sum.ground.slope * air;
    double deep = sum.deep.constant + sum.deep.slope * ground;
    double area = house->ground_m2;
    double over_k = air - hour->outside_degc;
    flows.beds_w = settle_beds(hour, beds, net_w_m2, air);
    for (int i = 0; i < beds->count; i++) {
        flows.latent_w += beds->beds[i].vapour_w;
    }
    flows.cover_w = cover_w_k * over_k;
    flows.air_w = (leak_w_k + heat_air_w_k(3600.0 * flows.vent_m3_s)) * over_k;
    flows.rim_w =
        area <= 0.0 ? 0.0
                    : RIM_W_M_K * house->rim_m * (deep - hour->outside_degc) +
                          DEEP_UNDER_W_M2_K * area * (deep - house->deep_degc);
    double ground_j = GROUND_J_M2_K * (ground - state->ground_degc) +
                      DEEP_J_M2_K * (deep - state->deep_degc);
    flows.stored_w =
        air_rate * (air - state->air_degc) + area * ground_j / hour->step_s;
    *state = (TunnelState){air, ground, deep};
    return flows;
}
