/* Many possible years of a farm: run in child processes, joined in one sum. */
#ifndef LEAT_DESK_YEARS_H
#define LEAT_DESK_YEARS_H

#include <signal.h>

#include "farm/read.h"
#include "work/years_sum.h"

enum { YEARS_MOST = 1000000, YEARS_WEEKS_USUAL = 52, YEARS_NOTICES_MOST = 10 };

/* done: years run so far, of all. */
typedef void YearsProgress(void *context, int64_t done, int64_t all);

typedef struct YearsQuestion {
    const char *dir;
    int32_t day; /* of the first week; DATE_ALWAYS: as leat foresee has it */
    int weeks;   /* 1..YEARS_WEEKS_MOST */
    int years;   /* 1..YEARS_MOST */
    int64_t seed;
    int at_once; /* children at one time; 0: as many as there are cores */
    YearsProgress *progress;           /* NULL: none */
    void *context;                     /* of progress */
    const volatile sig_atomic_t *stop; /* not 0: answer with the years there
                                          are; NULL: never */
} YearsQuestion;

typedef struct YearsAnswer {
    const Farm *opening; /* its tables as they are */
    const Farm *farm; /* as it stands on the first day; Borrowed from the arena,
                      as all of this */
    const Book *book;
    YearsFarm *years; /* for what is due and what the plan counts on */
    int32_t first_week;
    int weeks;
    int64_t asked; /* years asked for; sum.count is how many were run */
    int64_t seed;
    FarmBuffer log_file; /* bytes NULL: there is none */
    YearsSum sum;
    const uint16_t *typical; /* codes of the typical year */
    const char *notices[YEARS_NOTICES_MOST];
    int notice_count;
} YearsAnswer;

/* ERR_INPUT for a farm with faults; ERR_RANGE for weeks or years out of range
 * or a day before the tables; ERR_STOPPED where not one year was run. */
NODISCARD Err years_answer(const YearsQuestion *question, Arena *arena,
                           YearsAnswer *out);

/* Keeps what firm orders can count on week by week as the table counted, which
 * plans read from then on. out_ways: how many ways it holds. ERR_RANGE: fewer
 * than YEARS_KEEP_LEAST years were run; ERR_BUSY, ERR_IO as the folder says. */
enum { YEARS_KEEP_LEAST = 50 };
NODISCARD Err years_keep(const char *dir, const YearsAnswer *answer,
                         Arena *arena, int *out_ways);

/* The answer as JSON (json/years.h). */
const char *years_answer_json(const YearsAnswer *answer, Arena *arena);

/* Years of a child: run one after the other, each told. */
typedef void YearsTell(void *context, int64_t year, const uint16_t *codes,
                       int code_count);
typedef struct YearsSpan {
    const Farm *farm;
    FarmBuffer log_file; /* of the weather; bytes NULL: none */
    int32_t first_week;
    int weeks;
    uint64_t seed;
    int64_t year; /* the first */
    int years;
    const volatile sig_atomic_t *stop;
    YearsTell *tell;
    void *context;
} YearsSpan;
NODISCARD Err years_run_span(const YearsSpan *span, Arena *arena,
                             int *out_done);

#endif
