/* How a shown figure was made: the page that shows it is worked out as it
 * always is, and the figure's own code writes its working meanwhile. */
#ifndef LEAT_DESK_WORKING_H
#define LEAT_DESK_WORKING_H

#include <stdint.h>

#include "base/working.h"

typedef struct WorkingQuestion {
    const char *dir;
    int32_t today;  /* DATE_ALWAYS: by the clock */
    WorkingKey key; /* id, figure NULL: all that there are */
} WorkingQuestion;

typedef struct WorkingAnswer {
    int32_t day;
    const char *title;
    Workings workings;   /* in the arena, as all of this */
    bool is_full;        /* JSON of all has each with its working */
    const Working *only; /* where one figure was asked for; else NULL */
} WorkingAnswer;

/* ERR_USAGE: no or an unknown "of"; ERR_NOT_FOUND: no such figure, with the
 * nearest; else as the page that shows it. */
NODISCARD Err working_answer(const WorkingQuestion *question, Arena *arena,
                             WorkingAnswer *out);

/* As JSON, see json/working.h. */
const char *working_answer_json(const WorkingAnswer *answer, Arena *arena);

#endif
