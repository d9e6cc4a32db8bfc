/* The ids of one table: open addressing over FNV-1a. */
#include "farm/ids.h"

#include <string.h>

#include "base/text.h"

/* Source: [FNV] Fowler, Noll and Vo's hash 1a, 64 bits: its two constants
 * (from memory; any odd multiplier would serve). */
static uint64_t hash_text(const char *text)
{
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (; *text; text++) {
        hash = (hash ^ (unsigned char)*text) * UINT64_C(0x100000001b3);
    }
    return hash ^ hash >> 32;
}

void id_index_init(IdIndex *index, Arena *arena, int32_t row_count)
{
    size_t size = 16;
    while (size < (size_t)row_count * 2) {
        size *= 2;
    }
    *index = (IdIndex){.ids = ARENA_ARRAY(arena, const char *, row_count),
                       .slots = ARENA_ARRAY(arena, int32_t, size),
                       .slot_mask = size - 1,
                       .count = row_count,
                       .is_built = true};
    for (int32_t i = 0; i < row_count; i++) {
        index->ids[i] = "";
    }
}

/* The slot that holds id, or the free one where it belongs. */
static size_t find_slot(const IdIndex *index, const char *id)
{
    size_t slot = hash_text(id) & index->slot_mask;
    while (index->slots[slot] &&
           strcmp(index->ids[index->slots[slot] - 1], id) != 0) {
        slot = (slot + 1) & index->slot_mask;
    }
    return slot;
}

int32_t id_index_put(IdIndex *index, int32_t row, const char *id)
{
    size_t slot = find_slot(index, id);
    if (index->slots[slot]) {
        return index->slots[slot] - 1;
    }
    index->ids[row] = id;
    index->slots[slot] = row + 1;
    return -1;
}

int32_t id_index_find(const IdIndex *index, const char *id)
{
    return index->is_built ? index->slots[find_slot(index, id)] - 1 : -1;
}

const char *id_index_nearest(const IdIndex *index, const char *word,
                             int64_t *budget)
{
    if (index->count > *budget) {
        return NULL;
    }
    *budget -= index->count;
    return text_nearest(word, index->ids, (size_t)index->count);
}
