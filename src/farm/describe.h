/* The documentation of the tables, made from their lists. */
#ifndef LEAT_FARM_DESCRIBE_H
#define LEAT_FARM_DESCRIBE_H

#include "base/arena.h"

/* All tables as one page of Markdown. */
const char *farm_describe(Arena *arena);

#endif
