/* Helpers: a few children (`leat answer DIR`) that answer whatever takes longer
 * than the server's loop may wait. Each answers one request at a time and is
 * kept for the next; one that crashes or takes too long is ended and replaced,
 * and its request is answered with an error. */
#ifndef LEAT_HTTP_HELPERS_H
#define LEAT_HTTP_HELPERS_H

#include <poll.h>
#include <sys/types.h>

#include "http/request.h"

enum {
    HELPERS_MOST = 8,
    HELPERS_QUEUE_MOST = 128, /* requests that wait for a helper */
    HELPER_PATIENCE_MS = 120 * 1000,
};

/* Told once, with the reply or an error's; the reply is borrowed until it
 * returns. */
typedef void HelperDone(void *context, const Reply *reply);

typedef struct HelperAsk HelperAsk;

typedef struct Helper {
    pid_t pid; /* 0: not running */
    int in;
    int out;
    int answered;
    HelperAsk *ask; /* Owned; NULL: free */
    size_t written;
    int64_t until_ms;
    Arena arena; /* of what it says */
    char *bytes; /* Borrowed from the arena. */
    size_t length;
    size_t room;
} Helper;

/* Those that wait, in order. */
typedef struct HelperLine {
    HelperAsk *first; /* Owned. */
    HelperAsk *last;
} HelperLine;

typedef struct Helpers {
    const char *dir; /* Borrowed. */
    Helper of[HELPERS_MOST];
    int count;
    HelperLine urgent; /* those that change something */
    HelperLine rest;
    int waiting;
} Helpers;

void helpers_open(Helpers *helpers, const char *dir, int count);
void helpers_close(Helpers *helpers);

/* ERR_BUSY: too many wait. Otherwise done is called, later. What is not GET
 * goes first: whoever tells something must not wait for those who look. */
NODISCARD Err helpers_ask(Helpers *helpers, const Request *request,
                          HelperDone *done, void *context);

/* What to wait for: at most 2 * HELPERS_MOST rows; returns how many. */
int helpers_polls(const Helpers *helpers, struct pollfd *out);

/* Gives and takes what can be; never waits. */
void helpers_step(Helpers *helpers, int64_t now_ms);

#endif
