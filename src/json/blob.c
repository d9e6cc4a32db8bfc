/* A photo or voice note that was kept, as JSON. */
#include "json/blob.h"

#include <jansson.h>

#include "json/text.h"

const char *json_blob(const char *sha256, const char *type, Arena *arena)
{
    json_t *object = json_object();
    json_put(object, "sha256", json_string(sha256));
    json_put(object, "type", json_string(type));
    return json_text_take(object, arena);
}
