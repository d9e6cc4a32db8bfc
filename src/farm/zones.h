/* The names of time zones that Leat knows: data/zones.txt. */
#ifndef LEAT_FARM_ZONES_H
#define LEAT_FARM_ZONES_H

#include <stdbool.h>

#include "base/arena.h"

/* Source: [TZDB] the names of zones and links, release 2025b. */
bool zone_is_known(const char *name);

/* The known name nearest to one that is not, or NULL. */
const char *zone_nearest(const char *name, Arena *arena);

#endif
