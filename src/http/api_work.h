/* What is asked of the server's works. */
#ifndef LEAT_HTTP_API_WORK_H
#define LEAT_HTTP_API_WORK_H

#include <stddef.h>

#include "json/work.h"

typedef enum WorkVerb {
    WORK_BEGIN,
    WORK_LOOK,
    WORK_STOP,
    WORK_ACCEPT
} WorkVerb;

typedef struct WorkAsk {
    WorkVerb verb;
    const char *id; /* Borrowed, as all of this; NULL: all */
    WorkKind kind;  /* of what is begun, as the next two */
    const char *body;
    size_t length;
} WorkAsk;

#endif
