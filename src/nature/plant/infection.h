/* How long leaves must stay wet for a disease to take hold. */
#ifndef LEAT_NATURE_PLANT_INFECTION_H
#define LEAT_NATURE_PLANT_INFECTION_H

typedef struct InfectionRule {
    double min_degc;     /* none at or below */
    double optimum_degc; /* between min and max */
    double max_degc;     /* none at or above */
    double min_wet_h;    /* wet hours needed at the optimum */
    double max_wet_h;    /* the most hours asked for at any temperature */
} InfectionRule;

/* Hours of unbroken wetness for infection at temp_degc:
 *
 *     W = Wmin / f, at most Wmax
 *     f = (Tmax - T)/(Tmax - Topt)
 *         ((T - Tmin)/(Topt - Tmin))^((Topt - Tmin)/(Tmax - Topt))
 *
 * INFINITY outside Tmin..Tmax. Wmin counts for 20 % of leaves or 5 % of their
 * area.
 * Source: [MAGAREY2005] Magarey, Sutton & Thayer 2005, Phytopathology 95:92. */
double infection_wet_h(const InfectionRule *rule, double temp_degc);

#endif
