/* Plans, orders asked about and many years, worked out by children of their own
 * while the server goes on. A plan that was found waits, to be accepted as it
 * was shown, until it is needed no more. */
#ifndef LEAT_HTTP_WORKS_H
#define LEAT_HTTP_WORKS_H

#include <poll.h>
#include <sys/types.h>

#include "http/request.h"
#include "json/work.h"

enum {
    WORKS_MOST = 6,    /* those that ended among them */
    WORKS_RUNNING = 2, /* at one time */
    WORK_KEPT_MS = 45 * 60 * 1000,
};

typedef enum WorkPhase {
    WORK_FREE,
    WORK_RUNNING,
    WORK_STOPPING,
    WORK_DONE,
    WORK_FAILED,
    WORK_ACCEPTING,
    WORK_ACCEPTED,
} WorkPhase;

/* Told once whether a plan was accepted. */
typedef void WorkAccepted(void *context, const Err *err);

typedef struct Work {
    WorkPhase phase;
    char id[WORK_ID_SIZE];
    WorkKind kind;
    pid_t pid; /* 0: it has ended */
    int in;
    int out;
    Arena arena;
    const char *message; /* Borrowed: what it is still to be told */
    size_t message_length;
    char *bytes; /* what it said and was not yet taken */
    size_t length;
    size_t room;
    double done_frac;
    double value;
    const char *answer;
    Err error;
    int64_t ended_ms;
    WorkAccepted *accepted; /* somebody waits; NULL: nobody */
    void *context;          /* Borrowed: of accepted */
} Work;

typedef struct Works {
    const char *dir; /* Borrowed. */
    int32_t today;   /* DATE_ALWAYS: by the clock */
    Work of[WORKS_MOST];
} Works;

void works_open(Works *works, const char *dir, int32_t today);

/* Ends all; who waits is told ERR_STOPPED. */
void works_close(Works *works);

/* Begins; body: the question's JSON, read before without fault. ERR_BUSY: as
 * many run as may. */
NODISCARD Err works_begin(Works *works, WorkKind kind, const char *body,
                          size_t length, Arena *arena, const char **out_id);

/* How far it is, as JSON; id NULL: all, without answers. ERR_NOT_FOUND. */
NODISCARD Err works_state(const Works *works, const char *id, Arena *arena,
                          const char **out);

/* Asks it to answer with the best it has. ERR_NOT_FOUND. */
NODISCARD Err works_stop(Works *works, const char *id);

/* Accepts a plan that was found. ERR_NOT_FOUND; ERR_CONFLICT: it is no plan, or
 * not there yet. */
NODISCARD Err works_accept(Works *works, const char *id, WorkAccepted *accepted,
                           void *context);

/* What to wait for: at most 2 * WORKS_MOST rows; returns how many. */
int works_polls(const Works *works, struct pollfd *out);

/* Gives and takes what can be; never waits. */
void works_step(Works *works, int64_t now_ms);

#endif
