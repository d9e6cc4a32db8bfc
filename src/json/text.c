/* JSON values as text. */
#include "json/text.h"

#include <assert.h>
#include <string.h>

#include <jansson.h>

static char *dump(const json_t *value, size_t flags, Arena *arena)
{
    size_t length = json_dumpb(value, NULL, 0, flags);
    assert(length > 0);
    char *text = arena_alloc(arena, length + 2, 1);
    json_dumpb(value, text, length, flags);
    return text;
}

const char *json_text_take(struct json_t *value, Arena *arena)
{
    char *text = dump(value, JSON_INDENT(2) | JSON_REAL_PRECISION(15), arena);
    text[strlen(text)] = '\n';
    json_decref(value);
    return text;
}

char *json_text_line(const struct json_t *value, Arena *arena)
{
    return dump(value, JSON_COMPACT | JSON_REAL_PRECISION(15), arena);
}

void json_put(json_t *object, const char *key, json_t *value)
{
    json_object_set_new(object, key, value);
}
