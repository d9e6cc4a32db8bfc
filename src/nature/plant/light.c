/* How much of full growth a day's light allows. */
#include "nature/plant/light.h"

#include <assert.h>

double light_growth_frac(const LightRule *rule, double dli_mol)
{
    assert(rule->full_mol > rule->least_mol);
    double x = (dli_mol - rule->least_mol) / (rule->full_mol - rule->least_mol);
    if (x <= 0.0) {
        return 0.0;
    }
    return x >= 1.0 ? 1.0 : x * (2.0 - x);
}

double light_dli_mol(double flux_umol_m2_s, double hours_h)
{
    return flux_umol_m2_s * 3600.0 * hours_h / 1e6;
}
