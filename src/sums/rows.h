/* How the rows of the table of sums are written; for the files of subjects. */
#ifndef LEAT_SUMS_ROWS_H
#define LEAT_SUMS_ROWS_H

#include "sums/sum.h"

/* A number that must be given, has a usual value, or may be left out:
 * (name, unit, least, most, meaning); the usual value stands after the unit. */
#define NEED(name, unit, least, most, meaning)                                 \
    {                                                                          \
        name, unit, SUM_NUMBER, SUM_REQUIRED, 0, least, most, meaning          \
    }
#define USUAL(name, unit, usual, least, most, meaning)                         \
    {                                                                          \
        name, unit, SUM_NUMBER, SUM_USUAL, usual, least, most, meaning         \
    }
#define MAY(name, unit, least, most, meaning)                                  \
    {                                                                          \
        name, unit, SUM_NUMBER, SUM_MAY, 0, least, most, meaning               \
    }

/* The same as whole numbers. */
#define COUNT(name, least, most, meaning)                                      \
    {                                                                          \
        name, "", SUM_COUNT, SUM_REQUIRED, 0, least, most, meaning             \
    }
#define COUNT_USUAL(name, usual, least, most, meaning)                         \
    {                                                                          \
        name, "", SUM_COUNT, SUM_USUAL, usual, least, most, meaning            \
    }
#define COUNT_MAY(name, least, most, meaning)                                  \
    {                                                                          \
        name, "", SUM_COUNT, SUM_MAY, 0, least, most, meaning                  \
    }

/* 0 or 1, usually 0; a word with an example of it; a day; an hour of a day. */
#define FLAG(name, meaning)                                                    \
    {                                                                          \
        name, "", SUM_FLAG, SUM_USUAL, 0, 0, 1, meaning                        \
    }
#define WORD(name, example, meaning)                                           \
    {                                                                          \
        name, example, SUM_WORD, SUM_REQUIRED, 0, 0, 0, meaning                \
    }
#define WORD_USUAL(name, word, meaning)                                        \
    {                                                                          \
        name, word, SUM_WORD, SUM_USUAL, 0, 0, 0, meaning                      \
    }
#define WORD_MAY(name, example, meaning)                                       \
    {                                                                          \
        name, example, SUM_WORD, SUM_MAY, 0, 0, 0, meaning                     \
    }
#define DAY(name, meaning)                                                     \
    {                                                                          \
        name, "", SUM_DATE, SUM_REQUIRED, 0, 0, 0, meaning                     \
    }
#define DAY_MAY(name, meaning)                                                 \
    {                                                                          \
        name, "", SUM_DATE, SUM_MAY, 0, 0, 0, meaning                          \
    }
#define INSTANT(name, meaning)                                                 \
    {                                                                          \
        name, "", SUM_INSTANT, SUM_REQUIRED, 0, 0, 0, meaning                  \
    }

#define KEYS(...)                                                              \
    (const SumKey[])                                                           \
    {                                                                          \
        __VA_ARGS__,                                                           \
        {                                                                      \
            .name = NULL                                                       \
        }                                                                      \
    }

/* The subjects' parts of the table; each ends with a nameless sum. */
extern const Sum SUMS_WATER[];
extern const Sum SUMS_DOSE[];
extern const Sum SUMS_FISH[];
extern const Sum SUMS_GRADE[];
extern const Sum SUMS_PLANTS[];
extern const Sum SUMS_BEDS[];
extern const Sum SUMS_FLOW[];
extern const Sum SUMS_CLIMATE[];
extern const Sum SUMS_MONEY[];

#endif
