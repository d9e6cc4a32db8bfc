/* What bad water does to fish in an hour. */
#include "nature/fish/stress.h"

#include <math.h>

#include "nature/fish/limits.h"

static const double LN_2 = 0.69314718055994530942;

static double poison_1_h(double share_of_deadly)
{
    static const double FROM = 0.5;
    static const double TRIAL_H = 96.0;
    double x = share_of_deadly;
    return x > FROM ? LN_2 / TRIAL_H * x * x * x : 0.0;
}

double fish_harm_1_h(const FishHarm *harm)
{
    double deadly = fish_oxygen_deadly_mg_l().value;
    double lack = fmax(0.0, (2.0 * deadly - harm->oxygen_mg_l) / deadly);
    return LN_2 * lack + poison_1_h(harm->nh3_mg_l / harm->nh3_deadly_mg_l) +
           poison_1_h(harm->nitrite_mg_l / harm->nitrite_deadly_mg_l);
}

double fish_digest_h(double stays, double rate_h, double *first, double *second)
{
    double before = *first + *second;
    double after = stays * *first;
    *second = stays * (*second + rate_h * *first);
    *first = after;
    return before - *first - *second;
}
