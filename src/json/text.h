/* JSON values as text, in one way everywhere. */
#ifndef LEAT_JSON_TEXT_H
#define LEAT_JSON_TEXT_H

#include "base/arena.h"

struct json_t;

/* The value as indented text with a closing newline, in the arena; numbers
 * with 15 digits. The value is released. */
const char *json_text_take(struct json_t *value, Arena *arena);

/* The value as one line without a closing newline, in the arena; the value is
 * kept. */
char *json_text_line(const struct json_t *value, Arena *arena);

/* Sets a key of an object; the value is the object's from then on. */
void json_put(struct json_t *object, const char *key, struct json_t *value);

#endif
