/* Water in pipes and gravel: head lost, and what a pump draws. */
#ifndef LEAT_NATURE_FLOW_PIPE_H
#define LEAT_NATURE_FLOW_PIPE_H

typedef struct Pipe {
    double flow_m3_h;
    double bore_mm; /* inside diameter */
    double length_m;
    double roughness_mm; /* Darcy; plastic 0.0015 */
    double hazen_c;      /* Hazen-Williams; plastic 150, old steel 100 */
    double temp_degc;    /* of the water, Darcy */
} Pipe;

/* Head lost by Hazen-Williams, m.
 *
 *     h = 10.67 L Q^1.852 / (C^1.852 d^4.8704),  Q m3/s, d m
 *
 * Source: [EPANET2] in SI units. Meant for 5-25 degC and turbulent flow. */
double flow_head_hazen_m(const Pipe *pipe);

/* Head lost by Darcy-Weisbach, m: h = f L/d v^2/(2 g). */
double flow_head_darcy_m(const Pipe *pipe);

double flow_velocity_m_s(const Pipe *pipe);
double flow_reynolds(const Pipe *pipe);

/* Darcy's friction factor.
 *
 *     below Re 2000: 64/Re
 *     above 4000: 1/sqrt f = -2 log(rel/3.7 + 2.51/(Re sqrt f))
 *     between, straight from one to the other
 *
 * reynolds above 0; relative_roughness roughness over bore, 0..0.05
 * Source: [COLEBROOK1939], solved by iteration. */
double flow_friction(double reynolds, double relative_roughness);

/* Viscosity of water, Pa s, 0..40 degC.
 *
 *     mu = 2.414e-5 10^(247.8/(T - 140)),  T in K
 *
 * Source: [VOGEL1921] with constants for water from memory; within 2.5 %. */
double flow_viscosity_pa_s(double temp_degc);

/* Power a pump draws, W: P = rho g Q H / eta. efficiency_frac above 0. */
double flow_pump_w(double flow_m3_h, double head_m, double efficiency_frac);

typedef struct Grain {
    double stone_mm;
    double porosity_frac;
    double velocity_m_s; /* of the whole section */
    double density_kg_m3;
    double viscosity_pa_s;
} Grain;

/* Pressure lost in gravel, Pa per m.
 *
 *     dP/L = 150 mu (1-n)^2 v/(n^3 d^2) + 1.75 (1-n) rho v^2/(n^3 d)
 *
 * Source: [ERGUN1952]. */
double flow_gravel_pa_m(const Grain *grain);

#endif
