/* Answers that are kept while the farm's folder stays as it is.
 *
 * A question that is being worked out is worked out once, however many ask; who
 * may have an answer a little old is given the one before meanwhile. */
#ifndef LEAT_HTTP_KEPT_H
#define LEAT_HTTP_KEPT_H

#include <stdint.h>

#include "http/request.h"

enum { KEPT_MOST = 256, KEPT_MAX_MB = 64 };

struct MHD_Response;
typedef struct Exchange Exchange;

typedef enum KeptState { KEPT_FREE, KEPT_PENDING, KEPT_READY } KeptState;

typedef struct KeptAll KeptAll;

typedef struct Kept {
    KeptState state;
    KeptAll *all; /* Borrowed: where it stands. */
    Arena arena;  /* of the key */
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

/* When the folder last was as a mark says. */
typedef struct KeptSeen {
    uint64_t mark;
    int64_t at_ms;
} KeptSeen;

enum { KEPT_SEEN = 16 };

struct KeptAll {
    Kept of[KEPT_MOST];
    KeptSeen seen[KEPT_SEEN];
    int64_t turn;
    size_t bytes;
};

typedef struct KeptKey {
    const char *text; /* method, path, query in its order, today, rights */
    uint64_t mark;
    int64_t moment;
} KeptKey;

/* The answer of that key, ready or pending; NULL: none. */
Kept *kept_find(KeptAll *all, const KeptKey *key);

/* The folder was seen at that moment as the mark says. */
void kept_seen(KeptAll *all, uint64_t mark, int64_t at_ms);

/* The newest ready answer of the same question that still held at least_ms or
 * later; NULL: none. */
Kept *kept_before(KeptAll *all, const KeptKey *key, int64_t least_ms);

/* A new pending one. Where there is no room it takes the place of the one
 * longest unused; NULL where all are pending. */
Kept *kept_begin(KeptAll *all, const KeptKey *key);

/* Takes the response over, drops earlier ones of the same question, and others
 * until there is room. A reply that may be another next time (5xx) is not kept.
 */
void kept_finish(Kept *kept, struct MHD_Response *response, const Reply *reply);
void kept_drop(Kept *kept);
void kept_release(KeptAll *all);

/* "\"0123456789abcdef\"" of bytes. */
void kept_etag(const char *bytes, size_t length, char out[24]);

#endif
