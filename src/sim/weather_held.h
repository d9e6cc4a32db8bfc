/* A normal value held within bounds, and where to put it so that its mean is
 * kept all the same. */
#ifndef LEAT_SIM_WEATHER_HELD_H
#define LEAT_SIM_WEATHER_HELD_H

typedef struct HeldNormal {
    double at; /* the normal's own mean */
    double sd; /* 0 or more */
    double low;
    double high; /* over low; INFINITY for none */
} HeldNormal;

/* Mean of min(max(x, low), high):
 *     low P(a) + high (1 - P(b)) + at (P(b) - P(a)) + sd (p(a) - p(b))
 * a = (low - at)/sd, b = (high - at)/sd, P and p the normal distribution and
 * its density. By integration, ours. */
double held_mean(const HeldNormal *value);

/* The mean of the normal at which held_mean is mean (low and high excluded; a
 * mean at or beyond a bound gives the bound's own side, 8 sd off). To 1e-9 of
 * the spread. */
double held_at(const HeldNormal *value, double mean);

#endif
