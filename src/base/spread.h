/* How often a value fell where: a histogram of fixed cells, whose memory does
 * not grow with what is added and whose counts are whole numbers, so that parts
 * added in any order give the same bytes.
 *
 * A scale maps a value to one of SPREAD_CODES codes in order of size. */
#ifndef LEAT_BASE_SPREAD_H
#define LEAT_BASE_SPREAD_H

#include <stdbool.h>
#include <stdint.h>

enum { SPREAD_CODES = 1024 }; /* at most */

/* step above 0: even cells from `from` on, the first and last hold what lies
 * beyond. is_exact: values lie on the steps, not between them. step 0: code 0
 * holds 0 and less than 1/4096; from there 30 cells to each doubling, with 1024
 * codes up to about 4 million. */
typedef struct SpreadScale {
    int codes; /* 2..SPREAD_CODES */
    double from;
    double step;
    bool is_exact;
} SpreadScale;

/* The code of a value; NAN is 0. */
uint16_t spread_code(const SpreadScale *scale, double value);

/* Value at a place within a code's cell, within_frac from 0 to 1. */
double spread_value(const SpreadScale *scale, int code, double within_frac);

/* The value that a share of what was added lies below, by where it falls within
 * its cell; counts has the scale's codes. NAN where nothing was added. */
double spread_quantile(const SpreadScale *scale, const uint32_t *counts,
                       double share_frac);

/* How many were added with a code of at least that; code 0: all. */
uint64_t spread_count_from(const SpreadScale *scale, const uint32_t *counts,
                           int code);

#endif
