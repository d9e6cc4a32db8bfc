/* One request as a route sees it, without socket or header, and its reply. */
#ifndef LEAT_HTTP_REQUEST_H
#define LEAT_HTTP_REQUEST_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"
#include "base/tongue.h"
#include "desk/people.h"

typedef struct QueryPair {
    const char *key;
    const char *value;
} QueryPair;

enum { QUERY_PAIRS_MOST = 32 };

/* Who asks. Text is "" where it is not known. */
typedef struct Requester {
    const char *who; /* the person's name; "" where nobody has to say it */
    PeopleRole role;
    const char *hand;     /* of hands.csv */
    const char *language; /* */
    const char *session;  /* token */
    bool is_us_units;
    bool is_lan; /* people log in here */
} Requester;

/* All text is UTF-8 without control characters. */
typedef struct Request {
    const char *dir;    /* the farm's folder. Borrowed, as all of this. */
    const char *method; /* "GET" */
    const char *path;   /* "/api/jobs" */
    QueryPair query[QUERY_PAIRS_MOST];
    int query_count;
    const char *body; /* any bytes, a NUL behind them */
    size_t body_length;
    const char *content_type; /* of the body; "" none */
    int32_t today;            /* DATE_ALWAYS: by the clock */
    Requester requester;

    const char *device;   /* what the browser calls itself; "" unknown */
    const Tongue *tongue; /* that answers are said in; NULL: English. Static. */
} Request;

typedef struct Reply {
    int status;
    const char *type;    /* "application/json" */
    const char *body;    /* Borrowed from the request's arena. */
    size_t length;       /* of body */
    const char *session; /* a new session's token for the cookie; "" to end
                            the session; NULL: neither */
} Reply;

/* The value of a key; NULL where it was not given. */
const char *request_text(const Request *request, const char *key);

/* The value of a key in out, which is left as it is where the key was not
 * given. ERR_USAGE names key and value. */
NODISCARD Err request_day(const Request *request, const char *key,
                          int32_t *out);
NODISCARD Err request_integer(const Request *request, const char *key,
                              int64_t least, int64_t most, int64_t *out);
NODISCARD Err request_flag(const Request *request, const char *key, bool *out);

/* The same, but NAN where the key was not given. */
NODISCARD Err request_number(const Request *request, const char *key,
                             double *out);

/* Adds a pair; text that is not as above, or one pair too many, is ERR_USAGE.
 * value may be NULL: "". */
NODISCARD Err request_add(Request *request, const char *key, size_t key_length,
                          const char *value, size_t value_length, Arena *arena);

/* The day that is asked for: key "today" of the query, else the request's. */
NODISCARD Err request_today(const Request *request, int32_t *out);

/* A reply of 200 with JSON text. */
Reply reply_json(const char *text);

/* What an error is answered with: its status and {"error":{..}}. */
int reply_status_of(const Err *err);
Reply reply_error(const Err *err, Arena *arena);

#endif
