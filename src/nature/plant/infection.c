/* How long leaves must stay wet for a disease to take hold. */
#include "nature/plant/infection.h"

#include <assert.h>
#include <math.h>

double infection_wet_h(const InfectionRule *rule, double temp_degc)
{
    assert(rule->min_degc < rule->optimum_degc);
    assert(rule->optimum_degc < rule->max_degc);
    if (temp_degc <= rule->min_degc || temp_degc >= rule->max_degc) {
        return INFINITY;
    }
    double rise = rule->optimum_degc - rule->min_degc;
    double fall = rule->max_degc - rule->optimum_degc;
    double response = (rule->max_degc - temp_degc) / fall *
                      pow((temp_degc - rule->min_degc) / rise, rise / fall);
    return fmin(rule->min_wet_h / response, rule->max_wet_h);
}
