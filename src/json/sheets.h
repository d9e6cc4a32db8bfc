/* The day's sheets as JSON: what a filled sheet is keyed back with. */
#ifndef LEAT_JSON_SHEETS_H
#define LEAT_JSON_SHEETS_H

#include "work/sheets.h"

typedef struct SheetsJson {
    int32_t day;
    const char *title;
    const Sheet *sheets; /* Borrowed, as all of this. */
    int32_t count;
} SheetsJson;

/* {"day", "title", "sheets": [{"kind", "title", "rows": [{"number", "stop",
 * "plate", "picture", "text", "note", "fields": [{"label", "fill", "usual",
 * "entry"}]}]}]}. A heading has number 0. fill: the key of the entry that the
 * number written in the blank becomes ("text", "lot": the words); null: a box
 * to tick. entry: as it is posted with that key put in; null where the box or
 * blank is part of the field after or before it. */
const char *sheets_to_json(const SheetsJson *page, Arena *arena);

#endif
