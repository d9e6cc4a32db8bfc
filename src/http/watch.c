/* Connections and how long they take. */
#include "http/watch.h"

#include <sys/socket.h>

static void cut(Watches *watches, Watch *watch)
{
    if (!watch->is_cut) {
        shutdown(watch->socket, SHUT_RDWR);
        watch->is_cut = true;
        watches->cut++;
    }
}

/* The oldest that waits for its client, not for us. */
static Watch *idlest(const Watches *watches)
{
    Watch *found = NULL;
    for (Watch *watch = watches->first; watch; watch = watch->after) {
        bool may_go = !watch->is_cut && watch->state != WATCH_ANSWER;
        if (may_go && (!found || watch->until_ms < found->until_ms)) {
            found = watch;
        }
    }
    return found;
}

Watch *watch_open(Watches *watches, int socket, int64_t now_ms)
{
    if (watches->count - watches->cut >= WATCH_MOST) {
        Watch *oldest = idlest(watches);
        if (oldest) {
            cut(watches, oldest);
        }
    }
    Arena arena = {0};
    Watch *watch = ARENA_NEW(&arena, Watch);
    *watch = (Watch){.arena = arena,
                     .before = watches->last,
                     .socket = socket,
                     .state = WATCH_IDLE,
                     .until_ms = now_ms + WATCH_IDLE_MS};
    if (watches->last) {
        watches->last->after = watch;
    } else {
        watches->first = watch;
    }
    watches->last = watch;
    watches->count++;
    return watch;
}

void watch_close(Watches *watches, Watch *watch)
{
    if (watch->before) {
        watch->before->after = watch->after;
    } else {
        watches->first = watch->after;
    }
    if (watch->after) {
        watch->after->before = watch->before;
    } else {
        watches->last = watch->before;
    }
    watches->count--;
    watches->cut -= watch->is_cut ? 1 : 0;
    Arena arena = watch->arena;
    arena_release(&arena);
}

void watch_set(Watch *watch, WatchState state, size_t bytes, int64_t now_ms)
{
    static const int64_t PATIENCE_MS[] = {[WATCH_IDLE] = WATCH_IDLE_MS,
                                          [WATCH_BODY] = WATCH_BODY_MS,
                                          [WATCH_ANSWER] = 0,
                                          [WATCH_SENDING] = WATCH_SEND_MS};
    watch->state = state;
    watch->until_ms =
        now_ms + PATIENCE_MS[state] + (int64_t)(bytes / WATCH_BYTES_MS);
}

void watch_sweep(Watches *watches, int64_t now_ms)
{
    for (Watch *watch = watches->first; watch; watch = watch->after) {
        if (watch->state != WATCH_ANSWER && now_ms > watch->until_ms) {
            cut(watches, watch);
        }
    }
}
