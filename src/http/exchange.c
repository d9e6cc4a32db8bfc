/* One request from its first header to its answer: who may ask, the body
 * collected, the answer from the pages, the loop, what is kept, or a helper. */
#include "http/exchange.h"

#include <string.h>
#include <time.h>

#include "base/text.h"
#include "base/tongue.h"
#include "desk/folder_stamp.h"
#include "http/admit.h"
#include "http/api_work.h"
#include "http/respond.h"

enum {
    QUARTER_S = 15 * 60,
    MINUTE_S = 60,
    /* A folder written so shortly before it was read may be written again
     * without a new time on its files. */
    FRESH_NS = 100 * 1000 * 1000,
};

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
    kept->waiting = NULL;
    kept_etag(reply->body, reply->length, kept->etag);
    const char *etag = reply->status == STATUS_OK ? kept->etag : NULL;
    kept_finish(kept, respond_make(reply, etag), reply);
    while (waiting) {
        Exchange *next = waiting->next_waiting;
        wake(waiting);
        waiting = next;
    }
}

static uint64_t mark_of(const Server *server, uint64_t files)
{
    return files + server->told;
}

static KeptKey key_of(Exchange *exchange, const FolderStamp *stamp)
{
    const Request *request = &exchange->request;
    Arena *arena = &exchange->arena;
    const char *text =
        arena_text(arena, "%s %d %s", request->path, (int)request->today,
                   arena_tongue(arena)->code);
    if (exchange->route->by_person) {
        text = arena_text(arena, "%s\n%d %s\n%s", text,
                          (int)request->requester.role, request->requester.who,
                          request->requester.hand);
    }
    for (int i = 0; i < request->query_count; i++) {
        text = arena_text(arena, "%s\n%s=%s", text, request->query[i].key,
                          request->query[i].value);
    }
    int span_s = exchange->route->cost == ROUTE_MINUTE ? MINUTE_S : QUARTER_S;
    uint64_t files =
        exchange->route->is_of_tables ? stamp->tables : stamp->mark;
    return (KeptKey){text, mark_of(exchange->server, files),
                     server_now_s() / span_s};
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
    return respond_send(exchange, kept->response, kept->status, etag,
                        kept->bytes);
}

/* Once a turn: who asks after an answer was sent asks in a later turn. */
static Err look_at_folder(Server *server)
{
    if (!server->is_stamp_fresh) {
        TRY(folder_stamp(server->ask->dir, &server->stamp));
        server->is_stamp_fresh = true;
        int64_t now_ms = server_now_ms();
        kept_seen(&server->kept, mark_of(server, server->stamp.mark), now_ms);
        kept_seen(&server->kept, mark_of(server, server->stamp.tables), now_ms);
    }
    return ERR_NONE;
}

/* "Cache-Control: max-age=2": so many seconds old may the answer be, 2 at the
 * most. Who says nothing of it, or "no-cache", wants it as things stand. */
static int64_t may_be_old_ms(const Exchange *exchange)
{
    static const char MAX_AGE[] = "max-age=";
    enum { MOST_S = 2, S_MS = 1000 };
    const char *header = exchange_header(exchange, "Cache-Control");
    const char *age = header ? strstr(header, MAX_AGE) : NULL;
    if (!age || strstr(header, "no-cache")) {
        return 0;
    }
    int64_t seconds = 0;
    for (age += sizeof MAX_AGE - 1; *age >= '0' && *age <= '9'; age++) {
        seconds = seconds < MOST_S ? 10 * seconds + (*age - '0') : MOST_S;
    }
    return S_MS * (seconds < MOST_S ? seconds : MOST_S);
}

