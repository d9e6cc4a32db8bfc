/* Starting this same program as a child with pipes, and ending it. */
#ifndef LEAT_HTTP_LAUNCH_H
#define LEAT_HTTP_LAUNCH_H

#include <sys/types.h>

#include "base/err.h"

typedef struct Launched {
    pid_t pid;
    int in;  /* Owned: written to the child's input; does not block. */
    int out; /* Owned: read from its output; does not block. */
} Launched;

/* How far a child steps back behind the server. */
typedef enum LaunchPlace {
    LAUNCH_ANSWERS = 3, /* somebody waits for it */
    LAUNCH_WORKS = 10,  /* it takes minutes anyway */
} LaunchPlace;

/* words: the command line, "leat" first, ends with NULL. The child leads a
 * group of its own, so that its own children end with it. ERR_IO. */
NODISCARD Err launch_leat(char *const *words, LaunchPlace place, Launched *out);

/* Ends the child and its group, and waits for it. */
void launch_end(pid_t pid);

#endif
