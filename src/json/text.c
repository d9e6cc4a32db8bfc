/* JSON values as text. */
#include "json/text.h"

#include <assert.h>
#include <stdlib.h>

#include <jansson.h>

const char *json_text_take(struct json_t *value, Arena *arena)
{
    char *text = json_dumps(value, JSON_INDENT(2) | JSON_REAL_PRECISION(15));
    assert(text);
    const char *copy = arena_text(arena, "%s\n", text);
    free(text);
    json_decref(value);
    return copy;
}
