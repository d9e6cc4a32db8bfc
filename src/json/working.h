/* How a figure was made, as JSON. */
#ifndef LEAT_JSON_WORKING_H
#define LEAT_JSON_WORKING_H

#include <stdint.h>

#include "base/working.h"

typedef struct WorkingJson {
    int32_t day;
    const char *title;
    const Workings *all; /* Borrowed, as the next. */
    const Working *only; /* NULL: a list of all */
    bool is_full;        /* of a list: each with its working */
} WorkingJson;

struct json_t;

/* A list of all, each with its working as told below. */
struct json_t *workings_json(const Workings *all, Arena *arena);

/* One: {"day", "title", "of", "id", "figure", "name", "value", "low", "high",
 * "unit", "words", "symbols", "inputs": [{"symbol", "name", "value", "low",
 * "high", "unit", "from": "book"|"yours"|"guess"|"told"|"table"|"plan"|
 * "foreseen"|"worked", "on", "sources", "opens": {"of", "id", "figure"}|null}],
 * "notes": [text], "sources": [{"key", "text"}]}; with unit "date" the three
 * values are days. Of a key that is not in the list of sources text is null.
 * All: {"day", "title", "figures": [{"of", "id", "figure", "name", "value",
 * "low", "high", "unit"}]}, or, full, each as above. */
const char *working_to_json(const WorkingJson *page, Arena *arena);

#endif
