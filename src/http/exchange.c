/* One request from its first header to its answer: who may ask, the body
 * collected, the answer from the pages, the loop, what is kept, or a helper. */
#include "http/exchange.h"

#include <string.h>
#include <time.h>

#include <microhttpd.h>

#include "base/text.h"
#include "desk/folder_stamp.h"
#include "http/pages.h"

enum {
    STATUS_OK = 200,
    STATUS_NOT_CHANGED = 304,
    STATUS_FORBIDDEN = 403,
    STATUS_TOO_LONG = 413,
    STATUS_WRONG_TYPE = 415,
    STATUS_LATER = 503,
    BODIES_MAX_BYTES = 96 * 1024 * 1024,
    QUARTER_S = 15 * 60,
    MINUTE_S = 60,
    /* A folder written so shortly before it was read may be written again
     * without a new time on its files. */
    FRESH_NS = 100 * 1000 * 1000,
};

#define POLICY                                                                 \
    "default-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; " \
    "object-src 'none'; base-uri 'none'; form-action 'self'; "                 \
    "frame-ancestors 'none'"
/* A page for paper: its own style, no script at all. */
#define POLICY_PAPER                                                           \
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; "           \
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

int64_t server_now_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

int64_t server_now_s(void)
{
    return (int64_t)time(NULL);
}

static void add_headers(struct MHD_Response *response, const char *type,
                        const char *policy)
{
    MHD_add_response_header(response, "Content-Type", type);
    MHD_add_response_header(response, "Content-Security-Policy", policy);
    MHD_add_response_header(response, "X-Content-Type-Options", "nosniff");
    MHD_add_response_header(response, "Referrer-Policy", "no-referrer");
    MHD_add_response_header(response, "Cross-Origin-Opener-Policy",
                            "same-origin");
    MHD_add_response_header(response, "Cross-Origin-Resource-Policy",
                            "same-origin");
    MHD_add_response_header(response, "Cache-Control", "private, no-cache");
}

static struct MHD_Response *server_response(const Reply *reply,
                                            const char *etag)
{
    struct MHD_Response *response = MHD_create_response_from_buffer(
        reply->length, (void *)reply->body, MHD_RESPMEM_MUST_COPY);
    bool is_paper = strncmp(reply->type, "text/html", strlen("text/html")) == 0;
    add_headers(response, reply->type, is_paper ? POLICY_PAPER : POLICY);
    if (etag) {
        MHD_add_response_header(response, "ETag", etag);
    }
    if (reply->status == STATUS_LATER) {
        MHD_add_response_header(response, "Retry-After", "2");
    }
    return response;
}

static const char *header_of(const Exchange *exchange, const char *name)
{
    return MHD_lookup_connection_value(exchange->connection, MHD_HEADER_KIND,
                                       name);
}

/* Sends a response that has its headers; 304 where the client has it. */
static enum MHD_Result send_response(Exchange *exchange,
                                     struct MHD_Response *response, int status,
                                     const char *etag, size_t length)
{
    const char *known = header_of(exchange, "If-None-Match");
    watch_set(exchange->watch, WATCH_SENDING, length, server_now_ms());
    if (etag && known && status == STATUS_OK && strstr(known, etag)) {
        struct MHD_Response *same = MHD_create_response_from_buffer(
            0, (void *)"", MHD_RESPMEM_PERSISTENT);
        MHD_add_response_header(same, "ETag", etag);
        MHD_add_response_header(same, "Cache-Control", "private, no-cache");
        enum MHD_Result sent =
            MHD_queue_response(exchange->connection, STATUS_NOT_CHANGED, same);
        MHD_destroy_response(same);
        return sent;
    }
    return MHD_queue_response(exchange->connection, (unsigned)status, response);
}

static enum MHD_Result send_reply(Exchange *exchange, const Reply *reply)
{
    struct MHD_Response *response = server_response(reply, NULL);
    enum MHD_Result sent =
        send_response(exchange, response, reply->status, NULL, reply->length);
    MHD_destroy_response(response);
    return sent;
}

static enum MHD_Result send_refusal(Exchange *exchange, const Err *err,
                                    int status)
{
    Reply reply = reply_error(err, &exchange->arena);
    reply.status = status ? status : reply.status;
    return send_reply(exchange, &reply);
}

/* ---- Pages ----------------------------------------------------------------
 */

