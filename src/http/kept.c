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

void kept_drop(KeptAll *all, Kept *kept)
{
    if (kept->response) {
        MHD_destroy_response(kept->response);
        all->bytes -= kept->bytes;
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

/* Answers to the same question of an earlier folder or hour. */
static void drop_outdated(KeptAll *all, const char *text)
{
    for (int i = 0; i < KEPT_MOST; i++) {
        Kept *kept = &all->of[i];
        if (kept->state == KEPT_READY && kept->users == 0 &&
            strcmp(kept->key, text) == 0) {
            kept_drop(all, kept);
        }
    }
}

Kept *kept_begin(KeptAll *all, const KeptKey *key)
{
    drop_outdated(all, key->text);
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
    kept_drop(all, place);
    *place = (Kept){.state = KEPT_PENDING,
                    .mark = key->mark,
                    .moment = key->moment,
                    .used = ++all->turn};
    place->key = arena_copy_text(&place->arena, key->text);
    return place;
}

void kept_finish(KeptAll *all, Kept *kept, struct MHD_Response *response,
                 const Reply *reply)
{
    kept->state = KEPT_READY;
    kept->response = response;
    kept->status = reply->status;
    kept->is_kept = kept->is_kept && reply->status < SERVER_FAULTS;
    kept->bytes = reply->length;
    all->bytes += reply->length;
    while (all->bytes > (size_t)KEPT_MAX_MB << 20) {
        Kept *old = oldest(all, kept);
        if (!old) {
            break;
        }
        kept_drop(all, old);
    }
}

void kept_release(KeptAll *all)
{
    for (int i = 0; i < KEPT_MOST; i++) {
        kept_drop(all, &all->of[i]);
    }
}

void kept_etag(const char *bytes, size_t length, char out[24])
{
    (void)snprintf(out, 24, "\"%016" PRIx64 "\"",
                   book_hash_bytes(0, bytes, length));
}
