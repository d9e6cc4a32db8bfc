/* Direct and diffuse sun by clearness. */
#include "nature/sun/split.h"

#include <math.h>

#include "nature/sun/solar.h"

double sun_square_above_air_w_m2(int day_of_year)
{
    double b = 2.0 * SUN_PI * (day_of_year - 1) / 365.0;
    return 1366.1 * (1.00011 + 0.034221 * cos(b) + 0.00128 * sin(b) +
                     0.000719 * cos(2.0 * b) + 0.000077 * sin(2.0 * b));
}

double sun_clearness(double sun_w_m2, double cos_zenith, int day_of_year)
{
    double above_w_m2 =
        sun_square_above_air_w_m2(day_of_year) * fmax(cos_zenith, 0.065);
    return fmin(fmax(sun_w_m2 / above_w_m2, 0.0), 1.0);
}

double sun_diffuse_frac_hour(double clearness)
{
    double k = clearness;
    if (k <= 0.22) {
        return 1.0 - 0.09 * k;
    }
    if (k > 0.80) {
        return 0.165;
    }
    return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

double sun_diffuse_frac_day(double clearness, double sunset_angle_rad)
{
    double k = clearness;
    if (sunset_angle_rad <= sun_rad_from_deg(81.4)) {
        return k >= 0.715
                   ? 0.143
                   : 1.0 + k * (-0.2727 +
                                k * (2.4495 + k * (-11.9514 + k * 9.3879)));
    }
    return k >= 0.722 ? 0.175 : 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448));
}
