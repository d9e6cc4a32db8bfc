/* What goes to a child and what comes back, as JSON.
 *
 * A question carries the farm's tables as text, so that a child can work on
 * another machine; an answer carries choices by number, which parent and child
 * read against the same problem. */
#ifndef LEAT_JSON_JSON_CHILD_H
#define LEAT_JSON_JSON_CHILD_H

#include "base/arena.h"
#include "base/err.h"
#include "farm/read.h"
#include "plan/scarce.h"
#include "plan/solution.h"

typedef enum ChildKind {
    CHILD_SEARCH,  /* one start of the search */
    CHILD_CEILING, /* the linear relaxation */
    CHILD_YEARS, /* a span of possible years; a line for each (json/years.h) */
} ChildKind;

typedef struct ChildQuestion {
    ChildKind kind;
    const FarmBuffer *tables; /* the farm's, its accepted plan among them */
    int table_count;
    int32_t from; /* Monday of week 0 */
    int weeks;
    int64_t seed;
    int start;           /* number of the start */
    int64_t moves;       /* of a start */
    int keep_weeks;      /* weeks of the accepted plan that are fixed */
    bool is_from_plan;   /* begin with the accepted plan */
    bool is_fish_frozen; /* no stocking, no grading */
    int64_t year;        /* CHILD_YEARS: the first .. */
    int years;           /* .. and how many */
} ChildQuestion;

/* Text in the arena, one line. */
char *json_child_question(const ChildQuestion *question, Arena *arena);
NODISCARD Err json_child_question_read(const char *text, Arena *arena,
                                       ChildQuestion *out);

/* Choices (without outcome) and the value found for them. */
char *json_child_choices(const PlanSolution *solution, Arena *arena);
NODISCARD Err json_child_choices_read(const char *text, Arena *arena,
                                      PlanSolution *out);

char *json_child_ceiling(const PlanCeiling *ceiling, Arena *arena);
NODISCARD Err json_child_ceiling_read(const char *text, Arena *arena,
                                      PlanCeiling *out);

/* A line of progress: the share done (0..1) and the best value so far. Reading
 * gives false for a line that is none. */
char *json_child_progress(double done_frac, double value, Arena *arena);
bool json_child_progress_read(const char *text, double *out_done_frac,
                              double *out_value);

/* An error as an answer: {"error":{"kind","text"}}; reading an answer that is
 * one gives it back. */
char *json_child_error(const Err *err, Arena *arena);
NODISCARD Err json_child_end_read(const char *text);

#endif