static bool is_gzip_understood(const Exchange *exchange)
{
    const char *accepted = header_of(exchange, "Accept-Encoding");
    return accepted && strstr(accepted, "gzip") != NULL;
}

static enum MHD_Result send_page(Exchange *exchange, const Page *page)
{
    bool is_packed = page->packed && is_gzip_understood(exchange);
    const char *bytes = is_packed ? page->packed : page->bytes;
    size_t length = is_packed ? page->packed_length : page->length;
    char etag[24];
    kept_etag(bytes, length, etag);
    struct MHD_Response *response = MHD_create_response_from_buffer(
        length, (void *)bytes, MHD_RESPMEM_PERSISTENT);
    add_headers(response, page->type, POLICY);
    MHD_add_response_header(response, "ETag", etag);
    MHD_add_response_header(response, "Vary", "Accept-Encoding");
    if (is_packed) {
        MHD_add_response_header(response, "Content-Encoding", "gzip");
    }
    enum MHD_Result sent =
        send_response(exchange, response, STATUS_OK, etag, length);
    MHD_destroy_response(response);
    return sent;
}

/* ---- Helpers --------------------------------------------------------------
 */

/* The connection goes on: its handler is called again and sends the answer. */
static void wake(Exchange *exchange)
{
    exchange->is_answered = true;
    exchange->server->has_woken = true;
    MHD_resume_connection(exchange->connection);
}

static enum MHD_Result wait(Exchange *exchange)
{
    watch_set(exchange->watch, WATCH_ANSWER, 0, server_now_ms());
    MHD_suspend_connection(exchange->connection);
    return MHD_YES;
}

/* A kept answer has come: all that wait for it get it. */
static void kept_done(void *context, const Reply *reply)
{
    Kept *kept = context;
    Exchange *waiting = kept->waiting;
    KeptAll *all = &waiting->server->kept;
    kept->waiting = NULL;
    kept_etag(reply->body, reply->length, kept->etag);
    const char *etag = reply->status == STATUS_OK ? kept->etag : NULL;
    kept_finish(all, kept, server_response(reply, etag), reply);
    while (waiting) {
        Exchange *next = waiting->next_waiting;
        wake(waiting);
        waiting = next;
    }
}

static KeptKey key_of(Exchange *exchange, const FolderStamp *stamp)
{
    const Request *request = &exchange->request;
    Arena *arena = &exchange->arena;
    const char *text =
        arena_text(arena, "%s %d", request->path, (int)request->today);
    for (int i = 0; i < request->query_count; i++) {
        text = arena_text(arena, "%s\n%s=%s", text, request->query[i].key,
                          request->query[i].value);
    }
    int span_s = exchange->route->cost == ROUTE_MINUTE ? MINUTE_S : QUARTER_S;
    return (KeptKey){text, stamp->mark, server_now_s() / span_s};
}

static bool is_settled(const FolderStamp *stamp)
{
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    int64_t now_ns = (int64_t)now.tv_sec * 1000000000 + now.tv_nsec;
    return now_ns - stamp->newest_ns > FRESH_NS;
}

static enum MHD_Result send_kept(Exchange *exchange, const Kept *kept)
{
    const char *etag = kept->status == STATUS_OK ? kept->etag : NULL;
    return send_response(exchange, kept->response, kept->status, etag,
                         kept->bytes);
}

static enum MHD_Result ask_kept(Exchange *exchange)
{
    Server *server = exchange->server;
    FolderStamp stamp;
    Err err = folder_stamp(server->ask->dir, &stamp);
    if (err.kind != ERR_OK) {
        return send_refusal(exchange, &err, 0);
    }
    KeptKey key = key_of(exchange, &stamp);
    Kept *kept = kept_find(&server->kept, &key);
    if (kept && kept->state == KEPT_READY) {
        return send_kept(exchange, kept);
    }
    if (!kept) {
        kept = kept_begin(&server->kept, &key);
        err = kept ? helpers_ask(&server->helpers, &exchange->request,
                                 kept_done, kept)
                   : err_make(ERR_BUSY, "too many questions; ask again");
        if (err.kind != ERR_OK) {
            if (kept) {
                kept_drop(&server->kept, kept);
            }
            return send_refusal(exchange, &err, 0);
        }
        kept->is_kept = is_settled(&stamp);
    }
    kept->users++; /* stays until it is sent */
    exchange->kept = kept;
    exchange->next_waiting = kept->waiting;
    kept->waiting = exchange;
    return wait(exchange);
}

