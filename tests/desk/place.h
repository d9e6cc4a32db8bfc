/* A folder of a test's own, made before it (in TMPDIR, else where the tests
 * run) and removed after it. */
#ifndef LEAT_TESTS_DESK_PLACE_H
#define LEAT_TESTS_DESK_PLACE_H

#include "check.h"

#include <stdio.h>
#include <stdlib.h>

enum { PLACE_SIZE = 256 };

static inline int make_place(void **state)
{
    const char *top = getenv("TMPDIR");
    char *path = test_malloc(PLACE_SIZE);
    snprintf(path, PLACE_SIZE, "%s/leat-XXXXXX", top && *top ? top : ".");
    *state = path;
    return mkdtemp(path) ? 0 : -1;
}

static inline int remove_place(void **state)
{
    char command[PLACE_SIZE + 16];
    snprintf(command, sizeof command, "rm -rf '%s'", (const char *)*state);
    int status = system(command);
    test_free(*state);
    return status;
}

#endif
