/* JSON values as text. */
#include "json/text.h"

#include <assert.h>

#include <jansson.h>

const char *json_text_take(struct json_t *value, Arena *arena)
{
    size_t flags = JSON_INDENT(2) | JSON_REAL_PRECISION(15);
    size_t length = json_dumpb(value, NULL, 0, flags);
    assert(length > 0);
    char *text = arena_alloc(arena, length + 2, 1);
    json_dumpb(value, text, length, flags);
    text[length] = '\n';
    json_decref(value);
    return text;
}
