/* Water that is added, and iron: what a tank of fish bears. */
#ifndef LEAT_NATURE_WATER_TOPUP_H
#define LEAT_NATURE_WATER_TOPUP_H

#include "base/err.h"

/* Product for a rise of iron, g: target x volume / strength.
 * strength_frac  iron in the product, as on the label, above 0 */
double water_iron_dose_g(double volume_m3, double target_mg_l,
                         double strength_frac);

typedef struct TopUp {
    double volume_m3; /* of tank or loop that receives it */
    double tank_degc;
    double source_degc;
    double chlorine_mg_l;      /* of the source */
    double chlorine_most_mg_l; /* that fish bear after mixing */
    double change_most_degc;   /* that fish bear in an hour */
} TopUp;

typedef struct TopUpLimit {
    double by_chlorine_m3; /* each at once; INFINITY: no limit */
    double by_temperature_m3;
    double most_m3; /* the lesser */
} TopUpLimit;

/* What may be added at once, when it mixes fully: x = V L / (S - L) for a
 * quality L allowed in the mix and S in the source.
 * ERR_RANGE: chlorine_most or change_most not above 0. */
NODISCARD Err water_top_up_limit(const TopUp *top_up, TopUpLimit *out);

/* Most chlorine after mixing, mg/L: 0.01, and most change of temperature an
 * hour, degC: 1. Common practice of the trade. */
double water_chlorine_most_mg_l(void);
double water_change_most_degc(void);

#endif
