/* Ways out of a tank or bed. */
#include "nature/flow/outlet.h"

#include <math.h>

static const double GRAVITY = 9.80665;
static const double PI = 3.14159265358979323846;
static const double SHARP = 0.6; /* discharge of a sharp edge */
static const double S_H = 3600.0;

static double area_m2(double bore_mm)
{
    double d = bore_mm / 1000.0;
    return PI * d * d / 4.0;
}

double flow_orifice_m3_h(double bore_mm, double head_m)
{
    return S_H * SHARP * area_m2(bore_mm) *
           sqrt(2.0 * GRAVITY * fmax(0.0, head_m));
}

double flow_weir_m3_h(double width_m, double head_m)
{
    return S_H * SHARP * 2.0 / 3.0 * sqrt(2.0 * GRAVITY) * width_m *
           pow(fmax(0.0, head_m), 1.5);
}

double flow_standpipe_m3_h(double bore_mm, double head_m)
{
    return fmin(flow_weir_m3_h(PI * bore_mm / 1000.0, head_m),
                flow_orifice_m3_h(bore_mm, head_m));
}

double flow_standpipe_head_m(double bore_mm, double flow_m3_h)
{
    double low = 0.0;
    double high = 0.01;
    while (flow_standpipe_m3_h(bore_mm, high) < flow_m3_h && high < 1e3) {
        high *= 2.0;
    }
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2.0;
        if (flow_standpipe_m3_h(bore_mm, middle) < flow_m3_h) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return high;
}

double flow_siphon_m3_h(const Siphon *siphon)
{
    double resistance =
        1.0 + siphon->loss +
        siphon->friction * siphon->length_m / (siphon->bore_mm / 1000.0);
    return S_H * area_m2(siphon->bore_mm) *
           sqrt(2.0 * GRAVITY * fmax(0.0, siphon->drop_m) / resistance);
}

SiphonState flow_siphon_state(const Siphon *siphon, double inflow_m3_h)
{
    double full_m3_h = flow_siphon_m3_h(siphon);
    if (inflow_m3_h >= full_m3_h) {
        return SIPHON_STUCK;
    }
    return inflow_m3_h < siphon->start_frac * full_m3_h ? SIPHON_TRICKLES
                                                        : SIPHON_WORKS;
}
