/* A folder of a test's own: made in TMPDIR, else where the tests run, and
 * removed with all that is in it. */
#ifndef LEAT_TESTS_PLACE_H
#define LEAT_TESTS_PLACE_H

#include "check.h"

#include <stdio.h>
#include <stdlib.h>

typedef struct Place {
    char dir[600];
} Place;

static inline void place_make(Place *place)
{
    const char *top = getenv("TMPDIR");
    snprintf(place->dir, sizeof place->dir, "%.500s/leat-XXXXXX",
             top && *top ? top : ".");
    if (!mkdtemp(place->dir)) {
        abort();
    }
}

static inline void place_remove(const Place *place)
{
    char command[sizeof place->dir + 16];
    snprintf(command, sizeof command, "rm -rf '%s'", place->dir);
    if (system(command) != 0) {
        abort();
    }
}

/* Before and after a test of cmocka, whose state is then the folder's path. */
static inline int make_place(void **state)
{
    Place *place = test_malloc(sizeof *place);
    place_make(place);
    *state = place->dir;
    return 0;
}

static inline int remove_place(void **state)
{
    Place *place = *state; /* its dir is its first member */
    place_remove(place);
    test_free(place);
    return 0;
}

#endif
