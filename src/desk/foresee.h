/* Foresee a farm's weeks: read it, run its typical year, its plants and fish.
 */
#ifndef LEAT_DESK_FORESEE_H
#define LEAT_DESK_FORESEE_H

#include "work/foresight.h"

enum { FORESEE_WEEKS_USUAL = 26, FORESEE_NOTICES_MAX = 10 };

typedef struct ForeseeQuestion {
    const char *dir;
    /* A day of the first week; DATE_ALWAYS: this week by the clock, or the
     * first of the farm's tables where the clock stands outside what can be
     * foreseen from them. */
    int32_t day;
    int weeks;
    double sale_g;   /* fish are ready from here; NAN: as the farm sells them */
    const char *way; /* ids, each NULL for all */
    const char *tank; /* */
    const char *loop; /* */
} ForeseeQuestion;

typedef struct ForeseeAnswer {
    Foresight foresight; /* in the arena, as all of this */
    int way;             /* rows that were asked for, or FORESIGHT_ALL */
    int tank;            /* */
    int loop;            /* */
    const char *notices[FORESEE_NOTICES_MAX];
    int notice_count;
} ForeseeAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND for a way, tank or loop that
 * it does not have, with the nearest name; ERR_RANGE for weeks that cannot be
 * foreseen from its tables. */
NODISCARD Err foresee_answer(const ForeseeQuestion *question, Arena *arena,
                             ForeseeAnswer *out);

#endif
