/* What readings mean, as JSON. */
#ifndef LEAT_JSON_READING_H
#define LEAT_JSON_READING_H

#include "work/judge.h"

/* Everything is borrowed. */
typedef struct ReadingJson {
    const char *where;
    const char *when;
    const Judge *judge;
    const JudgeDose *doses;
    int dose_count;
    const char *dose_lacks; /* NULL: nothing */
    const char *const *notices;
    int notice_count;
} ReadingJson;

/* Text in the arena; a quantity that is not known is null. */
const char *reading_to_json(const ReadingJson *reading, Arena *arena);

#endif
