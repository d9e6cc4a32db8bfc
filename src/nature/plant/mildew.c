/* Moulds by temperature and wet leaves. */
#include "nature/plant/mildew.h"

#include <math.h>

bool mildew_lettuce_infects(const LettuceMorning *morning)
{
    return morning->wet_h >= 4.0 && morning->early_degc <= 20.0 &&
           morning->forenoon_degc <= 22.0;
}

double mildew_cucumber_wet_h(double temp_degc)
{
    static const double AT_DEGC[] = {5.0, 10.0, 15.0, 20.0, 25.0};
    static const double WET_H[] = {24.0, 12.0, 6.0, 2.0, 2.0};
    enum { POINTS = sizeof AT_DEGC / sizeof AT_DEGC[0] };
    if (!(temp_degc >= AT_DEGC[0] && temp_degc <= AT_DEGC[POINTS - 1])) {
        return INFINITY;
    }
    int i = 0;
    while (i < POINTS - 2 && temp_degc > AT_DEGC[i + 1]) {
        i++;
    }
    double share = (temp_degc - AT_DEGC[i]) / (AT_DEGC[i + 1] - AT_DEGC[i]);
    return WET_H[i] + share * (WET_H[i + 1] - WET_H[i]);
}

bool mildew_grey_breaks_out(double wet_h_d, double night_mild_h)
{
    return wet_h_d > 7.0 && night_mild_h > 9.5;
}

double mildew_powdery_frac(double temp_degc)
{
    const double least = 10.0, best = 25.0, most = 35.0;
    if (!(temp_degc > least && temp_degc < most)) {
        return 0.0;
    }
    return (most - temp_degc) / (most - best) *
           pow((temp_degc - least) / (best - least),
               (best - least) / (most - best));
}

static bool suits_basil_mildew(double temp_degc)
{
    return temp_degc >= 12.0 && temp_degc <= 25.0;
}

bool mildew_basil_infects(double wet_h, double temp_degc)
{
    return wet_h >= 4.0 && suits_basil_mildew(temp_degc);
}

bool mildew_basil_bears(double dark_damp_h, double temp_degc)
{
    return dark_damp_h >= 7.5 && suits_basil_mildew(temp_degc);
}
