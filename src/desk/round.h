/* Today's round: read the farm, foresee the week, make its walk. */
#ifndef LEAT_DESK_ROUND_H
#define LEAT_DESK_ROUND_H

#include "desk/today.h"
#include "work/round.h"

typedef struct RoundQuestion {
    const char *dir;
    int32_t today;     /* DATE_ALWAYS: by the clock */
    const Told *facts; /* told today and yesterday, besides what the folder
                          holds; NULL */
    int32_t fact_count;
} RoundQuestion;

typedef struct RoundAnswer {
    Today today; /* in the arena, as all of this */
    Round round;
} RoundAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND without an accepted plan;
 * ERR_RANGE for a day outside it. */
NODISCARD Err round_answer(const RoundQuestion *question, Arena *arena,
                           RoundAnswer *out);

/* As JSON, see json/round.h. */
const char *round_answer_json(const RoundAnswer *answer, Arena *arena);

#endif
