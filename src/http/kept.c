/* Answers that are kept while the farm's folder stays as it is. */
#include "http/kept.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include <microhttpd.h>

#include "farm/book_fields.h"

enum { SERVER_FAULTS = 500 };

Kept *kept_find(KeptAll *all, const KeptKey *key)
{
    for (int i = 0; i < KEPT_MOST; i++) {
        Kept *kept = &all->of[i];
        bool is_it = kept->state != KEPT_FREE && kept->mark == key->mark &&
                     kept->moment == key->moment &&
                     (kept->state == KEPT_PENDING || kept->is_kept) &&
                     strcmp(kept->key, key->text) == 0;
        if (is_it) {
            kept->used = ++all->turn;
            return kept;
        }
    }
    return NULL;
}

void kept_seen(KeptAll *all, uint64_t mark, int64_t at_ms)
{
    KeptSeen *place = &all->seen[0];
    for (int i = 0; i < KEPT_SEEN; i++) {
        KeptSeen *seen = &all->seen[i];
        if (seen->mark == mark) {
            seen->at_ms = at_ms;
            return;
        }
        place = seen->at_ms < place->at_ms ? seen : place;
    }
    *place = (KeptSeen){mark, at_ms};
}

static int64_t seen_ms(const KeptAll *all, uint64_t mark)
{
    for (int i = 0; i < KEPT_SEEN; i++) {
        if (all->seen[i].mark == mark && all->seen[i].at_ms > 0) {
            return all->seen[i].at_ms;
        }
    }
    return -1;
}

Kept *kept_before(KeptAll *all, const KeptKey *key, int64_t least_ms)
{
    Kept *found = NULL;
    int64_t found_ms = least_ms - 1;
    for (int i = 0; i < KEPT_MOST; i++) {
        Kept *kept = &all->of[i];
        if (kept->state != KEPT_READY || !kept->is_kept ||
            kept->moment != key->moment || strcmp(kept->key, key->text) != 0) {
            continue;
        }
        int64_t at_ms = seen_ms(all, kept->mark);
        if (at_ms > found_ms) {
            found = kept;
            found_ms = at_ms;
        }
    }
    return found;
}

void kept_drop(Kept *kept)
{
    if (kept->response) {
        MHD_destroy_response(kept->response);
        kept->all->bytes -= kept->bytes;
    }
    arena_release(&kept->arena);
    *kept = (Kept){.state = KEPT_FREE};
}

/* The one longest unused that nobody waits for, but not the one spared. */
static Kept *oldest(KeptAll *all, const Kept *spared)
{
    Kept *found = NULL;
    for (int i = 0; i < KEPT_MOST; i++) {
        Kept *kept = &all->of[i];
        if (kept->state == KEPT_READY && kept != spared && kept->users == 0 &&
            (!found || kept->used < found->used)) {
            found = kept;
        }
    }
    return found;
}

/* Drops other answers to the same question: those of an earlier folder or hour
 * too, where is_all, else only those that nobody will ask for again. */
static void drop_others(const Kept *now, bool is_all)
{
    for (int i = 0; i < KEPT_MOST; i++) {
        Kept *kept = &now->all->of[i];
        if (kept != now && kept->state == KEPT_READY && kept->users == 0 &&
            (is_all || !kept->is_kept) && strcmp(kept->key, now->key) == 0) {
            kept_drop(kept);
        }
    }
}

Kept *kept_begin(KeptAll *all, const KeptKey *key)
{
    Kept *place = NULL;
    for (int i = 0; i < KEPT_MOST && !place; i++) {
        place = all->of[i].state == KEPT_FREE ? &all->of[i] : NULL;
    }
    if (!place) {
        place = oldest(all, NULL);
    }
    if (!place) {
        return NULL;
    }
    if (place->state != KEPT_FREE) {
        kept_drop(place);
    }
    *place = (Kept){.state = KEPT_PENDING,
                    .all = all,
                    .mark = key->mark,
                    .moment = key->moment,
                    .used = ++all->turn};
    place->key = arena_copy_text(&place->arena, key->text);
    return place;
}

void kept_finish(Kept *kept, struct MHD_Response *response, const Reply *reply)
{
    KeptAll *all = kept->all;
    kept->state = KEPT_READY;
    kept->response = response;
    kept->status = reply->status;
    kept->is_kept = kept->is_kept && reply->status < SERVER_FAULTS;
    kept->bytes = reply->length;
    all->bytes += reply->length;
    drop_others(kept, kept->is_kept);
    while (all->bytes > (size_t)KEPT_MAX_MB << 20) {
        Kept *old = oldest(all, kept);
        if (!old) {
            break;
        }
        kept_drop(old);
    }
}

void kept_release(KeptAll *all)
{
    for (int i = 0; i < KEPT_MOST; i++) {
        if (all->of[i].state != KEPT_FREE) {
            kept_drop(&all->of[i]);
        }
    }
}

void kept_etag(const char *bytes, size_t length, char out[24])
{
    (void)snprintf(out, 24, "\"%016" PRIx64 "\"",
                   book_hash_bytes(0, bytes, length));
}
