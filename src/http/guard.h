/* Which requests are let in at all, by their headers. Pure: no socket.
 *
 * A page of somewhere else must neither read answers nor cause changes, also
 * not through a name that it makes point here (DNS rebinding): Host must be one
 * of this server's own names, an Origin must be this server's, and a write is
 * JSON (or a picture or sound where the route takes one), which a foreign page
 * cannot send without being asked first. */
#ifndef LEAT_HTTP_GUARD_H
#define LEAT_HTTP_GUARD_H

#include <stdbool.h>

#include "base/err.h"

enum { GUARD_NAMES_MOST = 32, GUARD_NAME_SIZE = 80 };

typedef struct Guard {
    bool is_tls;
    int port;
    char names[GUARD_NAMES_MOST][GUARD_NAME_SIZE]; /* "localhost", "[::1]" */
    int name_count;
} Guard;

/* Names of the loopback. */
void guard_init(Guard *guard, int port, bool is_tls);

/* One more name or address; one too many, or too long, is left out. An IPv6
 * address comes without brackets. */
void guard_add_name(Guard *guard, const char *name);

typedef struct GuardHeaders {
    const char *method; /* NULL for each that did not come */
    const char *host;
    const char *origin;
    const char *fetch_site; /* Sec-Fetch-Site */
    const char *content_type;
} GuardHeaders;

/* ERR_USAGE: no such Host; ERR_CONFLICT: from another place, to be answered
 * with 403. Content types are the route's to check (guard_is_json). */
NODISCARD Err guard_check(const Guard *guard, const GuardHeaders *headers);

bool guard_is_json(const char *content_type);

/* A picture or a sound as phones make them. */
bool guard_is_media(const char *content_type);

#endif
