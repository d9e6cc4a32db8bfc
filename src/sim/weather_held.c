/* A normal value held within bounds. */
#include "sim/weather_held.h"

#include <math.h>

static double share_below(double x)
{
    return erfc(-x / sqrt(2.0)) / 2.0;
}

static double density(double x)
{
    return exp(-x * x / 2.0) / sqrt(2.0 * acos(-1.0));
}

double held_mean(const HeldNormal *value)
{
    if (value->sd <= 0.0) {
        return fmin(fmax(value->at, value->low), value->high);
    }
    double a = (value->low - value->at) / value->sd;
    double below = share_below(a);
    double mean =
        value->low * below + value->at * (1.0 - below) + value->sd * density(a);
    if (isinf(value->high)) {
        return mean;
    }
    double b = (value->high - value->at) / value->sd;
    double above = share_below(-b);
    return mean + (value->high - value->at) * above - value->sd * density(b);
}

double held_at(const HeldNormal *value, double mean)
{
    HeldNormal now = *value;
    /* Bounds and the mean itself pull to one side or the other, never farther
     * than this. */
    double low = fmin(value->low, mean) - 8.0 * value->sd;
    double high =
        fmax(isinf(value->high) ? mean : value->high, mean) + 8.0 * value->sd;
    for (int round = 0; round < 48; round++) {
        now.at = (low + high) / 2.0;
        if (held_mean(&now) < mean) {
            low = now.at;
        } else {
            high = now.at;
        }
    }
    return (low + high) / 2.0;
}
