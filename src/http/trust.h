/* A page without TLS that walks another device through trusting the farm's own
 * authority: it and the authority's certificate are all that is served there,
 * one port above. Neither is a secret. */
#ifndef LEAT_HTTP_TRUST_H
#define LEAT_HTTP_TRUST_H

#include "base/err.h"

struct MHD_Daemon;

typedef struct Trust {
    struct MHD_Daemon *daemon; /* Owned; NULL: not open */
    const char *authority;     /* Borrowed: PEM */
} Trust;

/* ERR_BUSY: the port is taken. */
NODISCARD Err trust_open(Trust *trust, int port, const char *authority);
void trust_close(Trust *trust);

/* What to wait for, and what to do then. */
int trust_socket(const Trust *trust);
void trust_step(Trust *trust);

#endif
