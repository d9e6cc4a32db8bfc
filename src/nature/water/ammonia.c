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

double water_ammonia_caution_mg_l(bool is_fry)
{
    static const double CAUTION_MG_L[] = {0.05, 0.02};
    return CAUTION_MG_L[is_fry];
}
