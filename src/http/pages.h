/* The pages that the binary carries (built from web/), or one that says how to
 * build them. */
#ifndef LEAT_HTTP_PAGES_H
#define LEAT_HTTP_PAGES_H

#include <stdbool.h>
#include <stddef.h>

typedef struct Page {
    const char *name; /* "app.js" */
    const char *type; /* "text/javascript; charset=utf-8" */
    const char *bytes;
    size_t length;
    const char *packed; /* the same by gzip; NULL where that is no shorter */
    size_t packed_length;
} Page;

/* Whether the pages were there when this was built. */
bool pages_are_built(void);

/* The page of a path: "/" is index.html. False where there is none. The path is
 * compared with names of embedded files and nothing else. */
bool pages_find(const char *path, Page *out);

#endif
