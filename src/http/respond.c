/* Answers as they go out. */
#include "http/respond.h"

#include <stdio.h>
#include <string.h>

#define POLICY                                                                 \
    "default-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; " \
    "object-src 'none'; base-uri 'none'; form-action 'self'; "                 \
    "frame-ancestors 'none'"
/* A page for paper: its own style, no script at all. */
#define POLICY_PAPER                                                           \
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; "           \
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

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

struct MHD_Response *respond_make(const Reply *reply, const char *etag)
{
    struct MHD_Response *response = MHD_create_response_from_buffer(
        reply->length, (void *)reply->body, MHD_RESPMEM_MUST_COPY);
    bool is_paper = strncmp(reply->type, "text/html", strlen("text/html")) == 0;
    add_headers(response, reply->type, is_paper ? POLICY_PAPER : POLICY);
    if (etag) {
        MHD_add_response_header(response, "ETag", etag);
    }
    MHD_add_response_header(response, "Vary", "Accept-Language");
    if (reply->status == STATUS_LATER || reply->status == STATUS_TOO_OFTEN) {
        MHD_add_response_header(response, "Retry-After", "2");
    }
    return response;
}

const char *exchange_header(const Exchange *exchange, const char *name)
{
    return MHD_lookup_connection_value(exchange->connection, MHD_HEADER_KIND,
                                       name);
}

/* Sends a response that has its headers; 304 where the client has it. */
enum MHD_Result respond_send(Exchange *exchange, struct MHD_Response *response,
                             int status, const char *etag, size_t length)
{
    const char *known = exchange_header(exchange, "If-None-Match");
    watch_set(exchange->watch, WATCH_SENDING, length, server_now_ms());
    if (etag && known && status == STATUS_OK && strstr(known, etag)) {
        struct MHD_Response *same = MHD_create_response_from_buffer(
            0, (void *)"", MHD_RESPMEM_PERSISTENT);
        MHD_add_response_header(same, "ETag", etag);
        MHD_add_response_header(same, "Vary", "Accept-Language");
        MHD_add_response_header(same, "Cache-Control", "private, no-cache");
        enum MHD_Result sent =
            MHD_queue_response(exchange->connection, STATUS_NOT_CHANGED, same);
        MHD_destroy_response(same);
        return sent;
    }
    return MHD_queue_response(exchange->connection, (unsigned)status, response);
}

enum MHD_Result respond_reply(Exchange *exchange, const Reply *reply)
{
    struct MHD_Response *response = respond_make(reply, NULL);
    enum MHD_Result sent =
        respond_send(exchange, response, reply->status, NULL, reply->length);
    MHD_destroy_response(response);
    return sent;
}

enum MHD_Result respond_refusal(Exchange *exchange, const Err *err, int status)
{
    Reply reply = reply_error(err, &exchange->arena);
    reply.status = status ? status : reply.status;
    return respond_reply(exchange, &reply);
}

/* The cookie of a new session, or the end of one. */
void respond_session(struct MHD_Response *response, const char *token)
{
    char cookie[256];
    bool is_end = *token == '\0';
    (void)snprintf(cookie, sizeof cookie,
                   RESPOND_COOKIE
                   "=%s; Path=/; Secure; HttpOnly; SameSite=Strict; "
                   "Max-Age=%d",
                   token, is_end ? 0 : (int)PEOPLE_SESSION_S);
    MHD_add_response_header(response, "Set-Cookie", cookie);
}

/* ---- Pages ----------------------------------------------------------------
 */

static bool is_gzip_understood(const Exchange *exchange)
{
    const char *accepted = exchange_header(exchange, "Accept-Encoding");
    return accepted && strstr(accepted, "gzip") != NULL;
}

enum MHD_Result respond_page(Exchange *exchange, const Page *page)
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
        respond_send(exchange, response, STATUS_OK, etag, length);
    MHD_destroy_response(response);
    return sent;
}
