/* The server: one thread, one loop; pages and a JSON interface for a farm's
 * folder. What it is protected against stands in docs/serve.md. */
#ifndef LEAT_HTTP_SERVE_H
#define LEAT_HTTP_SERVE_H

#include <signal.h>
#include <stdint.h>
#include <stdio.h>

#include "base/err.h"

typedef struct ServeAsk {
    const char *dir;
    int port;
    int32_t today;    /* DATE_ALWAYS: by the clock */
    bool is_lan;      /* for others too: people must log in, over TLS */
    const char *cert; /* file of a certificate; NULL: of its own authority */
    const char *key;  /* file of its key */
    const char *host; /* one more name by which it is reached; NULL */
    /* Once this is not 0 the server closes. */
    const volatile sig_atomic_t *stop;
} ServeAsk;

/* Prints the address on out once it listens, and serves until it is stopped.
 * ERR_BUSY: the port is taken. ERR_NOT_FOUND, ERR_INPUT: no such folder.
 * ERR_CONFLICT: --lan without people. ERR_IO. */
NODISCARD Err serve_run(const ServeAsk *ask, FILE *out);

#endif
