/* What a server can be asked, as JSON. */
#ifndef LEAT_JSON_ROUTES_H
#define LEAT_JSON_ROUTES_H

#include <stdbool.h>

#include "base/arena.h"

typedef struct JsonRouteKey {
    const char *name;
    const char *example;
    const char *meaning;
    bool is_needed;
} JsonRouteKey;

typedef struct JsonRoute {
    const char *method;
    const char *path;
    const char *role;
    const char *purpose;
    const JsonRouteKey *keys; /* Borrowed, as all of this. */
    int key_count;
    bool takes_any_key;
    size_t body_max_bytes;
} JsonRoute;

/* {"routes":[{"method","path","role","purpose","any_key","body_max_bytes",
 * "keys":[{"name","example","meaning","needed"}]}]} */
const char *json_routes(const JsonRoute *routes, int count, Arena *arena);

#endif
