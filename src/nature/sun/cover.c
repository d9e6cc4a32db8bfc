/* Fresnel's reflection and absorption in a sheet, and rays through a roof. */
#include "nature/sun/cover.h"

#include <assert.h>
#include <math.h>

static double through(double reflected, double passed)
{
    double in = 1.0 - reflected;
    return passed * in * in / (1.0 - reflected * reflected * passed * passed);
}

double cover_direct_frac(const CoverSheet *sheet, double cos_incidence)
{
    assert(sheet->index > 1.0 && sheet->thickness >= 0.0);
    double n = sheet->index;
    double cos_i = fmin(cos_incidence, 1.0);
    if (cos_i <= 0.0) {
        return 0.0;
    }
    double cos_r = sqrt(1.0 - (1.0 - cos_i * cos_i) / (n * n));
    /* The quoted ratios of sines and tangents without their 0/0 at i = 0. */
    double root_s = (cos_i - n * cos_r) / (cos_i + n * cos_r);
    double root_p = (n * cos_i - cos_r) / (n * cos_i + cos_r);
    double passed = exp(-sheet->thickness / cos_r);
    return (through(root_s * root_s, passed) +
            through(root_p * root_p, passed)) /
           2.0;
}

double cover_diffuse_frac(const CoverSheet *sheet)
{
    /* With c = cos i the integral is 2 tau c dc; the middle of each step. */
    double sum = 0.0;
    for (int step = 0; step < COVER_STEPS; step++) {
        double cos_i = (step + 1.0 / 2.0) / COVER_STEPS;
        sum += 2.0 * cover_direct_frac(sheet, cos_i) * cos_i / COVER_STEPS;
    }
    return sum;
}

CoverSheet cover_sheet_of(double index, double straight_frac)
{
    assert(straight_frac > 0.0);
    double root = (index - 1.0) / (index + 1.0);
    double rho = root * root;
    /* tau rho^2 a^2 + (1 - rho)^2 a - tau = 0 for a = exp(-K L); written so
     * that nothing cancels. */
    double b = (1.0 - rho) * (1.0 - rho);
    double passed =
        2.0 * straight_frac /
        (b + sqrt(b * b + 4.0 * straight_frac * straight_frac * rho * rho));
    return (CoverSheet){.index = index,
                        .thickness = passed < 1.0 ? -log(passed) : 0.0};
}

void cover_curve_fill(const CoverSheet *sheet, CoverCurve *out)
{
    for (int step = 0; step <= COVER_STEPS; step++) {
        out->frac[step] = cover_direct_frac(sheet, (double)step / COVER_STEPS);
    }
}

double cover_curve_at(const CoverCurve *curve, double cos_incidence)
{
    double at = fmin(fmax(cos_incidence, 0.0), 1.0) * COVER_STEPS;
    int step = at >= COVER_STEPS ? COVER_STEPS - 1 : (int)at;
    double part = at - step;
    return curve->frac[step] * (1.0 - part) + curve->frac[step + 1] * part;
}

CoverRoof cover_roof_of(double width_m, double height_m, double axis_deg)
{
    double axis_rad = sun_rad_from_deg(axis_deg);
    return (CoverRoof){width_m, height_m, cos(axis_rad), -sin(axis_rad)};
}

double cover_roof_cos_incidence(const CoverRoof *roof, const SunDirection *sun,
                                double row_m)
{
    double half = roof->width_m / 2.0;
    assert(fabs(row_m) < half && roof->height_m > 0.0);
    if (sun->up <= 0.0) {
        return 0.0;
    }
    double sy = sun->east * roof->right_east + sun->north * roof->right_north;
    double sz = sun->up;
    double wide = 1.0 / (half * half);
    double tall = 1.0 / (roof->height_m * roof->height_m);
    double a = sy * sy * wide + sz * sz * tall;
    double b = row_m * sy * wide;
    double c = 1.0 - row_m * row_m * wide;
    double t = (-b + sqrt(b * b + a * c)) / a;
    double normal_y = (row_m + t * sy) * wide;
    double normal_z = t * sz * tall;
    return fmax(0.0,
                (normal_y * sy + normal_z * sz) / hypot(normal_y, normal_z));
}
