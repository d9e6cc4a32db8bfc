/* The day's sheets for paper. */
#ifndef LEAT_DESK_SHEETS_H
#define LEAT_DESK_SHEETS_H

#include "desk/round.h"
#include "out/sheets_page.h"

typedef struct SheetsQuestion {
    const char *dir;
    int32_t today;     /* DATE_ALWAYS: by the clock */
    const char *kinds; /* "round,pick"; NULL: all */
    const char *file;  /* where the page is written; NULL: nowhere */
} SheetsQuestion;

typedef struct SheetsAnswer {
    RoundAnswer round; /* in the arena, as all of this */
    Sheet sheets[SHEET_KIND_COUNT];
    int32_t count;
    const char *page; /* HTML */
} SheetsAnswer;

/* Fails as round_answer does; ERR_USAGE: an unknown kind; ERR_IO: the file
 * cannot be written. */
NODISCARD Err sheets_answer(const SheetsQuestion *question, Arena *arena,
                            SheetsAnswer *out);

/* As JSON, see json/sheets.h. */
const char *sheets_answer_json(const SheetsAnswer *answer, Arena *arena);

#endif
