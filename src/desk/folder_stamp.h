/* Whether a farm's folder has changed: a mark of its files as they are, cheap
 * enough to be taken at every question. */
#ifndef LEAT_DESK_FOLDER_STAMP_H
#define LEAT_DESK_FOLDER_STAMP_H

#include <stdint.h>

#include "base/err.h"

typedef struct FolderStamp {
    uint64_t mark;     /* of names, sizes, inodes and times of tables, store and
                          kept plans;
                          another mark: something changed */
    uint64_t tables;   /* the same of the tables alone */
    int64_t newest_ns; /* when the newest was written, UTC */
} FolderStamp;

/* ERR_NOT_FOUND, ERR_INPUT or ERR_IO where there is no folder to read. */
NODISCARD Err folder_stamp(const char *path, FolderStamp *out);

#endif
