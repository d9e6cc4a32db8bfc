/* Photos and voice notes of the journal, kept as they came. */
#ifndef LEAT_DESK_BLOB_H
#define LEAT_DESK_BLOB_H

#include "store/store.h"

/* Keeps it and gives its SHA-256 as 64 hex digits, in the arena; one that is
 * there already is kept once. ERR_INPUT: empty. */
NODISCARD Err blob_keep(const char *dir, const char *type, const void *bytes,
                        size_t length, Arena *arena, const char **out_sha256);

/* ERR_NOT_FOUND; ERR_USAGE: that is no SHA-256. */
NODISCARD Err blob_find(const char *dir, const char *sha256, Arena *arena,
                        StoreBlob *out);

#endif
