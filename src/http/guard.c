/* Which requests are let in at all. */
#include "http/guard.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { HTTP_PORT = 80, HTTPS_PORT = 443 };

void guard_init(Guard *guard, int port, bool is_tls)
{
    *guard = (Guard){.is_tls = is_tls, .port = port};
    guard_add_name(guard, "localhost");
    guard_add_name(guard, "127.0.0.1");
    guard_add_name(guard, "::1");
}

void guard_add_name(Guard *guard, const char *name)
{
    bool is_six = strchr(name, ':') != NULL;
    if (guard->name_count == GUARD_NAMES_MOST || *name == '\0' ||
        strlen(name) + 3 > GUARD_NAME_SIZE) {
        return;
    }
    (void)snprintf(guard->names[guard->name_count++], GUARD_NAME_SIZE,
                   is_six ? "[%s]" : "%s", name);
}

/* "name:port"; without a port where it is the scheme's own. */
static bool is_own(const Guard *guard, const char *host)
{
    int usual = guard->is_tls ? HTTPS_PORT : HTTP_PORT;
    for (int i = 0; i < guard->name_count; i++) {
        size_t length = strlen(guard->names[i]);
        if (strncasecmp(host, guard->names[i], length) != 0) {
            continue;
        }
        const char *rest = host + length;
        char port[16];
        (void)snprintf(port, sizeof port, ":%d", guard->port);
        if (strcmp(rest, port) == 0 ||
            (*rest == '\0' && guard->port == usual)) {
            return true;
        }
    }
    return false;
}

static bool is_own_origin(const Guard *guard, const char *origin)
{
    const char *scheme = guard->is_tls ? "https://" : "http://";
    size_t length = strlen(scheme);
    return strncmp(origin, scheme, length) == 0 &&
           is_own(guard, origin + length);
}

static bool is_write(const char *method)
{
    return strcmp(method, "GET") != 0 && strcmp(method, "HEAD") != 0;
}

Err guard_check(const Guard *guard, const GuardHeaders *headers)
{
    if (!headers->host || !is_own(guard, headers->host)) {
        return err_make(ERR_USAGE, "this is not %.80s",
                        headers->host ? headers->host
                                      : "a server for requests "
                                        "without a Host");
    }
    if (headers->origin && !is_own_origin(guard, headers->origin)) {
        return err_make(ERR_CONFLICT, "asked by a page of another place");
    }
    const char *site = headers->fetch_site;
    bool is_foreign =
        site && strcmp(site, "same-origin") != 0 && strcmp(site, "none") != 0;
    if (is_foreign && is_write(headers->method)) {
        return err_make(ERR_CONFLICT, "asked by a page of another place");
    }
    return ERR_NONE;
}

/* Whether a content type is that word, whatever follows the semicolon. */
static bool is_type(const char *content_type, const char *type)
{
    size_t length = strlen(type);
    return content_type && strncasecmp(content_type, type, length) == 0 &&
           (content_type[length] == '\0' || content_type[length] == ';' ||
            content_type[length] == ' ');
}

bool guard_is_json(const char *content_type)
{
    return is_type(content_type, "application/json");
}

bool guard_is_media(const char *content_type)
{
    static const char *const TYPES[] = {
        "image/jpeg", "image/png",  "image/webp", "image/heic", "audio/webm",
        "audio/ogg",  "audio/mpeg", "audio/mp4",  "audio/wav",  "audio/aac"};
    for (size_t i = 0; i < sizeof TYPES / sizeof *TYPES; i++) {
        if (is_type(content_type, TYPES[i])) {
            return true;
        }
    }
    return false;
}
