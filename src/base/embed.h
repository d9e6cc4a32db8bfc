/* Files that the build puts into the binary. */
#ifndef LEAT_BASE_EMBED_H
#define LEAT_BASE_EMBED_H

#include <stddef.h>

typedef struct EmbeddedFile {
    const char *name;  /* "crops.csv" */
    const char *bytes; /* followed by a NUL that does not count */
    size_t length;
} EmbeddedFile;

#endif
