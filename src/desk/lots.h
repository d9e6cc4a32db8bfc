/* Lots of produce on a day: what is in the cold store, and traces. */
#ifndef LEAT_DESK_LOTS_H
#define LEAT_DESK_LOTS_H

#include "desk/today.h"
#include "work/lots.h"

/* Which lots; NULL, DATE_ALWAYS and DATE_NEVER: any. Where nothing at all is
 * asked for: those of which something is left. */
typedef struct LotsQuestion {
    const char *dir;
    int32_t today;     /* DATE_ALWAYS: by the clock */
    const char *lot;   /* its id */
    const char *way;   /* */
    const char *place; /* picked at that bed */
    const char *buyer; /* who got of it */
    int32_t from;      /* picked from that day on, */
    int32_t until;     /* up to that one */
} LotsQuestion;

typedef struct LotsAnswer {
    Today today; /* in the arena, as all of this */
    Lots lots;   /* all of the last LOTS_BACK_D days */
    Lot *shown;  /* those asked for, traced */
    int32_t shown_count;
    bool is_any_asked; /* false: the store */
} LotsAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND: no such way, bed, buyer or
 * lot. */
NODISCARD Err lots_answer(const LotsQuestion *question, Arena *arena,
                          LotsAnswer *out);

/* As JSON, see json/lots.h. */
const char *lots_answer_json(const LotsAnswer *answer, Arena *arena);

#endif
