/* Who a session's cookie belongs to, asked of the store now and then; and how
 * often an address may try to log in. */
#ifndef LEAT_HTTP_SESSIONS_H
#define LEAT_HTTP_SESSIONS_H

#include "http/request.h"

enum {
    SESSIONS_MOST = 128,
    SESSION_FRESH_MS = 20 * 1000, /* how long the store's answer is believed */
    ADDRESSES_MOST = 128,
    ADDRESS_SIZE = 16,
};

/* One whose token was found in the store, or was not. */
typedef struct Session {
    char token[PEOPLE_TOKEN_SIZE]; /* "": free */
    int64_t asked_ms;
    Arena arena;
    Requester requester; /* role ROLE_ANYONE: nobody's */
} Session;

/* Tries that an address has left; they grow back. */
typedef struct Address {
    unsigned char bytes[ADDRESS_SIZE];
    bool is_used;
    double tries;
    int64_t at_ms;
} Address;

typedef struct Sessions {
    Session of[SESSIONS_MOST];
    Address logins[ADDRESSES_MOST];
    Address strangers[ADDRESSES_MOST]; /* that came with unknown tokens */
} Sessions;

typedef struct SessionAsk {
    const char *dir;
    const char *token;
    const unsigned char *address; /* ADDRESS_SIZE bytes */
    int64_t now_ms;
    int64_t now_s;
} SessionAsk;

/* Who it is; role ROLE_ANYONE where the token is nobody's. ERR_LIMIT: this
 * address has come with too many unknown tokens. Text is borrowed until the
 * next call. */
NODISCARD Err sessions_find(Sessions *sessions, const SessionAsk *ask,
                            Requester *out);

/* Forgets what is known of a token. */
void sessions_forget(Sessions *sessions, const char *token);
void sessions_release(Sessions *sessions);

/* Whether this address may try to log in now: ten times at once, then one more
 * every 15 seconds. */
bool sessions_may_login(Sessions *sessions, const unsigned char *address,
                        int64_t now_ms);

#endif
