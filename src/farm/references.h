/* Where figures come from, in full: docs/sources.md, carried in the binary. */
#ifndef LEAT_FARM_REFERENCES_H
#define LEAT_FARM_REFERENCES_H

#include "base/arena.h"

/* The full reference of a key, on one line, in the arena; NULL: no such key. */
const char *reference_of(const char *key, Arena *arena);

#endif
