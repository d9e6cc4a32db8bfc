/* Possible years as JSON: a year's line from a child, and all of them. */
#ifndef LEAT_JSON_YEARS_H
#define LEAT_JSON_YEARS_H

#include "work/years_sum.h"

/* {"year":k,"codes":".."}: two letters a code. */
char *json_years_line(int64_t year, const uint16_t *codes, int count,
                      Arena *arena);

/* ERR_DEFECT: not such a line, or codes that do not fit the shape. */
NODISCARD Err json_years_line_read(const char *line, const YearsShape *shape,
                                   uint16_t *out_codes, int64_t *out_year);

typedef struct YearsPage {
    const Farm *farm; /* Borrowed, as all of these. */
    const YearsFarm *years;
    const YearsSum *sum;
    const uint16_t *typical;
    int32_t first_week;
    int64_t asked;
    int64_t seed;
    const char *const *notices;
    int notice_count;
    const char *const *words; /* what breaks first, in words; ends with NULL */
} YearsPage;

/* Everything by week: low, middle and high (one year in ten lower, the middle
 * one, one in ten higher), the chance of each order's week, what breaks. */
const char *json_years(const YearsPage *page, Arena *arena);

#endif
