/* Thermal time: how much of a plant's development a day's warmth brings. */
#include "nature/plant/thermal.h"

#include <assert.h>
#include <math.h>

enum { SINE_HALF_POINTS = 24 };

static double at_least(double value, double floor)
{
    return value < floor ? floor : value;
}

double thermal_rate_degc_d(const ThermalRule *rule, double temp_degc)
{
    if (temp_degc <= rule->base_degc) {
        return 0.0;
    }
    double full = rule->optimum_degc - rule->base_degc;
    if (temp_degc > rule->ceiling_degc) {
        return at_least(full - (temp_degc - rule->ceiling_degc), 0.0);
    }
    double rise = temp_degc - rule->base_degc;
    return rise < full ? rise : full;
}

double thermal_day_mean_degc_d(const ThermalRule *rule, double min_degc,
                               double max_degc)
{
    return thermal_rate_degc_d(rule, (min_degc + max_degc) / 2.0);
}

double thermal_day_capped_degc_d(const ThermalRule *rule, double min_degc,
                                 double max_degc)
{
    double low = at_least(min_degc, rule->base_degc);
    double high = max_degc < rule->optimum_degc ? max_degc : rule->optimum_degc;
    return at_least((low + high) / 2.0 - rule->base_degc, 0.0);
}

/* cos(pi (i + 1/2) / 24): half a day in 24 even steps; the other half is its
 * mirror, so 24 points stand for 48. */
static const double COSINE[SINE_HALF_POINTS] = {
    0.99785892323860348,   0.98078528040323043,  0.94693012949510569,
    0.89687274153268837,   0.83146961230254524,  0.75183980747897749,
    0.65934581510006884,   0.55557023301960218,  0.44228869021900125,
    0.32143946530316153,   0.19509032201612825,  0.065403129230143062,
    -0.065403129230143062, -0.19509032201612825, -0.32143946530316153,
    -0.44228869021900125,  -0.55557023301960218, -0.65934581510006884,
    -0.75183980747897749,  -0.83146961230254524, -0.89687274153268837,
    -0.94693012949510569,  -0.98078528040323043, -0.99785892323860348,
};

double thermal_day_sine_degc_d(const ThermalRule *rule, double min_degc,
                               double max_degc)
{
    assert(max_degc >= min_degc);
    double mean = (min_degc + max_degc) / 2.0;
    double alpha = (max_degc - min_degc) / 2.0;
    double sum = 0.0;
    for (int i = 0; i < SINE_HALF_POINTS; i++) {
        sum += thermal_rate_degc_d(rule, mean + alpha * COSINE[i]);
    }
    return sum / SINE_HALF_POINTS;
}

int32_t thermal_days_to(const double *days_degc_d, int32_t day_count,
                        int32_t first, double target_degc_d, int32_t most_days)
{
    assert(day_count > 0 && first >= 0);
    double sum = 0.0;
    for (int32_t n = 0; n <= most_days; n++) {
        if (sum >= target_degc_d) {
            return n;
        }
        sum += days_degc_d[(first + n) % day_count];
    }
    return -1;
}

double thermal_ontario_unit(double min_degc, double max_degc)
{
    double over = max_degc - 10.0;
    double day = 3.33 * over - 0.084 * over * over;
    double night = 1.8 * (min_degc - 4.44);
    return (at_least(over > 0.0 ? day : 0.0, 0.0) + at_least(night, 0.0)) / 2.0;
}
