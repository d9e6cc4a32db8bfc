/* How often a value fell where. */
#include "base/spread.h"

#include <assert.h>
#include <math.h>

/* Of the doubling scale: 2^-12 is the least value, 30 cells a doubling. */
enum { CELLS_DOUBLING = 30, LEAST_POWER = -12 };

static uint16_t held(const SpreadScale *scale, double place)
{
    return (uint16_t)(place <= 0.0                  ? 0.0
                      : place >= scale->codes - 1.0 ? scale->codes - 1.0
                                                    : place);
}

uint16_t spread_code(const SpreadScale *scale, double value)
{
    if (isnan(value)) {
        return 0;
    }
    if (scale->step > 0.0) {
        /* What lies on an edge belongs above it, in spite of rounding. */
        double up = scale->is_exact ? 0.5 : 1e-9;
        return held(scale, floor((value - scale->from) / scale->step + up));
    }
    if (!(value > 0.0)) {
        return 0;
    }
    return held(scale,
                1.0 + floor(CELLS_DOUBLING * (log2(value) - LEAST_POWER)));
}

double spread_value(const SpreadScale *scale, int code, double within_frac)
{
    assert(code >= 0 && code < scale->codes);
    if (scale->step > 0.0) {
        double at = scale->is_exact ? code : code + within_frac;
        return scale->from + scale->step * at;
    }
    if (code == 0) {
        return 0.0;
    }
    return exp2(LEAST_POWER + (code - 1 + within_frac) / CELLS_DOUBLING);
}

uint64_t spread_count_from(const SpreadScale *scale, const uint32_t *counts,
                           int code)
{
    uint64_t sum = 0;
    for (int i = code; i < scale->codes; i++) {
        sum += counts[i];
    }
    return sum;
}

double spread_quantile(const SpreadScale *scale, const uint32_t *counts,
                       double share_frac)
{
    assert(share_frac >= 0.0 && share_frac <= 1.0);
    double all = (double)spread_count_from(scale, counts, 0);
    double wanted = share_frac * all;
    double below = 0.0;
    for (int i = 0; i < scale->codes; i++) {
        double here = counts[i];
        if (here > 0.0 && below + here >= wanted) {
            return spread_value(scale, i, (wanted - below) / here);
        }
        below += here;
    }
    return NAN;
}
