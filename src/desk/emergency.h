/* An emergency: read the farm as it is, work out how long, make the card. */
#ifndef LEAT_DESK_EMERGENCY_H
#define LEAT_DESK_EMERGENCY_H

#include "work/emergency_card.h"

typedef struct EmergencyQuestion {
    const char *dir;
    /* One of these, the others NULL: ids, or power "all". */
    const char *pump;
    const char *heater;
    const char *aerator;
    const char *power;
    const char *at;   /* see desk/moment.h; NULL: now */
    int32_t today;    /* DATE_ALWAYS: by the clock */
    const char *tank; /* of which the values are told; NULL: of all */
    double temp_degc; /* NAN where not told, as the next */
    double oxygen_mg_l;
    double fed_hours_ago;
    double outside_degc;
} EmergencyQuestion;

typedef struct EmergencyAnswer {
    const char *farm_name; /* in the arena, as all of this */
    Emergency emergency;
    Card card;
} EmergencyAnswer;

/* ERR_USAGE: none or more than one of what stopped, a value out of range;
 * ERR_NOT_FOUND: a pump, heater, aerator or tank that the farm lacks, with
 * those it has. Faults in the farm are no error: they widen the answer and are
 * told in it. */
NODISCARD Err emergency_answer(const EmergencyQuestion *question, Arena *arena,
                               EmergencyAnswer *out);

/* The card as a page for an A4 sheet, written to a file. ERR_IO. */
NODISCARD Err emergency_save_page(const EmergencyAnswer *answer,
                                  const char *path, Arena *arena);

#endif