/* Has the question worked out; waits for nothing. */
static Err begin_kept(Exchange *exchange, const KeptKey *key, Kept **out)
{
    Server *server = exchange->server;
    Kept *kept = kept_begin(&server->kept, key);
    if (!kept) {
        return err_make(ERR_BUSY, "too many questions; ask again");
    }
    kept->is_kept = is_settled(&server->stamp);
    Err err =
        helpers_ask(&server->helpers, &exchange->request, kept_done, kept);
    if (err.kind != ERR_OK) {
        kept_drop(kept);
        return err;
    }
    *out = kept;
    return ERR_NONE;
}

static enum MHD_Result ask_kept(Exchange *exchange)
{
    Server *server = exchange->server;
    Err err = look_at_folder(server);
    if (err.kind != ERR_OK) {
        return respond_refusal(exchange, &err, 0);
    }
    KeptKey key = key_of(exchange, &server->stamp);
    Kept *kept = kept_find(&server->kept, &key);
    if (kept && kept->state == KEPT_READY) {
        return send_kept(exchange, kept);
    }
    int64_t old_ms = may_be_old_ms(exchange);
    Kept *before =
        old_ms > 0 ? kept_before(&server->kept, &key, server_now_ms() - old_ms)
                   : NULL;
    if (before) {
        before->users++; /* stays while the next is begun */
    }
    err = kept ? ERR_NONE : begin_kept(exchange, &key, &kept);
    if (before) {
        before->users--;
        return send_kept(exchange, before);
    }
    if (err.kind != ERR_OK) {
        return respond_refusal(exchange, &err, 0);
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
    if (strcmp(exchange->request.method, "GET") != 0) {
        exchange->server->told++;
        exchange->server->is_stamp_fresh = false;
    }
    exchange->response = respond_make(reply, NULL);
    if (reply->session) {
        sessions_forget(&exchange->server->sessions,
                        exchange->request.requester.session);
        respond_session(exchange->response, reply->session);
    }
    exchange->status = reply->status;
    exchange->answer_bytes = reply->length;
    wake(exchange);
}

static enum MHD_Result ask_once(Exchange *exchange)
{
    Err err = helpers_ask(&exchange->server->helpers, &exchange->request,
                          once_done, exchange);
    return err.kind == ERR_OK ? wait(exchange)
                              : respond_refusal(exchange, &err, 0);
}

static enum MHD_Result ask_login(Exchange *exchange)
{
    unsigned char address[ADDRESS_SIZE];
    admit_address(exchange, address);
    if (!sessions_may_login(&exchange->server->sessions, address,
                            server_now_ms())) {
        Err err = err_make(ERR_LIMIT, "too many tries; wait a minute");
        return respond_refusal(exchange, &err, STATUS_TOO_OFTEN);
    }
    return ask_once(exchange);
}

static void accept_done(void *context, const Err *err)
{
    Exchange *exchange = context;
    Reply reply = err->kind == ERR_OK ? reply_json("{\"state\":\"accepted\"}\n")
                                      : reply_error(err, &exchange->arena);
    once_done(exchange, &reply);
}

/* What the server does itself. */
static enum MHD_Result ask_works(Exchange *exchange, const WorkAsk *ask)
{
    Works *works = &exchange->server->works;
    Arena *arena = &exchange->arena;
    const char *text = "{}\n";
    const char *id = NULL;
    Err err = ERR_NONE;
    switch (ask->verb) {
    case WORK_BEGIN:
        err = works_begin(works, ask->kind, ask->body, ask->length, arena, &id);
        text = arena_text(arena, "{\"id\":\"%s\"}\n", id ? id : "");
        break;
    case WORK_LOOK:
        err = works_state(works, ask->id, arena, &text);
        break;
    case WORK_STOP:
        err = works_stop(works, ask->id);
        break;
    case WORK_ACCEPT:
        err = works_accept(works, ask->id, accept_done, exchange);
        if (err.kind == ERR_OK) {
            return wait(exchange);
        }
        break;
    }
    if (err.kind != ERR_OK) {
        return respond_refusal(exchange, &err, 0);
    }
    Reply reply = reply_json(text);
    reply.status = ask->verb == WORK_BEGIN ? STATUS_BEGUN : STATUS_OK;
    return respond_reply(exchange, &reply);
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
        return respond_refusal(exchange, &err, 0);
    }
    switch (route->cost) {
    case ROUTE_KEPT:
    case ROUTE_MINUTE:
        return ask_kept(exchange);
    case ROUTE_LOGIN:
        return ask_login(exchange);
    case ROUTE_ONCE:
        return ask_once(exchange);
    case ROUTE_WORK:
        return ask_works(exchange, question);
    case ROUTE_HERE:
        break;
    }
    Reply reply;
    err = route->answer(question, arena, &reply);
    return err.kind == ERR_OK ? respond_reply(exchange, &reply)
                              : respond_refusal(exchange, &err, 0);
}

