/* What may not be picked: a bed that was sprayed, or whose leaves got tank
 * water. */
#ifndef LEAT_WORK_HOLD_H
#define LEAT_WORK_HOLD_H

#include "journal/told.h"

/* So far back a spray or splash is looked for, days: longer than labels'
 * waiting times before harvest. */
enum { HOLD_BACK_D = 120 };

/* The kinds of entries that make or end a hold, bit i is kind i. */
extern const uint64_t HOLD_KINDS;

typedef struct Hold {
    const char *why; /* NULL: none */
    int32_t until;   /* first day on which it may be picked; DATE_NEVER: until
                        somebody releases it */
} Hold;

/* Sprayed (the bed or its tunnel): until the days told with it (its value) are
 * over. Without them, or where tank water went over the leaves (seen, cause
 * splash): until somebody releases it (checked, cause release). What is not
 * told releases nothing. facts: by day, those struck out left out. */
Hold hold_of_bed(const Farm *farm, int32_t bed, const Tolds *facts, int32_t day,
                 Arena *arena);

/* "not to be picked until 2027-03-19: sprayed on .. with .."; why is set. */
const char *hold_text(const Hold *hold, Arena *arena);

#endif
