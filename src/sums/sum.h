/* A sum: one calculation a grower would do by hand, shown with its working.
 *
 * All sums stand in one table (sums/table.h). A sum reads typed inputs, which
 * are complete and within their ranges when its function is called, and fills
 * an answer. Every number in an answer is finite; where there is no finite
 * answer the function returns ERR_RANGE, ERR_LIMIT or ERR_INPUT and says why.
 */
#ifndef LEAT_SUMS_SUM_H
#define LEAT_SUMS_SUM_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"
#include "base/figure.h"

typedef enum SumKind {
    SUM_NUMBER,
    SUM_COUNT,   /* a whole number */
    SUM_FLAG,    /* 0 or 1 */
    SUM_WORD,    /* what it means, the sum itself checks */
    SUM_DATE,    /* 2027-03-01 */
    SUM_INSTANT, /* 2027-03-01T06:10+01:00 */
} SumKind;

typedef enum SumNeed {
    SUM_REQUIRED,
    SUM_USUAL, /* has a usual value, taken where none is given */
    SUM_MAY,   /* may be left out; the sum then works without it */
} SumNeed;

typedef struct SumKey {
    const char *name;
    const char *unit; /* "degC"; for words an example */
    SumKind kind;
    SumNeed need;
    double usual;
    double least, most; /* numbers and counts; inclusive */
    const char *meaning;
} SumKey;

typedef struct SumInput {
    const char *text; /* as typed; NULL: not given */
    bool is_given;    /* typed, or has a usual value */
    double number;    /* of SUM_NUMBER, SUM_COUNT and SUM_FLAG */
    int32_t day;      /* of SUM_DATE; of SUM_INSTANT the day on the spot */
    int64_t utc_s;    /* of SUM_INSTANT */
    int offset_s;     /* of SUM_INSTANT: local time less UTC */
} SumInput;

enum { SUM_KEYS_MAX = 16, SUM_ALSO_MAX = 40, SUM_LINES_MAX = 64 };

typedef struct Sum Sum;

typedef struct SumInputs {
    const Sum *sum;            /* Borrowed from the table. */
    SumInput of[SUM_KEYS_MAX]; /* in the order of the sum's keys */
} SumInputs;

/* unit "date": value, low and high are days since 1970-01-01. */
typedef struct SumValue {
    const char *name;
    double value, low, high;
    const char *unit;
} SumValue;

typedef struct SumAnswer {
    Arena *arena;
    SumInputs inputs;
    SumValue main;
    SumValue also[SUM_ALSO_MAX];
    int also_count;
    const char *cautions[SUM_LINES_MAX]; /* to be read first */
    int caution_count;
    const char *working[SUM_LINES_MAX];
    int working_count;
    const char *source[SUM_LINES_MAX]; /* keys of docs/sources.md */
    int source_count;
} SumAnswer;

typedef Err SumRun(const SumInputs *in, SumAnswer *out);

struct Sum {
    const char *name;
    const char *purpose; /* one line */
    const SumKey *keys;  /* ends with a key whose name is NULL */
    SumRun *run;
    const char *source;  /* keys of docs/sources.md between spaces; "": only
                            arithmetic, or common practice of the trade */
    const char *example; /* "temp_degc=24 ph=8.0 tan_mg_l=1" */
};

/* --- what a sum's function reads; asking for a key that the sum does not have
 * is a defect --- */

double sum_number(const SumInputs *in, const char *key);
int32_t sum_count(const SumInputs *in, const char *key);
bool sum_is_given(const SumInputs *in, const char *key);
int32_t sum_day(const SumInputs *in, const char *key);
const char *sum_word(const SumInputs *in, const char *key);
const SumInput *sum_input(const SumInputs *in, const char *key);

/* --- what it writes --- */

/* The main answer, without and with a range. */
void sum_is(SumAnswer *out, const char *name, double value, const char *unit);
void sum_is_figure(SumAnswer *out, const char *name, Figure figure,
                   const char *unit);

/* Another number worth having. One that is not finite is left out. */
void sum_also(SumAnswer *out, const char *name, double value, const char *unit);
void sum_also_figure(SumAnswer *out, const char *name, Figure figure,
                     const char *unit);

/* A line of the working: the formula, then the numbers put in. A caution. */
void sum_work(SumAnswer *out, const char *format, ...) PRINTF_LIKE(2, 3);
void sum_caution(SumAnswer *out, const char *format, ...) PRINTF_LIKE(2, 3);

/* Keys of further sources, between spaces. */
void sum_source(SumAnswer *out, const char *keys);

/* A figure from its numbers, and from parts either way: sum_about(40, 0.1) is
 * 40 (36 to 44). */
Figure sum_range(double value, double low, double high);
Figure sum_about(double value, double part);

/* A figure scaled; low and high change places where factor is below 0. */
Figure sum_scaled(Figure figure, double factor);

/* "2027-03-01", valid for as long as the answer's arena. */
const char *sum_date(SumAnswer *out, int32_t day);

#endif
