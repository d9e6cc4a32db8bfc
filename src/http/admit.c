/* Which request is let in. */
#include "http/admit.h"

#include <netinet/in.h>
#include <string.h>
#include <sys/socket.h>

#include "base/text.h"
#include "http/respond.h"

enum { BODIES_MAX_BYTES = 96 * 1024 * 1024 };

void admit_address(const Exchange *exchange, unsigned char *out)
{
    enum { HOUSE_BYTES = 8 };
    const union MHD_ConnectionInfo *info = MHD_get_connection_info(
        exchange->connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    memset(out, 0, ADDRESS_SIZE);
    if (info && info->client_addr->sa_family == AF_INET6) {
        const struct sockaddr_in6 *six =
            (const struct sockaddr_in6 *)info->client_addr;
        bool is_four = IN6_IS_ADDR_V4MAPPED(&six->sin6_addr);
        memcpy(out, &six->sin6_addr, is_four ? ADDRESS_SIZE : HOUSE_BYTES);
    } else if (info && info->client_addr->sa_family == AF_INET) {
        const struct sockaddr_in *four =
            (const struct sockaddr_in *)info->client_addr;
        memcpy(out, &four->sin_addr, sizeof four->sin_addr);
    }
}

size_t admit_bytes(const Exchange *exchange)
{
    const char *text = exchange_header(exchange, "Content-Length");
    double length = 0.0;
    if (text) {
        Err err = text_to_f64(text, &length);
        length = err.kind == ERR_OK && length >= 0.0 ? length : 0.0;
    }
    return length < 1e15 ? (size_t)length : (size_t)1e15;
}

static bool is_api(const char *path)
{
    return strncmp(path, "/api", 4) == 0 || strncmp(path, "/print/", 7) == 0;
}

static bool is_write(const char *method)
{
    return strcmp(method, "GET") != 0 && strcmp(method, "HEAD") != 0;
}

/* Whose cookie came with it; without --lan everybody here is the owner. */
static Err identify(Exchange *exchange)
{
    Server *server = exchange->server;
    Requester *requester = &exchange->request.requester;
    *requester = (Requester){.who = "",
                             .role = ROLE_OWNER,
                             .hand = "",
                             .language = "",
                             .session = ""};
    if (!server->ask->is_lan) {
        return ERR_NONE;
    }
    unsigned char address[ADDRESS_SIZE];
    admit_address(exchange, address);
    const char *token = MHD_lookup_connection_value(
        exchange->connection, MHD_COOKIE_KIND, RESPOND_COOKIE);
    SessionAsk ask = {.dir = server->ask->dir,
                      .token = token ? token : "",
                      .address = address,
                      .now_ms = server_now_ms(),
                      .now_s = server_now_s()};
    TRY(sessions_find(&server->sessions, &ask, requester));
    Arena *arena = &exchange->arena;
    requester->who = arena_copy_text(arena, requester->who);
    requester->hand = arena_copy_text(arena, requester->hand);
    requester->language = arena_copy_text(arena, requester->language);
    requester->session = arena_copy_text(arena, requester->session);
    requester->is_lan = true;
    return ERR_NONE;
}

/* Whether the one who asks may; out_status as admit_request. */
static Err check_role(Exchange *exchange, int *out_status)
{
    Err err = identify(exchange);
    *out_status = err.kind == ERR_LIMIT ? STATUS_TOO_OFTEN : 0;
    if (err.kind == ERR_LIMIT && exchange->route->role == ROLE_ANYONE) {
        *out_status = 0; /* the emergency card is for strangers too */
        return ERR_NONE;
    }
    TRY(err);
    PeopleRole role = exchange->request.requester.role;
    if (role >= exchange->route->role) {
        return ERR_NONE;
    }
    *out_status = role == ROLE_ANYONE ? STATUS_UNKNOWN : STATUS_FORBIDDEN;
    return role == ROLE_ANYONE
               ? err_make(ERR_USAGE, "log in first")
               : err_make(ERR_USAGE, "that is for: %s",
                          people_role_word(exchange->route->role));
}

/* JSON, or a picture or sound where the route takes one. */
static Err check_type(Exchange *exchange, const char *type)
{
    bool takes_media = exchange->route->takes_media;
    if (!(takes_media ? guard_is_media(type) : guard_is_json(type))) {
        return err_make(ERR_USAGE, "Content-Type must be %s",
                        takes_media ? "that of a picture or a sound"
                                    : "application/json");
    }
    exchange->request.content_type = arena_copy_text(&exchange->arena, type);
    return ERR_NONE;
}

Err admit_request(Exchange *exchange, int *out_status)
{
    const Request *request = &exchange->request;
    GuardHeaders headers = {
        .method = request->method,
        .host = exchange_header(exchange, "Host"),
        .origin = exchange_header(exchange, "Origin"),
        .fetch_site = exchange_header(exchange, "Sec-Fetch-Site"),
        .content_type = exchange_header(exchange, "Content-Type")};
    Err err = guard_check(&exchange->server->guard, &headers);
    *out_status = err.kind == ERR_CONFLICT ? STATUS_FORBIDDEN : 0;
    if (err.kind != ERR_OK) {
        return err;
    }
    if (!is_api(request->path) && !is_write(request->method)) {
        return ERR_NONE;
    }
    TRY(route_find(request->method, request->path, &exchange->route));
    TRY(check_role(exchange, out_status));
    if (admit_bytes(exchange) > exchange->route->body_max_bytes) {
        *out_status = STATUS_TOO_LONG;
        return err_make(ERR_LIMIT, "%s takes at most %zu bytes", request->path,
                        exchange->route->body_max_bytes);
    }
    /* A foreign page cannot send DELETE without being asked first. */
    if (is_write(request->method) && strcmp(request->method, "DELETE") != 0) {
        *out_status = STATUS_WRONG_TYPE;
        TRY(check_type(exchange, headers.content_type));
        *out_status = 0;
    }
    if (exchange->server->body_bytes > BODIES_MAX_BYTES) {
        return err_make(ERR_BUSY, "too much is being sent here; try again");
    }
    return ERR_NONE;
}
