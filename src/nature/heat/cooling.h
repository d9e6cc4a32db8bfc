/* How long a body of water takes to cool. */
#ifndef LEAT_NATURE_HEAT_COOLING_H
#define LEAT_NATURE_HEAT_COOLING_H

typedef struct Cooling {
    double start_degc;
    double air_degc; /* what its heat goes to, steady */
    double heat_j_k; /* of the water and what has its temperature, over 0 */
    double loss_w_k; /* 0 or more */
    double steady_w; /* heat that still comes in: pumps */
} Cooling;

/* Hours to a lower temperature; 0 where it is passed, INFINITY where the water
 * comes to rest above it.
 *     C dT/dt = Q - K (T - Ta),  Te = Ta + Q/K
 *     t = C/K ln((T0 - Te)/(L - Te)) */
double heat_cooling_h(const Cooling *cooling, double limit_degc);

/* Temperature after so many hours. */
double heat_cooled_degc(const Cooling *cooling, double hours);

#endif
