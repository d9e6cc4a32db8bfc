/* The beds on a day: what stands, what is next, what was told. */
#ifndef LEAT_DESK_BEDS_H
#define LEAT_DESK_BEDS_H

#include "desk/today.h"
#include "work/beds.h"

enum { BEDS_ALL = -1 };

typedef struct BedsQuestion {
    const char *dir;
    int32_t today;      /* DATE_ALWAYS: by the clock */
    const char *bed;    /* id; NULL: all */
    Workings *workings; /* how its figures are made; NULL: not asked for */
} BedsQuestion;

typedef struct BedsAnswer {
    Today today; /* in the arena, as all of this */
    Beds beds;
    int32_t only; /* place in beds.beds of the one asked for; BEDS_ALL */
} BedsAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND: no such bed in use. */
NODISCARD Err beds_answer(const BedsQuestion *question, Arena *arena,
                          BedsAnswer *out);

/* As JSON, see json/beds.h. */
const char *beds_answer_json(const BedsAnswer *answer, Arena *arena);

#endif
