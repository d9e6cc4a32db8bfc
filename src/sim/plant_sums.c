/* Sums over a year that turns round for ever. */
#include "sim/plant_sums.h"

#include <assert.h>

enum { YEAR_DAYS = 365 };

void plant_sum_close(double *sum)
{
    for (int d = 0; d < YEAR_DAYS; d++) {
        sum[YEAR_DAYS + d + 1] = sum[d + 1];
    }
    sum[0] = 0.0;
    for (int d = 0; d < 2 * YEAR_DAYS; d++) {
        sum[d + 1] += sum[d];
    }
}

double plant_sum_of(const double *sum, int32_t doy, int32_t days)
{
    assert(doy >= 0 && doy < YEAR_DAYS && days >= 0);
    int32_t years = days / YEAR_DAYS;
    int32_t rest = days % YEAR_DAYS;
    return years * sum[YEAR_DAYS] + sum[doy + rest] - sum[doy];
}

int32_t plant_sum_days(const double *sum, int32_t doy, double target)
{
    assert(doy >= 0 && doy < YEAR_DAYS);
    double year = sum[YEAR_DAYS];
    if (target <= 0.0) {
        return 0;
    }
    if (!(year > 0.0) || target > year * 1000.0) {
        return PLANT_NEVER;
    }
    int32_t years = (int32_t)(target / year);
    double rest = target - years * year;
    if (rest <= 0.0) {
        years--;
        rest = year;
    }
    /* A hair of rounding must not cost a day. */
    double want = rest - 1e-9 * year;
    int32_t low = 0, high = YEAR_DAYS;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (sum[doy + middle] - sum[doy] >= want) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return years * YEAR_DAYS + low;
}
