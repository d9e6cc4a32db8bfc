/* What a server can be asked, as JSON. */
#include "json/routes.h"

#include <jansson.h>

#include "json/text.h"

static json_t *keys_of(const JsonRoute *route)
{
    json_t *keys = json_array();
    for (int i = 0; i < route->key_count; i++) {
        const JsonRouteKey *key = &route->keys[i];
        json_t *item = json_object();
        json_put(item, "name", json_string(key->name));
        json_put(item, "example", json_string(key->example));
        json_put(item, "meaning", json_string(key->meaning));
        json_put(item, "needed", json_boolean(key->is_needed));
        json_array_append_new(keys, item);
    }
    return keys;
}

const char *json_routes(const JsonRoute *routes, int count, Arena *arena)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        const JsonRoute *route = &routes[i];
        json_t *item = json_object();
        json_put(item, "method", json_string(route->method));
        json_put(item, "path", json_string(route->path));
        json_put(item, "role", json_string(route->role));
        json_put(item, "purpose", json_string(route->purpose));
        json_put(item, "any_key", json_boolean(route->takes_any_key));
        json_put(item, "body_max_bytes",
                 json_integer((json_int_t)route->body_max_bytes));
        json_put(item, "keys", keys_of(route));
        json_array_append_new(list, item);
    }
    json_t *page = json_object();
    json_put(page, "routes", list);
    return json_text_take(page, arena);
}
