/* What warmth costs and brings: water floors compared, plants in a hot spell.
 */
#ifndef LEAT_DESK_HEAT_H
#define LEAT_DESK_HEAT_H

#include "work/heat.h"

enum { HEAT_NOTICES_MOST = 4, HEAT_WEEKS_USUAL = 52 };

typedef struct HeatQuestion {
    const char *dir;
    int32_t day; /* a day of the first week; DATE_ALWAYS: by the clock */
    int weeks;   /* 4..104 */
    double floors_degc[HEAT_FLOORS_MOST];
    int floor_count;
    bool has_spell;     /* the next three are asked for; else the forecast's
                           hot days go before them */
    int32_t spell_from; /* DATE_ALWAYS: the hottest days of the weeks */
    int spell_days;     /* 1..60 */
    double spell_k;     /* 0.5..15 */
} HeatQuestion;

typedef struct HeatAnswer {
    const Farm *farm; /* in the arena, as all of this */
    int32_t first_week;
    int weeks;
    HeatFloor floors[HEAT_FLOORS_MOST + 1]; /* first: as the tables have it */
    int floor_count;                        /* 0: no heater warms a loop */
    HeatPlants plants;
    const char *notices[HEAT_NOTICES_MOST];
    int notice_count;
} HeatAnswer;

/* Floors 16, 18, 20, 22 degC; a fortnight 6 K over the typical year. */
HeatQuestion heat_usual_question(const char *dir);

/* ERR_INPUT for a farm with faults; ERR_RANGE for a number or weeks out of
 * range; else as foresight. */
NODISCARD Err heat_answer(const HeatQuestion *question, Arena *arena,
                          HeatAnswer *out);

#endif
