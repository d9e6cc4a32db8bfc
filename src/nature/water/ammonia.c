/* Un-ionised ammonia. */
#include "nature/water/ammonia.h"

#include <assert.h>
#include <math.h>

static const double KELVIN = 273.15;

double water_ammonia_pka(double temp_degc)
{
    assert(temp_degc > -5.0 && temp_degc < 60.0);
    return 0.09018 + 2729.92 / (temp_degc + KELVIN);
}

double water_unionised_frac(double temp_degc, double ph)
{
    return 1.0 / (1.0 + pow(10.0, water_ammonia_pka(temp_degc) - ph));
}

double water_tan_hour_mg_l(double temp_degc, double ph)
{
    double low = 1.0 + pow(10.0, 7.204 - ph);
    double high = 1.0 + pow(10.0, ph - 7.204);
    double warm = 23.12 * pow(10.0, 0.036 * (20.0 - temp_degc));
    return fmin(0.275 / low + 39.0 / high,
                0.7249 * (0.0114 / low + 1.6181 / high) * warm);
}

double water_tan_month_mg_l(double temp_degc, double ph)
{
    double low = 1.0 + pow(10.0, 7.688 - ph);
    double high = 1.0 + pow(10.0, ph - 7.688);
    double warm = 2.126 * pow(10.0, 0.028 * (20.0 - fmax(temp_degc, 7.0)));
    return 0.8876 * (0.0278 / low + 1.1994 / high) * warm;
}

double water_ammonia_caution_mg_l(bool is_fry)
{
    static const double CAUTION_MG_L[] = {0.05, 0.02};
    return CAUTION_MG_L[is_fry];
}
