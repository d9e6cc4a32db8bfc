/* When to open the tunnels on a day, and how wide. */
#ifndef LEAT_DESK_VENT_H
#define LEAT_DESK_VENT_H

#include "work/vent.h"

enum { VENT_NOTICES_MOST = 4 };

typedef struct VentQuestion {
    const char *dir;
    int32_t day;        /* DATE_ALWAYS: by the clock */
    Workings *workings; /* how its figures are made; NULL: not asked for */
} VentQuestion;

typedef struct VentAnswer {
    const char *farm_name; /* Borrowed from the arena, as all of this. */
    VentDay day;
    const char *notices[VENT_NOTICES_MOST];
    int notice_count;
} VentAnswer;

/* ERR_INPUT for a farm with faults or without a tunnel; ERR_RANGE for a day
 * before the week of its tables or more than two years after them. */
NODISCARD Err vent_answer(const VentQuestion *question, Arena *arena,
                          VentAnswer *out);

#endif
