/* The water on a day: readings, ranges, what to do. */
#ifndef LEAT_DESK_WATER_H
#define LEAT_DESK_WATER_H

#include "desk/today.h"
#include "work/water_day.h"

typedef struct WaterQuestion {
    const char *dir;
    int32_t today;      /* DATE_ALWAYS: by the clock */
    const char *at;     /* see desk/moment.h; NULL: now */
    const char *tank;   /* one tank; NULL: all places */
    Workings *workings; /* how its figures are made; NULL: not asked for */
} WaterQuestion;

typedef struct WaterAnswer {
    Today today; /* in the arena, as all of this */
    const char *when;
    WaterDay water;
    int32_t only; /* row of farm->tanks; -1: all */
} WaterAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND: no such tank; ERR_USAGE: a
 * moment that is none. */
NODISCARD Err water_answer(const WaterQuestion *question, Arena *arena,
                           WaterAnswer *out);

/* As JSON, see json/water.h. */
const char *water_answer_json(const WaterAnswer *answer, Arena *arena);

#endif
