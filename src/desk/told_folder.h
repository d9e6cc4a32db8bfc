/* What was told of a farm's days, from its folder. */
#ifndef LEAT_DESK_TOLD_FOLDER_H
#define LEAT_DESK_TOLD_FOLDER_H

#include "store/store.h"

/* Entries that were not struck out, by day and time, from one day to another,
 * both counted; kinds: bit i is kind i, 0 all. None where the folder has no
 * store. Fails as store_open and store_read do. */
typedef struct ToldAsk {
    const char *dir;
    int32_t from;
    int32_t until;
    uint64_t kinds;
} ToldAsk;
NODISCARD Err told_of_folder(const ToldAsk *ask, Arena *arena, Tolds *out);

#endif