static void once_done(void *context, const Reply *reply)
{
    Exchange *exchange = context;
    exchange->response = server_response(reply, NULL);
    exchange->status = reply->status;
    exchange->answer_bytes = reply->length;
    wake(exchange);
}

static enum MHD_Result ask_once(Exchange *exchange)
{
    Err err = helpers_ask(&exchange->server->helpers, &exchange->request,
                          once_done, exchange);
    return err.kind == ERR_OK ? wait(exchange)
                              : send_refusal(exchange, &err, 0);
}

/* ---- The answer ------------------------------------------------------------
 */

static enum MHD_Result answer_route(Exchange *exchange)
{
    const Route *route = exchange->route;
    Request *request = &exchange->request;
    Arena *arena = &exchange->arena;
    void *question = arena_alloc(arena, ROUTE_QUESTION_MOST, 1);
    Err err = route_decode(route, request, arena, question);
    if (err.kind != ERR_OK) {
        return send_refusal(exchange, &err, 0);
    }
    switch (route->cost) {
    case ROUTE_KEPT:
    case ROUTE_MINUTE:
        return ask_kept(exchange);
    case ROUTE_ONCE:
        return ask_once(exchange);
    case ROUTE_HERE:
    case ROUTE_SERVER:
        break;
    }
    Reply reply;
    err = route->answer(question, arena, &reply);
    return err.kind == ERR_OK ? send_reply(exchange, &reply)
                              : send_refusal(exchange, &err, 0);
}

/* Everything has come, or an answer waits to be sent. */
static enum MHD_Result answer(Exchange *exchange)
{
    if (exchange->is_answered && exchange->kept) {
        return send_kept(exchange, exchange->kept);
    }
    if (exchange->is_answered) {
        return send_response(exchange, exchange->response, exchange->status,
                             NULL, exchange->answer_bytes);
    }
    if (exchange->is_body_too_long) {
        Err err = err_make(ERR_LIMIT, "more than %zu bytes",
                           exchange->route ? exchange->route->body_max_bytes
                                           : (size_t)0);
        return send_refusal(exchange, &err, STATUS_TOO_LONG);
    }
    Page page;
    if (!exchange->route && pages_find(exchange->request.path, &page)) {
        return send_page(exchange, &page);
    }
    if (!exchange->route) {
        Err err = err_make(ERR_NOT_FOUND, "there is no such page");
        return send_refusal(exchange, &err, 0);
    }
    return answer_route(exchange);
}

/* ---- The first call: headers are there, the body is not -------------------
 */

static enum MHD_Result take_pair(void *context, enum MHD_ValueKind kind,
                                 const char *key, size_t key_length,
                                 const char *value, size_t value_length)
{
    (void)kind;
    Exchange *exchange = context;
    Err err = request_add(&exchange->request, key, key_length, value,
                          value_length, &exchange->arena);
    return err.kind == ERR_OK ? MHD_YES : MHD_NO;
}

