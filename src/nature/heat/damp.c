/* The tunnel's moisture, solved at the end of the step. */
#include "nature/heat/damp.h"

#include <assert.h>
#include <math.h>

#include "base/extremes.h"
#include "nature/air/vapour.h"
#include "nature/heat/exchange.h"

/* The coefficients of the header. */
static const double LATENT_J_KG = 2.45e6;
static const double FILM_W_M2_K = 8.0;
static const double FILM_M_S = 1.8e-3;
static const double LEAF_WET_RH_FRAC = 0.90;
static const double G_KG = 1000.0;
static const double LEAF_LAYERS = 2.0;
static const double LEAF_S_M = 1200.0;
static const double HOUR_S = 3600.0;

double damp_residual_kg_s(const DampFlows *flows)
{
    return flows->given_kg_s + flows->leaf_kg_s - flows->air_kg_s -
           flows->film_kg_s - flows->fog_kg_s - flows->stored_kg_s;
}

double damp_kg_s_of_w(double latent_w)
{
    return latent_w / LATENT_J_KG;
}

static double saturated_g_m3(double temp_degc)
{
    return air_absolute_humidity_g_m3(air_saturation_kpa(temp_degc), temp_degc);
}

double damp_of_humidity_g_m3(double air_degc, double rh_frac)
{
    return rh_frac * saturated_g_m3(air_degc);
}

double damp_film_degc(double cover_w_m2_k, double air_degc, double outside_degc)
{
    double share = lesser(cover_w_m2_k / FILM_W_M2_K, 1.0);
    return air_degc - share * (air_degc - outside_degc);
}

double damp_back_frac(double cover_w_m2_k)
{
    return greater(1.0 - cover_w_m2_k / FILM_W_M2_K, 0.0);
}

double damp_leaf_m3_s(double leaf_m2)
{
    return LEAF_LAYERS * leaf_m2 / LEAF_S_M;
}

static double within(double temp_degc)
{
    return lesser(greater(temp_degc, -30.0), 60.0);
}

DampFlows damp_step(const TunnelHouse *house, const DampHour *hour,
                    double *held_g_m3)
{
    assert(hour->step_s > 0.0 && house->volume_m3 > 0.0);
    assert(hour->given_kg_s >= 0.0 && hour->vent_m3_s >= 0.0);
    double air_degc = within(hour->air_degc);
    double outside_degc = within(hour->outside_degc);
    double loss_w_m2_k =
        heat_cover_loss_at_w_m2_k(house->cover_w_m2_k, hour->wind_m_s);
    double film_degc = damp_film_degc(loss_w_m2_k, air_degc, outside_degc);
    double outside_g_m3 =
        air_absolute_humidity_g_m3(hour->outside_kpa, outside_degc);
    double most_g_m3 = saturated_g_m3(air_degc);
    double film_g_m3 = saturated_g_m3(film_degc);
    double rate = house->volume_m3 / hour->step_s;
    double through_m3_s =
        house->volume_m3 * heat_leak_changes_h(hour->wind_m_s) / HOUR_S +
        hour->vent_m3_s;
    double before = rate * *held_g_m3 + G_KG * hour->given_kg_s +
                    through_m3_s * outside_g_m3 + hour->leaf_m3_s * most_g_m3;
    double out_m3_s = rate + through_m3_s + hour->leaf_m3_s;
    double held = before / out_m3_s;
    double to_film = 0.0;
    if (held > film_g_m3 && air_degc > film_degc) {
        to_film = FILM_M_S * cbrt(air_degc - film_degc) * house->cover_m2;
        held = (before + to_film * film_g_m3) / (out_m3_s + to_film);
    }
    DampFlows flows = {.given_kg_s = hour->given_kg_s, .film_degc = film_degc};
    held = lesser(held, most_g_m3);
    flows.leaf_kg_s = hour->leaf_m3_s * (most_g_m3 - held) / G_KG;
    flows.air_kg_s = through_m3_s * (held - outside_g_m3) / G_KG;
    flows.film_kg_s = to_film * greater(held - film_g_m3, 0.0) / G_KG;
    flows.stored_kg_s = rate * (held - *held_g_m3) / G_KG;
    double rest_kg_s = damp_residual_kg_s(&flows);
    /* Only air that is full has something left over but rounding. */
    bool is_fog = held >= most_g_m3 && rest_kg_s > 0.0;
    flows.fog_kg_s = is_fog ? rest_kg_s : 0.0;
    flows.back_w =
        LATENT_J_KG * (damp_back_frac(loss_w_m2_k) * flows.film_kg_s +
                       flows.fog_kg_s - flows.leaf_kg_s);
    flows.rh_frac = held / most_g_m3;
    flows.is_film_wet = flows.film_kg_s > 0.0 || is_fog;
    flows.is_leaf_wet = flows.rh_frac >= LEAF_WET_RH_FRAC;
    *held_g_m3 = held;
    return flows;
}
