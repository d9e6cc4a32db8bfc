/* The ids of one table, to be found by text. */
#ifndef LEAT_FARM_IDS_H
#define LEAT_FARM_IDS_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

typedef struct IdIndex {
    const char **ids; /* Owned by the arena; by row; "" for a row without. */
    int32_t *slots;   /* row + 1, 0 for free */
    size_t slot_mask;
    int32_t count;
    bool is_built;
} IdIndex;

/* Room for the ids of row_count rows; each is "" until it is put. */
void id_index_init(IdIndex *index, Arena *arena, int32_t row_count);

/* Puts the id of a row; returns the earlier row that has the same id, or -1
 * when it is new. id is borrowed. */
int32_t id_index_put(IdIndex *index, int32_t row, const char *id);

/* The row of an id, or -1. */
int32_t id_index_find(const IdIndex *index, const char *id);

/* The id most like word, or NULL. budget is the number of comparisons that may
 * still be spent on this; a table beyond it gives NULL. */
const char *id_index_nearest(const IdIndex *index, const char *word,
                             int64_t *budget);

#endif
