/* Answers that are kept while the farm's folder stays as it is.
 *
 * A question that is being worked out is worked out once, however many ask. */
#ifndef LEAT_HTTP_KEPT_H
#define LEAT_HTTP_KEPT_H

#include <stdint.h>

#include "http/request.h"

enum { KEPT_MOST = 256, KEPT_MAX_MB = 64 };

struct MHD_Response;
typedef struct Exchange Exchange;

typedef enum KeptState { KEPT_FREE, KEPT_PENDING, KEPT_READY } KeptState;

typedef struct Kept {
    KeptState state;
    Arena arena; /* of the key */
    const char *key;
    uint64_t mark;  /* of the folder that it was asked of */
    int64_t moment; /* the quarter of an hour, or the minute */
    bool is_kept;   /* false: only for those who wait already */
    int status;
    struct MHD_Response *response; /* Owned once ready. */
    char etag[24];
    size_t bytes;
    int64_t used;      /* turn of its last use */
    Exchange *waiting; /* Borrowed. */
    int users;         /* exchanges that will send it */
} Kept;

typedef struct KeptAll {
    Kept of[KEPT_MOST];
    int64_t turn;
    size_t bytes;
} KeptAll;

typedef struct KeptKey {
    const char *text; /* method, path, query in its order, today, rights */
    uint64_t mark;
    int64_t moment;
} KeptKey;

/* The answer of that key, ready or pending; NULL: none. */
Kept *kept_find(KeptAll *all, const KeptKey *key);

/* A new pending one; those of the same text are dropped. Where there is no room
 * it takes the place of the one longest unused; NULL where all are pending. */
Kept *kept_begin(KeptAll *all, const KeptKey *key);

/* Takes the response over, and drops others until there is room. A reply that
 * may be another next time (5xx) is not kept. */
void kept_finish(KeptAll *all, Kept *kept, struct MHD_Response *response,
                 const Reply *reply);
void kept_drop(KeptAll *all, Kept *kept);
void kept_release(KeptAll *all);

/* "\"0123456789abcdef\"" of bytes. */
void kept_etag(const char *bytes, size_t length, char out[24]);

#endif
