/* The fish on a day: tanks, batches, forecast, what a grading would do. */
#ifndef LEAT_DESK_FISH_H
#define LEAT_DESK_FISH_H

#include "desk/today.h"
#include "work/fish_day.h"

typedef struct FishQuestion {
    const char *dir;
    int32_t today;      /* DATE_ALWAYS: by the clock */
    const char *tank;   /* one tank; NULL: all */
    double sale_g;      /* NAN: the lightest that is sold */
    double cut_g;       /* a grading of that tank, those heavier go; NAN */
    const char *to;     /* to this tank; NULL: where there is room */
    Workings *workings; /* how its figures are made; NULL: not asked for */
} FishQuestion;

typedef struct FishAnswer {
    Today today; /* in the arena, as all of this */
    Foresight foresight;
    FishPage page;
    int32_t only; /* row of farm->tanks; -1: all */
} FishAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND: no such tank; ERR_USAGE: a
 * cut without a tank; ERR_RANGE: a cut that moves none or all. */
NODISCARD Err fish_answer(const FishQuestion *question, Arena *arena,
                          FishAnswer *out);

/* As JSON, see json/fish.h. */
const char *fish_answer_json(const FishAnswer *answer, Arena *arena);

#endif
