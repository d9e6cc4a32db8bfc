/* GET /api: what can be asked here. */
#include "http/routes.h"
#include "json/routes.h"

Err api_routes_decode(const Request *request, Arena *arena, void *question)
{
    (void)request;
    (void)arena;
    (void)question;
    return ERR_NONE;
}

static JsonRoute row_of(const Route *route, Arena *arena)
{
    int count = 0;
    while (route->keys && route->keys[count].name) {
        count++;
    }
    JsonRouteKey *keys = ARENA_ARRAY(arena, JsonRouteKey, count);
    for (int i = 0; i < count; i++) {
        const RouteKey *key = &route->keys[i];
        keys[i] =
            (JsonRouteKey){key->name, key->value, key->meaning, key->is_needed};
    }
    return (JsonRoute){
        .method = route->method,
        .path = route->path,
        .role = people_role_word(route->role),
        .purpose = route->purpose,
        .keys = keys,
        .key_count = count,
        .takes_any_key = route->takes_any_key,
        .body_max_bytes = route->body_max_bytes,
    };
}

Err api_routes_answer(const void *question, Arena *arena, Reply *out)
{
    (void)question;
    size_t count = 0;
    const Route *routes = routes_all(&count);
    JsonRoute *rows = ARENA_ARRAY(arena, JsonRoute, count);
    for (size_t i = 0; i < count; i++) {
        rows[i] = row_of(&routes[i], arena);
    }
    *out = reply_json(json_routes(rows, (int)count, arena));
    return ERR_NONE;
}
