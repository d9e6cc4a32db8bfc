/* Bolting: when a leaf crop turns to flower and is lost. */
#include "nature/plant/bolt.h"

bool bolt_day(const BoltRule *rule, double mean_degc, double day_length_h,
              BoltState *state)
{
    if (day_length_h >= rule->heat_day_h && mean_degc > rule->heat_degc) {
        state->heat_degc_d += mean_degc - rule->heat_degc;
    }
    bool by_heat = rule->heat_sum_degc_d > 0.0 &&
                   state->heat_degc_d >= rule->heat_sum_degc_d;
    bool by_cold = rule->cold_d > 0.0 && state->cold_d >= rule->cold_d &&
                   day_length_h >= rule->cold_day_h;
    if (mean_degc < rule->cold_degc) {
        state->cold_d += 1.0;
    }
    return by_heat || by_cold;
}
