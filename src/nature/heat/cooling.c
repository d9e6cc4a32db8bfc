/* How long a body of water takes to cool. */
#include "nature/heat/cooling.h"

#include <math.h>

static const double S_PER_H = 3600.0;
static const double NOTHING_W_K = 1e-9;

double heat_cooling_h(const Cooling *cooling, double limit_degc)
{
    if (cooling->start_degc <= limit_degc) {
        return 0.0;
    }
    if (cooling->loss_w_k < NOTHING_W_K) {
        return INFINITY;
    }
    double end = cooling->air_degc + cooling->steady_w / cooling->loss_w_k;
    if (end >= limit_degc) {
        return INFINITY;
    }
    return cooling->heat_j_k / cooling->loss_w_k / S_PER_H *
           log((cooling->start_degc - end) / (limit_degc - end));
}

double heat_cooled_degc(const Cooling *cooling, double hours)
{
    if (cooling->loss_w_k < NOTHING_W_K) {
        return cooling->start_degc +
               cooling->steady_w * hours * S_PER_H / cooling->heat_j_k;
    }
    double end = cooling->air_degc + cooling->steady_w / cooling->loss_w_k;
    return end + (cooling->start_degc - end) * exp(-cooling->loss_w_k * hours *
                                                   S_PER_H / cooling->heat_j_k);
}
