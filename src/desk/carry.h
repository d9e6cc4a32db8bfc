/* Do the fish carry the beds? A year of the coupled hour in the typical year's
 * weather. */
#ifndef LEAT_DESK_CARRY_H
#define LEAT_DESK_CARRY_H

#include "work/carry.h"

enum { CARRY_WEEKS_USUAL = 52, CARRY_WEEKS_MOST = 104, CARRY_NOTICES_MOST = 4 };

typedef struct CarryQuestion {
    const char *dir;
    int weeks;
    bool has_iron;      /* iron is given every three weeks */
    const char *loop;   /* an id; NULL for all */
    double spell_k;     /* other weather asked for: so much warmer; NAN: the
                           forecast of the farm's table, if there is one */
    int spell_days;     /* 1..60; 0: the forecast, as for NAN */
    int32_t spell_from; /* DATE_ALWAYS: the coldest or hottest such days */
} CarryQuestion;

typedef struct CarryAnswer {
    const char *farm_name; /* Borrowed from the arena, as all of this. */
    Carry carry;
    int loop; /* row asked for, or -1 */
    const char *notices[CARRY_NOTICES_MOST];
    int notice_count;
} CarryAnswer;

/* Nothing asked for but the year: 7 days where a spell is. */
CarryQuestion carry_usual_question(const char *dir);

/* ERR_RANGE for a spell out of range or outside the weeks.
 * ERR_INPUT for a farm with faults or without a loop; ERR_NOT_FOUND for a loop
 * that it does not have. */
NODISCARD Err carry_answer(const CarryQuestion *question, Arena *arena,
                           CarryAnswer *out);

#endif
