/* Head lost in pipes and gravel; pump power. */
#include "nature/flow/pipe.h"

#include <assert.h>
#include <math.h>

static const double GRAVITY = 9.80665;
static const double PI = 3.14159265358979323846;
static const double WATER_KG_M3 = 998.0;
static const double KELVIN = 273.15;

static double m_from_mm(double mm)
{
    return mm / 1000.0;
}

static double m3_s_from_m3_h(double m3_h)
{
    return m3_h / 3600.0;
}

double flow_head_hazen_m(const Pipe *pipe)
{
    double q = m3_s_from_m3_h(pipe->flow_m3_h);
    return 10.67 * pipe->length_m * pow(q / pipe->hazen_c, 1.852) /
           pow(m_from_mm(pipe->bore_mm), 4.8704);
}

double flow_velocity_m_s(const Pipe *pipe)
{
    double d = m_from_mm(pipe->bore_mm);
    return m3_s_from_m3_h(pipe->flow_m3_h) / (PI * d * d / 4.0);
}

double flow_viscosity_pa_s(double temp_degc)
{
    return 2.414e-5 * pow(10.0, 247.8 / (temp_degc + KELVIN - 140.0));
}

double flow_reynolds(const Pipe *pipe)
{
    return WATER_KG_M3 * flow_velocity_m_s(pipe) * m_from_mm(pipe->bore_mm) /
           flow_viscosity_pa_s(pipe->temp_degc);
}

static double colebrook(double reynolds, double relative_roughness)
{
    double x = 8.0; /* 1/sqrt f, near any answer; converges in a few rounds */
    for (int i = 0; i < 50; i++) {
        x = -2.0 * log10(relative_roughness / 3.7 + 2.51 * x / reynolds);
    }
    return 1.0 / (x * x);
}

double flow_friction(double reynolds, double relative_roughness)
{
    static const double LAMINAR = 2000.0;
    static const double TURBULENT = 4000.0;
    assert(reynolds > 0.0);
    if (reynolds <= LAMINAR) {
        return 64.0 / reynolds;
    }
    if (reynolds >= TURBULENT) {
        return colebrook(reynolds, relative_roughness);
    }
    double part = (reynolds - LAMINAR) / (TURBULENT - LAMINAR);
    return (1.0 - part) * 64.0 / LAMINAR +
           part * colebrook(TURBULENT, relative_roughness);
}

double flow_head_darcy_m(const Pipe *pipe)
{
    if (!(pipe->flow_m3_h > 0.0)) {
        return 0.0;
    }
    double v = flow_velocity_m_s(pipe);
    double f =
        flow_friction(flow_reynolds(pipe), pipe->roughness_mm / pipe->bore_mm);
    return f * pipe->length_m / m_from_mm(pipe->bore_mm) * v * v /
           (2.0 * GRAVITY);
}

double flow_pump_w(double flow_m3_h, double head_m, double efficiency_frac)
{
    assert(efficiency_frac > 0.0);
    return WATER_KG_M3 * GRAVITY * m3_s_from_m3_h(flow_m3_h) * head_m /
           efficiency_frac;
}

double flow_gravel_pa_m(const Grain *grain)
{
    double n = grain->porosity_frac;
    double d = m_from_mm(grain->stone_mm);
    double v = grain->velocity_m_s;
    double solid = 1.0 - n;
    double n3 = n * n * n;
    return 150.0 * grain->viscosity_pa_s * solid * solid * v / (n3 * d * d) +
           1.75 * solid * grain->density_kg_m3 * v * v / (n3 * d);
}
