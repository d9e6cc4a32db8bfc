/* Which week is meant by a day, or by the clock. */
#ifndef LEAT_DESK_WEEK_CHOICE_H
#define LEAT_DESK_WEEK_CHOICE_H

#include "base/arena.h"
#include "farm/records.h"

typedef struct WeekChoice {
    int32_t week; /* Monday */
    int32_t day;  /* in it: the one that is asked for, today, or its Monday */
    const char *notice; /* why it is not today's week; NULL otherwise */
} WeekChoice;

/* day: of the week that is asked for, or DATE_ALWAYS: by the clock, where today
 * lies within so many weeks from first on, else first. reach: what these weeks
 * are, for the notice ("the accepted plan"). */
WeekChoice week_choose(const Farm *farm, int32_t day, int32_t first, int weeks,
                       const char *reach, Arena *arena);

/* "Nothing was told since 2027-03-01: .."; NULL where the week is the tables'
 * own: nothing is recorded yet after the tables' day. */
const char *week_untold(const Farm *farm, int32_t week, Arena *arena);

#endif
