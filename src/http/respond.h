/* Answers as they go out: headers, what a client has already, pages, cookies.
 */
#ifndef LEAT_HTTP_RESPOND_H
#define LEAT_HTTP_RESPOND_H

#include <microhttpd.h>

#include "http/pages.h"
#include "http/server.h"

/* Browsers take a name that begins so only over TLS and for the whole host. */
#define RESPOND_COOKIE "__Host-leat"

enum {
    STATUS_OK = 200,
    STATUS_BEGUN = 202,
    STATUS_NOT_CHANGED = 304,
    STATUS_UNKNOWN = 401,
    STATUS_FORBIDDEN = 403,
    STATUS_TOO_LONG = 413,
    STATUS_WRONG_TYPE = 415,
    STATUS_TOO_OFTEN = 429,
    STATUS_LATER = 503,
};

/* A header of the request; NULL: it did not come. */
const char *exchange_header(const Exchange *exchange, const char *name);

/* A response of its own, with the headers that every answer has; the bytes are
 * copied. etag: NULL for none. */
struct MHD_Response *respond_make(const Reply *reply, const char *etag);

/* A new session's cookie, or ("") the end of one. */
void respond_session(struct MHD_Response *response, const char *token);

/* Sends a response that has its headers; 304 where the client has it. length:
 * of its body. */
enum MHD_Result respond_send(Exchange *exchange, struct MHD_Response *response,
                             int status, const char *etag, size_t length);
enum MHD_Result respond_reply(Exchange *exchange, const Reply *reply);

/* status 0: by the error's kind. */
enum MHD_Result respond_refusal(Exchange *exchange, const Err *err, int status);
enum MHD_Result respond_page(Exchange *exchange, const Page *page);

#endif
