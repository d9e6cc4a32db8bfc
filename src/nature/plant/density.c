/* Spacing, density, and how heads shrink as plants stand closer. */
#include "nature/plant/density.h"

#include <assert.h>
#include <math.h>

double density_square_m2(double row_m, double in_row_m)
{
    assert(row_m > 0.0 && in_row_m > 0.0);
    return 1.0 / (row_m * in_row_m);
}

double density_triangle_m2(double side_m)
{
    assert(side_m > 0.0);
    return 2.0 / (sqrt(3.0) * side_m * side_m);
}

double density_head_kg(const HeadLaw *law, double plants_m2)
{
    assert(plants_m2 >= 0.0);
    return 1.0 / (law->a_kg + law->b_m2_kg * plants_m2);
}

bool density_fit(const HeadTrial *trials, size_t count, HeadLaw *out)
{
    double n = (double)count;
    double sum_p = 0.0, sum_r = 0.0, sum_pp = 0.0, sum_pr = 0.0;
    for (size_t i = 0; i < count; i++) {
        double p = trials[i].plants_m2;
        double r = 1.0 / trials[i].head_kg;
        sum_p += p;
        sum_r += r;
        sum_pp += p * p;
        sum_pr += p * r;
    }
    double spread = n * sum_pp - sum_p * sum_p;
    if (count < 2 || spread <= 1e-12 * sum_pp) {
        return false;
    }
    double b = (n * sum_pr - sum_p * sum_r) / spread;
    double a = (sum_r - b * sum_p) / n;
    if (!(a > 0.0 && b >= 0.0)) {
        return false;
    }
    *out = (HeadLaw){.a_kg = a, .b_m2_kg = b};
    return true;
}
