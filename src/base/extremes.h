/* The lesser and the greater of two numbers: fmin and fmax for loops that are
 * run millions of times, where a call costs more than its answer. Where the
 * first is NaN the second is given, as they do; the second is never NaN. */
#ifndef LEAT_BASE_EXTREMES_H
#define LEAT_BASE_EXTREMES_H

static inline double lesser(double a, double b)
{
    return a < b ? a : b;
}

static inline double greater(double a, double b)
{
    return a > b ? a : b;
}

#endif
