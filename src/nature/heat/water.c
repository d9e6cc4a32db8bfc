/* Mixed water: one temperature, an exponential step. */
#include "nature/heat/water.h"

#include <assert.h>
#include <math.h>

double heat_gravel_j_k(double volume_m3, double porosity_frac)
{
    return 2.1e6 * volume_m3 * (1.0 - porosity_frac);
}

double water_flows_residual_w(const WaterFlows *flows)
{
    return flows->steady_w + flows->heater_w - flows->loss_w -
           flows->make_up_w - flows->stored_w;
}

double water_time_constant_h(double depth_m, double loss_w_m2_k)
{
    return HEAT_WATER_J_M3_K * depth_m / (loss_w_m2_k * 3600.0);
}

/* The temperature at the end is base + per_w Q for a steady Q. */
typedef struct Ending {
    double base_degc;
    double per_w;
} Ending;

static Ending ending_of(const WaterBody *body, double step_s, double temp_degc,
                        double make_up_w_k)
{
    double pull_w_k = body->loss_w_k + make_up_w_k;
    double x = pull_w_k * step_s / body->heat_j_k;
    /* (1 - exp(-x)) / K, which is t/C for a K of 0. */
    double per_w = x > 1e-9 ? -expm1(-x) / pull_w_k : step_s / body->heat_j_k;
    double toward_w = body->loss_w_k * (body->ambient_degc - temp_degc) +
                      make_up_w_k * (body->make_up_degc - temp_degc);
    return (Ending){temp_degc + per_w * toward_w, per_w};
}

static int lowest_left(const WaterBody *body, unsigned done)
{
    int best = -1;
    for (int i = 0; i < body->heater_count; i++) {
        if (!(done >> i & 1u) &&
            (best < 0 ||
             body->heaters[i].target_degc < body->heaters[best].target_degc)) {
            best = i;
        }
    }
    return best;
}

WaterFlows water_heat_step(WaterBody *body, double step_s, double *temp_degc)
{
    assert(body->heat_j_k > 0.0 && step_s > 0.0);
    assert(body->heater_count <= WATER_HEATERS_MAX);
    double make_up_w_k = body->make_up_m3_h / 3600.0 * HEAT_WATER_J_M3_K;
    Ending ending = ending_of(body, step_s, *temp_degc, make_up_w_k);
    WaterFlows flows = {.steady_w = body->steady_w};
    unsigned done = 0;
    for (int i = lowest_left(body, done); i >= 0; i = lowest_left(body, done)) {
        WaterHeater *heater = &body->heaters[i];
        double end_degc =
            ending.base_degc + ending.per_w * (flows.steady_w + flows.heater_w);
        double need_w = (heater->target_degc - end_degc) / ending.per_w;
        heater->given_w = fmin(fmax(need_w, 0.0), heater->power_w);
        flows.heater_w += heater->given_w;
        done |= 1u << i;
    }
    double end_degc =
        ending.base_degc + ending.per_w * (flows.steady_w + flows.heater_w);
    /* Losses follow from the balance of the exact solution. */
    flows.stored_w = body->heat_j_k * (end_degc - *temp_degc) / step_s;
    double out_w = flows.steady_w + flows.heater_w - flows.stored_w;
    double pull_w_k = body->loss_w_k + make_up_w_k;
    if (pull_w_k > 0.0) {
        /* The step's mean temperature is that at which K (T - Te) = out. */
        double toward = (body->loss_w_k * body->ambient_degc +
                         make_up_w_k * body->make_up_degc) /
                        pull_w_k;
        double mean_degc = toward + out_w / pull_w_k;
        flows.loss_w = body->loss_w_k * (mean_degc - body->ambient_degc);
        flows.make_up_w = make_up_w_k * (mean_degc - body->make_up_degc);
    }
    *temp_degc = end_degc;
    return flows;
}
