/* Germination and days to emergence by temperature. */
#include "nature/plant/emergence.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

double emergence_step_degc(int step)
{
    assert(step >= 0 && step < EMERGENCE_STEPS);
    return 5.0 * step;
}

/* The value between the steps around temp_degc; NAN when either is missing. */
static double between(const double *values, double temp_degc)
{
    double position = temp_degc / 5.0;
    if (!(position >= 0.0 && position <= EMERGENCE_STEPS - 1)) {
        return NAN;
    }
    int low = (int)position;
    double part = position - low;
    if (part <= 0.0) {
        return values[low];
    }
    return values[low] * (1.0 - part) + values[low + 1] * part;
}

double emergence_germination_frac(const EmergenceRow *row, double temp_degc)
{
    return between(row->germination_frac, temp_degc);
}

double emergence_table_d(const EmergenceRow *row, double temp_degc)
{
    double rate[EMERGENCE_STEPS];
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        bool is_none = row->germination_frac[i] <= 0.0;
        rate[i] = is_none ? 0.0 : 1.0 / row->days_d[i];
    }
    double here = between(rate, temp_degc);
    if (isnan(here)) {
        return NAN;
    }
    return here > 0.0 ? 1.0 / here : INFINITY;
}

double emergence_line_d(const EmergenceLine *line, double temp_degc)
{
    if (temp_degc <= line->base_degc || temp_degc > line->most_degc) {
        return INFINITY;
    }
    return line->sum_degc_d / (temp_degc - line->base_degc);
}

bool emergence_fit_line(const EmergenceRow *row, EmergenceLine *out)
{
    double n = 0.0, sum_t = 0.0, sum_r = 0.0, sum_tt = 0.0, sum_tr = 0.0;
    double fastest = 0.0;
    double most_degc = 0.0;
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        double rate = 1.0 / row->days_d[i];
        double temp = emergence_step_degc(i);
        if (isnan(rate) || rate <= fastest) {
            continue;
        }
        fastest = rate;
        most_degc = temp;
        n += 1.0;
        sum_t += temp;
        sum_r += rate;
        sum_tt += temp * temp;
        sum_tr += temp * rate;
    }
    if (n < 2.0) {
        return false;
    }
    double slope = (n * sum_tr - sum_t * sum_r) / (n * sum_tt - sum_t * sum_t);
    double start = (sum_r - slope * sum_t) / n;
    *out = (EmergenceLine){.base_degc = -start / slope,
                           .most_degc = most_degc,
                           .sum_degc_d = 1.0 / slope};
    return true;
}
