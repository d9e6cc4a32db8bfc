/* Today's round: read the farm, foresee the week, make its walk. */
#ifndef LEAT_DESK_ROUND_H
#define LEAT_DESK_ROUND_H

#include "work/round.h"

typedef struct RoundQuestion {
    const char *dir;
    int32_t today;     /* DATE_ALWAYS: by the clock */
    const Told *facts; /* told today and yesterday, besides what the
                               folder holds; NULL */
    int32_t fact_count;
} RoundQuestion;

enum { ROUND_NOTICES_MAX = 4 };

typedef struct RoundAnswer {
    const Farm *farm;  /* Borrowed from the arena, as all of this. */
    const char *title; /* "Mon 1 Mar 2027, 2027-W09" */
    Round round;
    const char *notices[ROUND_NOTICES_MAX];
    int notice_count;
} RoundAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND without an accepted plan;
 * ERR_RANGE for a day outside it. */
NODISCARD Err round_answer(const RoundQuestion *question, Arena *arena,
                           RoundAnswer *out);

#endif