static size_t announced_bytes(const Exchange *exchange)
{
    const char *text = header_of(exchange, "Content-Length");
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

/* Finds the route and says whether the request may go on; out_status: what a
 * refusal is answered with, 0: by its kind. */
static Err let_in(Exchange *exchange, int *out_status)
{
    const Request *request = &exchange->request;
    GuardHeaders headers = {.method = request->method,
                            .host = header_of(exchange, "Host"),
                            .origin = header_of(exchange, "Origin"),
                            .fetch_site = header_of(exchange, "Sec-Fetch-Site"),
                            .content_type =
                                header_of(exchange, "Content-Type")};
    Err err = guard_check(&exchange->server->guard, &headers);
    *out_status = err.kind == ERR_CONFLICT ? STATUS_FORBIDDEN : 0;
    if (err.kind != ERR_OK) {
        return err;
    }
    if (!is_api(request->path) && !is_write(request->method)) {
        return ERR_NONE;
    }
    TRY(route_find(request->method, request->path, &exchange->route));
    if (announced_bytes(exchange) > exchange->route->body_max_bytes) {
        *out_status = STATUS_TOO_LONG;
        return err_make(ERR_LIMIT, "%s takes at most %zu bytes", request->path,
                        exchange->route->body_max_bytes);
    }
    if (is_write(request->method) && !guard_is_json(headers.content_type)) {
        *out_status = STATUS_WRONG_TYPE;
        return err_make(ERR_USAGE, "Content-Type must be application/json");
    }
    if (exchange->server->body_bytes > BODIES_MAX_BYTES) {
        return err_make(ERR_BUSY, "too much is being sent here; try again");
    }
    return ERR_NONE;
}

static enum MHD_Result begin(Server *server, struct MHD_Connection *connection,
                             const char *path, const char *method,
                             void **out_exchange)
{
    Arena arena = {0};
    Exchange *exchange = ARENA_NEW(&arena, Exchange);
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    *exchange = (Exchange){.arena = arena,
                           .server = server,
                           .connection = connection,
                           .watch = info->socket_context};
    exchange->request = (Request){
        .dir = server->ask->dir,
        .method = arena_copy_text(&exchange->arena, method),
        .path = arena_copy_text(&exchange->arena, path),
        .body = "",
        .today = server->ask->today,
        .who = "",
        .role = ROLE_OWNER,
        .device = "",
    };
    *out_exchange = exchange;
    watch_set(exchange->watch, WATCH_BODY, announced_bytes(exchange),
              server_now_ms());
    int status = 0;
    Err err = let_in(exchange, &status);
    if (err.kind == ERR_OK) {
        int most = MHD_get_connection_values(connection, MHD_GET_ARGUMENT_KIND,
                                             NULL, NULL);
        int taken = MHD_get_connection_values_n(
            connection, MHD_GET_ARGUMENT_KIND, take_pair, exchange);
        if (taken != most || exchange->request.query_count != most) {
            err = err_make(ERR_USAGE, "the address cannot be read");
        }
    }
    return err.kind == ERR_OK ? MHD_YES : send_refusal(exchange, &err, status);
}

/* ---- What the library calls -----------------------------------------------
 */

static void take_body(Exchange *exchange, const char *bytes, size_t length)
{
    size_t most = exchange->route ? exchange->route->body_max_bytes : 0;
    Request *request = &exchange->request;
    if (exchange->is_body_too_long || request->body_length + length > most) {
        exchange->is_body_too_long = true;
        return;
    }
    size_t wanted = request->body_length + length + 1;
    if (wanted > exchange->body_room) {
        size_t room = 2 * wanted < most + 1 ? 2 * wanted : most + 1;
        exchange->body = arena_grow(&exchange->arena, exchange->body,
                                    request->body_length, room, 1);
        exchange->server->body_bytes += room - exchange->body_room;
        exchange->body_room = room;
    }
    memcpy(exchange->body + request->body_length, bytes, length);
    request->body_length += length;
    exchange->body[request->body_length] = '\0';
    request->body = exchange->body;
}

enum MHD_Result exchange_handle(void *server, struct MHD_Connection *connection,
                                const char *path, const char *method,
                                const char *version, const char *bytes,
                                size_t *length, void **exchange)
{
    (void)version;
    if (!*exchange) {
        return begin(server, connection, path, method, exchange);
    }
    if (*length > 0) {
        take_body(*exchange, bytes, *length);
        *length = 0;
        return MHD_YES;
    }
    return answer(*exchange);
}

void exchange_completed(void *server, struct MHD_Connection *connection,
                        void **context, enum MHD_RequestTerminationCode code)
{
    (void)connection;
    (void)code;
    Server *owner = server;
    Exchange *exchange = *context;
    if (!exchange) {
        return;
    }
    owner->body_bytes -= exchange->body_room;
    if (exchange->response) {
        MHD_destroy_response(exchange->response);
    }
    if (exchange->kept) {
        exchange->kept->users--;
    }
    watch_set(exchange->watch, WATCH_IDLE, 0, server_now_ms());
    Arena arena = exchange->arena;
    arena_release(&arena);
    *context = NULL;
}

void exchange_connection(void *server, struct MHD_Connection *connection,
                         void **socket_context,
                         enum MHD_ConnectionNotificationCode code)
{
    Server *owner = server;
    if (code == MHD_CONNECTION_NOTIFY_STARTED) {
        const union MHD_ConnectionInfo *info = MHD_get_connection_info(
            connection, MHD_CONNECTION_INFO_CONNECTION_FD);
        *socket_context =
            watch_open(&owner->watches, info->connect_fd, server_now_ms());
    } else {
        watch_close(&owner->watches, *socket_context);
        *socket_context = NULL;
    }
}
