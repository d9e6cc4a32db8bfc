/* What fish bear. */
#include "nature/fish/limits.h"

#include <math.h>

#include "nature/fish/species.h"

bool fish_may_grade(double temp_degc, double oxygen_mg_l)
{
    static const double COLD_DEGC = 20.0;
    static const double HOT_DEGC = 30.0;
    static const double OXYGEN_MG_L = 5.0;
    return temp_degc >= COLD_DEGC && temp_degc <= HOT_DEGC &&
           oxygen_mg_l >= OXYGEN_MG_L;
}

bool fish_may_catch(double temp_degc)
{
    static const double COLD_DEGC = 17.0;
    static const double HOT_DEGC = 30.0;
    return temp_degc >= COLD_DEGC && temp_degc <= HOT_DEGC;
}

int fish_weeks_between_handlings(void)
{
    enum { WEEKS = 4 };
    return WEEKS;
}

double fish_feed_after_netting_frac(void)
{
    return 1.0 / 2.0;
}

FishAmmonia fish_ammonia_limits(double weight_g)
{
    static const FishCurve CAUTION = {2, {1, 5}, {0.02, 0.05}};
    static const FishCurve HALF = {2, {0.5, 5}, {0.40, 0.73}};
    static const FishCurve DEADLY = {
        4, {0.05, 3, 11, 45}, {1.01, 1.36, 2.25, 2.65}};
    return (FishAmmonia){
        .caution_mg_l = fish_curve_at(&CAUTION, weight_g),
        .half_mg_l = fish_curve_at(&HALF, weight_g),
        .deadly_mg_l = fish_curve_at(&DEADLY, weight_g),
    };
}

double fish_nitrite_deadly_mg_l(double chloride_mg_l)
{
    static const double N_OF_NITRITE = 14.007 / 46.005;
    double rise = (44.67 - 28.18) / (70.0 - 35.0);
    double nitrite = 28.18 + rise * (fmax(0.0, chloride_mg_l) - 35.0);
    return nitrite * N_OF_NITRITE;
}

double fish_nitrite_caution_mg_l(double chloride_mg_l)
{
    static const double SAFE_FRAC = 0.05;
    return fmin(1.0, SAFE_FRAC * fish_nitrite_deadly_mg_l(chloride_mg_l));
}

Figure fish_oxygen_no_feed_mg_l(void)
{
    return (Figure){3.0, 3.0, 5.5, FIGURE_BOOK, "TRANDUY2012"};
}

Figure fish_oxygen_danger_mg_l(void)
{
    return (Figure){2.0, 1.5, 2.3, FIGURE_BOOK, "TSADIK1987"};
}

Figure fish_oxygen_deadly_mg_l(void)
{
    return (Figure){0.7, 0.3, 0.7, FIGURE_GUESS, "TSADIK1987"};
}

Figure fish_carbon_dioxide_mg_l(void)
{
    return (Figure){30.0, 20.0, 40.0, FIGURE_GUESS, "TIMMONS2010"};
}
