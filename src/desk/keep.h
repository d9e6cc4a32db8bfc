/* Keep a farm's journal safe: whole copies of leat.db, and back. */
#ifndef LEAT_DESK_KEEP_H
#define LEAT_DESK_KEEP_H

#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

typedef struct KeepAnswer {
    const char *file;  /* the backup */
    int64_t entries;   /* in it */
    const char *aside; /* restored: where the old database is now; "" none */
} KeepAnswer;

/* A copy while the farm runs, checked before it is named done. ERR_NOT_FOUND:
 * nothing was told yet; ERR_CONFLICT: file is there already. */
NODISCARD Err keep_backup(const char *dir, const char *file, Arena *arena,
                          KeepAnswer *out);

/* Puts a backup back after checking it whole. ERR_BUSY: a Leat is open. */
NODISCARD Err keep_restore(const char *dir, const char *file, Arena *arena,
                           KeepAnswer *out);

#endif
