/* Begin a farm: the demo in a folder, or blank tables. */
#ifndef LEAT_DESK_NEW_FARM_H
#define LEAT_DESK_NEW_FARM_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/err.h"

/* Writes the demo farm into a new or empty folder; or (is_blank) each table
 * with its header only, and the demo's tables in a folder examples/ in it.
 * ERR_CONFLICT where the folder holds anything. */
NODISCARD Err new_farm(const char *path, bool is_blank, Arena *arena);

#endif
