/* One pool of memory for one request, simulation or plan. */
#include "base/arena.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct ArenaBlock {
    ArenaBlock *next; /* Owned. */
    size_t size;
    size_t used;
    _Alignas(max_align_t) unsigned char bytes[];
};

enum { BLOCK_BYTES = 64 * 1024, ALIGN = _Alignof(max_align_t) };

static ArenaBlock *block_open(size_t size)
{
    ArenaBlock *block = calloc(1, sizeof *block + size);
    if (!block) {
        abort();
    }
    block->size = size;
    return block;
}

void arena_release(Arena *arena)
{
    ArenaBlock *block = arena->blocks;
    while (block) {
        ArenaBlock *next = block->next;
        free(block);
        block = next;
    }
    *arena = (Arena){0};
}

void *arena_alloc(Arena *arena, size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / 2 / size) {
        abort();
    }
    size_t bytes = (count * size + ALIGN - 1) / ALIGN * ALIGN;
    arena->used_bytes += bytes;
    ArenaBlock *top = arena->blocks;
    if (top && top->size - top->used >= bytes) {
        void *address = top->bytes + top->used;
        top->used += bytes;
        return address;
    }
    if (bytes >= BLOCK_BYTES / 4 && top) {
        /* A large piece gets its own block behind the top one, so that the
         * room left in the top block is not lost. */
        ArenaBlock *block = block_open(bytes);
        block->used = bytes;
        block->next = top->next;
        top->next = block;
        return block->bytes;
    }
    ArenaBlock *block = block_open(bytes > BLOCK_BYTES ? bytes : BLOCK_BYTES);
    block->used = bytes;
    block->next = top;
    arena->blocks = block;
    return block->bytes;
}

void *arena_grow(Arena *arena, const void *items, size_t old_count,
                 size_t new_count, size_t size)
{
    void *grown = arena_alloc(arena, new_count, size);
    if (old_count) {
        memcpy(grown, items, old_count * size);
    }
    return grown;
}

char *arena_copy_bytes(Arena *arena, const char *bytes, size_t length)
{
    char *copy = arena_alloc(arena, length + 1, 1);
    if (length) {
        memcpy(copy, bytes, length);
    }
    return copy;
}

char *arena_copy_text(Arena *arena, const char *text)
{
    return arena_copy_bytes(arena, text, strlen(text));
}

char *arena_text_list(Arena *arena, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, format, args);
    char *text = arena_alloc(arena, (size_t)length + 1, 1);
    vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}

char *arena_text(Arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = arena_text_list(arena, format, args);
    va_end(args);
    return text;
}
