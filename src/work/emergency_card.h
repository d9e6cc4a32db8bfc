/* The emergency as one page in the order in which things are done: safety, air,
 * how long, water and heat, feed, beds, whom to ring, restart, afterwards. */
#ifndef LEAT_WORK_EMERGENCY_CARD_H
#define LEAT_WORK_EMERGENCY_CARD_H

#include "work/emergency.h"

enum { CARD_LINES_MAX = 28, CARD_TANKS_MAX = 12 };

typedef enum CardPart {
    CARD_SAFETY,
    CARD_AIR,
    CARD_TIME,
    CARD_WATER,
    CARD_WARMTH,
    CARD_FEED,
    CARD_BEDS,
    CARD_RING,
    CARD_RESTART,
    CARD_AFTER,
    CARD_PARTS,
} CardPart;

typedef struct CardLine {
    const char *text; /* Borrowed from the arena or constant. */
    bool is_row;      /* of a table: columns stand under each other */
} CardLine;

typedef struct CardStep {
    const char *title;
    CardLine lines[CARD_LINES_MAX];
    int count; /* 0: not told in this emergency */
} CardStep;

typedef struct Card {
    const char *title; /* "pump-1 stands still" */
    const char *when;  /* "Tue 2 Mar 2027 02:10" */
    const char *what;  /* what hangs on it, in one or two sentences */
    CardStep steps[CARD_PARTS];
    const char *foot; /* what the card is not */
} Card;

/* when: the moment in the farm's civil time, as it shall be shown; clock: the
 * same as minutes of the day, for "by 02:25"; farm_name as on its first line.
 */
typedef struct CardAsk {
    const Emergency *emergency; /* Borrowed. */
    const char *when;           /* Borrowed. */
    int minute_of_day;
} CardAsk;

void emergency_card(const CardAsk *ask, Arena *arena, Card *out);

/* A span as people say it, rounded to the safe side and never to the minute:
 * "15 to 60 min", "2.5 h or more", "now", "air holds it". */
const char *emergency_span_text(const AlarmSpan *span, Arena *arena);

#endif