/* Everything has come, or an answer waits to be sent. */
static enum MHD_Result answer(Exchange *exchange)
{
    if (exchange->is_answered && exchange->kept) {
        return send_kept(exchange, exchange->kept);
    }
    if (exchange->is_answered) {
        return respond_send(exchange, exchange->response, exchange->status,
                            NULL, exchange->answer_bytes);
    }
    if (exchange->is_body_too_long) {
        Err err = err_make(ERR_LIMIT, "more than %zu bytes",
                           exchange->route ? exchange->route->body_max_bytes
                                           : (size_t)0);
        return respond_refusal(exchange, &err, STATUS_TOO_LONG);
    }
    Page page;
    if (!exchange->route && pages_find(exchange->request.path, &page)) {
        return respond_page(exchange, &page);
    }
    if (!exchange->route) {
        Err err = err_make(ERR_NOT_FOUND, "there is no such page");
        return respond_refusal(exchange, &err, 0);
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

/* The language that is asked for; else the person's own; else the first that
 * the browser wants. */
static Err choose_tongue(Exchange *exchange)
{
    Request *request = &exchange->request;
    const char *asked = request_text(request, KEY_LANGUAGE);
    const char *own = request->requester.language;
    request->tongue =
        asked ? tongue_named(asked)
        : own && *own
            ? tongue_named(own)
            : tongue_wanted(exchange_header(exchange, "Accept-Language"));
    arena_speak(&exchange->arena, request->tongue);
    return asked && !request->tongue
               ? err_make(ERR_USAGE,
                          "language: \"%.20s\" is not en, es, fr, pt or ar",
                          asked)
               : ERR_NONE;
}

/* What the browser calls itself, where that is plain text, cut short. */
static const char *device_of(struct MHD_Connection *connection, Arena *arena)
{
    enum { DEVICE_MOST = 60 };
    const char *name =
        MHD_lookup_connection_value(connection, MHD_HEADER_KIND, "User-Agent");
    size_t length = name ? strlen(name) : 0;
    length = length < DEVICE_MOST ? length : DEVICE_MOST;
    return name && text_plain(name, length) == length
               ? arena_copy_bytes(arena, name, length)
               : "";
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
        .content_type = "",
        .device = device_of(connection, &exchange->arena),
    };
    *out_exchange = exchange;
    watch_set(exchange->watch, WATCH_BODY, admit_bytes(exchange),
              server_now_ms());
    int status = 0;
    Err err = admit_request(exchange, &status);
    if (err.kind == ERR_OK) {
        int most = MHD_get_connection_values(connection, MHD_GET_ARGUMENT_KIND,
                                             NULL, NULL);
        int taken = MHD_get_connection_values_n(
            connection, MHD_GET_ARGUMENT_KIND, take_pair, exchange);
        if (taken != most || exchange->request.query_count != most) {
            err = err_make(ERR_USAGE, "the address cannot be read");
        }
    }
    if (err.kind == ERR_OK) {
        err = choose_tongue(exchange);
    }
    return err.kind == ERR_OK ? MHD_YES
                              : respond_refusal(exchange, &err, status);
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
