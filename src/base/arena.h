/* One pool of memory for one request, simulation or plan; freed once.
 *
 * Memory comes zeroed and aligned for any type. When the machine has no more
 * memory the process aborts: limits on input keep strangers from getting there.
 * No other file of the project calls malloc. */
#ifndef LEAT_BASE_ARENA_H
#define LEAT_BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

#include "base/err.h"

typedef struct ArenaBlock ArenaBlock;
typedef struct Tongue Tongue;

typedef struct Arena {
    ArenaBlock *blocks;   /* Owned. */
    size_t used_bytes;    /* handed out so far */
    const Tongue *tongue; /* that its sentences are in; NULL: English. Static */
} Arena;

/* A zeroed Arena is ready for use; releasing it twice does nothing. */
void arena_release(Arena *arena);

/* count * size bytes, zeroed; never NULL (a count of 0 gives a valid address).
 */
void *arena_alloc(Arena *arena, size_t count, size_t size);

/* A grown copy of an array: the first old_count items are kept. */
void *arena_grow(Arena *arena, const void *items, size_t old_count,
                 size_t new_count, size_t size);

/* Copies of text; arena_text formats as printf does. */
char *arena_copy_text(Arena *arena, const char *text);
char *arena_copy_bytes(Arena *arena, const char *bytes, size_t length);
char *arena_text(Arena *arena, const char *format, ...) PRINTF_LIKE(2, 3);
char *arena_text_list(Arena *arena, const char *format, va_list args)
    PRINTF_LIKE(2, 0);

#define ARENA_NEW(arena, type) ((type *)arena_alloc((arena), 1, sizeof(type)))
#define ARENA_ARRAY(arena, type, count)                                        \
    ((type *)arena_alloc((arena), (size_t)(count), sizeof(type)))

#endif
