/* Many possible years together: how often each value came, what broke first.
 *
 * Only whole numbers are kept, in memory that does not grow with the years, so
 * years may be added in any order. */
#ifndef LEAT_WORK_YEARS_SUM_H
#define LEAT_WORK_YEARS_SUM_H

#include "base/figure.h"
#include "work/years.h"

typedef struct YearsSum {
    YearsShape shape;
    int64_t count;    /* years added */
    uint32_t *counts; /* [code's place][SPREAD_CODES]; Owned by the arena. */
    int64_t first[YEARS_BREAK_COUNT]; /* years in which it was the first of all
                                         to break */
    int64_t any[YEARS_BREAK_COUNT];   /* years in which it came at all */
    int64_t unbroken;                 /* years in which nothing did */
} YearsSum;

void years_sum_open(const YearsShape *shape, Arena *arena, YearsSum *out);

/* Adds one year's codes: shape.code_count of them, each below SPREAD_CODES. */
void years_sum_add(YearsSum *sum, const Farm *farm, const uint16_t *codes);

/* One in ten lower, the middle, one in ten higher of a series in a week, or of
 * the whole span (week = weeks). */
Figure years_sum_range(const YearsSum *sum, int series, int row, int week);

/* The value that a share of the years lie below. */
double years_sum_quantile(const YearsSum *sum, int series, int row, int week,
                          double share_frac);

/* Years in which an order could be given all that it wants in a week. */
int64_t years_sum_kept(const YearsSum *sum, int order, int week);

/* Years in which something broke, and the middle one's first week (-1: none).
 */
int64_t years_sum_broken(const YearsSum *sum, int kind, int row, int *out_week);

/* ---- For whoever tells it ----------------------------------------------- */

/* The id of a row ("" of the farm itself; of an element its loop's). */
const char *years_row_id(const Farm *farm, YearsOf of, int row);

/* A value of one year's codes, as of the typical one's. */
double years_value(const YearsShape *shape, const uint16_t *codes, int series,
                   int row, int week);

/* An order over the span. Chances are shares of the years. */
typedef struct YearsOrder {
    int due_weeks;
    double chance;       /* that a due week is kept, mean of them */
    int least_week;      /* with the least chance; -1 none is due */
    double least_chance; /* */
    double planned;      /* share of the due weeks that the plan keeps whole */
    double typical;      /* share that the typical year keeps */
} YearsOrder;
YearsOrder years_order(const YearsSum *sum, const YearsFarm *years, int order,
                       const uint16_t *typical);

/* What can be counted on of a way, as shares of what the typical year brings
 * (NAN where it brings none): what four years in five pass in each week, added
 * up over the weeks, and in the whole span. */
typedef struct YearsCounted {
    double by_week;
    double by_span;
} YearsCounted;
YearsCounted years_counted(const YearsSum *sum, int way,
                           const uint16_t *typical);

/* What breaks first, and in how many years of a hundred, as lines of words with
 * their numbers; ends with NULL. */
const char *const *years_words(const YearsSum *sum, const Farm *farm,
                               int32_t first_week, Arena *arena);

#endif
