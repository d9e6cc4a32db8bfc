/* The heat of water that is mixed by its pumps, from one step to the next. */
#ifndef LEAT_NATURE_HEAT_WATER_H
#define LEAT_NATURE_HEAT_WATER_H

/* J/m3/K of water and of dry gravel's stone. */
#define HEAT_WATER_J_M3_K 4.186e6
/* Stone 2.1e6 J/m3/K (2650 kg/m3 x 800 J/kg/K), of the share that is stone. */
double heat_gravel_j_k(double volume_m3, double porosity_frac);

enum { WATER_HEATERS_MAX = 8 };

typedef struct WaterHeater {
    double power_w;
    double target_degc; /* on below this */
    double given_w;     /* set: mean over the step */
} WaterHeater;

typedef struct WaterBody {
    double heat_j_k; /* water and what has its temperature; over 0 */
    double loss_w_k; /* to ambient_degc */
    double ambient_degc;
    double make_up_m3_h; /* fresh water that replaces as much */
    double make_up_degc;
    double steady_w; /* pumps, sun, beds: whatever its temperature */
    WaterHeater heaters[WATER_HEATERS_MAX];
    int heater_count;
} WaterBody;

typedef struct WaterFlows {
    double steady_w;  /* in */
    double heater_w;  /* in */
    double loss_w;    /* out */
    double make_up_w; /* out */
    double stored_w;
} WaterFlows;

double water_flows_residual_w(const WaterFlows *flows);

/* Solved exactly for what is constant through the step:
 *     C dT/dt = Q - K (T - Te),  K = U + rho c m,
 *     T(t) = Tq + (T0 - Tq) exp(-K t/C),  Tq = Te + Q/K
 * so any step is stable. A heater whose target the water would end below gives
 * what brings it there, at most its power; heaters by target, the lowest first.
 * Sets temp_degc to that at the step's end. */
WaterFlows water_heat_step(WaterBody *body, double step_s, double *temp_degc);

/* Time constant of water cooling through its surface, h:
 * rho c depth / (3600 h). */
double water_time_constant_h(double depth_m, double loss_w_m2_k);

#endif
