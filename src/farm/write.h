/* The tables of a farm as bytes: what farm_read reads. */
#ifndef LEAT_FARM_WRITE_H
#define LEAT_FARM_WRITE_H

#include <stddef.h>

#include "base/arena.h"
#include "farm/records.h"

typedef struct FarmBytes {
    const char *bytes; /* Borrowed from the arena. */
    size_t length;
} FarmBytes;

/* One table with its header, all its columns in the order of its list. */
FarmBytes farm_write_table(const Farm *farm, TableId table, Arena *arena);

/* Only the header. */
FarmBytes farm_write_header(TableId table, Arena *arena);

#endif
