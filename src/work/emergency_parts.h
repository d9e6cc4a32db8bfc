/* What the files of the card share; only they include this. */
#ifndef LEAT_WORK_EMERGENCY_PARTS_H
#define LEAT_WORK_EMERGENCY_PARTS_H

#include "work/emergency_card.h"

typedef struct CardWork {
    const CardAsk *ask;
    const Emergency *e;
    const Farm *farm;
    Arena *arena;
    Card *card;
} CardWork;

/* Adds a line, or a row of a table; a part that is full drops it. */
void card_say(const CardWork *work, CardPart part, const char *format, ...)
    PRINTF_LIKE(3, 4);
void card_row(const CardWork *work, CardPart part, const char *format, ...)
    PRINTF_LIKE(3, 4);

/* Characters of a text of UTF-8. */
int card_columns(const char *text);

/* The text, filled up with spaces to so many columns, at its left where width
 * is below 0. */
const char *card_cell(const CardWork *work, const char *text, int width);

/* "A, C and 3 more" of the marked rows of a table whose rows begin with a line
 * number and their id; most names at the most. */
typedef struct CardNames {
    const char *(*id)(const Farm *farm, int32_t row);
    const bool *marked;
    int32_t count;
    int most;
} CardNames;
const char *card_names(const CardWork *work, const CardNames *names);

const char *card_tank_id(const Farm *farm, int32_t row);

/* The parts with figures. */
void card_tell_air(const CardWork *work);
void card_tell_time(const CardWork *work);
void card_tell_cold(const CardWork *work);
void card_tell_water(const CardWork *work);
void card_tell_beds(const CardWork *work);

#endif
