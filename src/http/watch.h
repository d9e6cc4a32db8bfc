/* Connections and how long they take: one that dribbles its request in, or its
 * answer out, is cut, and where there are too many the idlest goes first. So a
 * slow or hostile client cannot keep others out. */
#ifndef LEAT_HTTP_WATCH_H
#define LEAT_HTTP_WATCH_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

enum {
    WATCH_MOST = 448,      /* connections kept */
    WATCH_HARD_MOST = 512, /* accepted at one time, some on their way out */
    WATCH_PER_ADDRESS = 96,
    WATCH_IDLE_MS = 30 * 1000, /* until a request has come with its headers */
    WATCH_BODY_MS = 20 * 1000, /* a body, and its length at this rate */
    WATCH_SEND_MS = 30 * 1000, /* an answer, the same */
    WATCH_BYTES_MS = 10,       /* bytes a millisecond: 10 kB/s */
};

typedef enum WatchState {
    WATCH_IDLE,    /* no request yet, or only part of its headers */
    WATCH_BODY,    /* its body is coming */
    WATCH_ANSWER,  /* it waits for a helper: not its fault */
    WATCH_SENDING, /* it takes its answer */
} WatchState;

typedef struct Watch {
    Arena arena;
    struct Watch *before;
    struct Watch *after;
    int socket;
    WatchState state;
    int64_t until_ms;
    bool is_cut;
} Watch;

typedef struct Watches {
    Watch *first;
    Watch *last; /* the newest */
    int count;
    int cut; /* on their way out */
} Watches;

Watch *watch_open(Watches *watches, int socket, int64_t now_ms);
void watch_close(Watches *watches, Watch *watch);

/* A new state; bytes are what is to come or to go. */
void watch_set(Watch *watch, WatchState state, size_t bytes, int64_t now_ms);

/* Cuts those past their time. */
void watch_sweep(Watches *watches, int64_t now_ms);

#endif
