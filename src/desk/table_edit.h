/* One table of a farm's folder, read and written as a form has it: with the
 * checks of `leat check`, and without losing what somebody else wrote. */
#ifndef LEAT_DESK_TABLE_EDIT_H
#define LEAT_DESK_TABLE_EDIT_H

#include "json/table.h"

/* All tables of the list, there or not. out holds TABLE_COUNT. */
NODISCARD Err table_list(const char *dir, Arena *arena,
                         TableLine out[TABLE_COUNT]);

/* A table's cells as they stand in its file, blank where it is not there.
 * ERR_CONFLICT: it has a column that Leat does not know, or lines that cannot
 * be read; it would be lost by writing. */
NODISCARD Err table_read(const char *dir, TableId table, Arena *arena,
                         TableSheet *out);

typedef enum TableFate {
    TABLE_WRITTEN,
    TABLE_REFUSED,  /* it, or another because of it, would have faults */
    TABLE_CONFLICT, /* it is no longer what was read */
} TableFate;

typedef struct TableOutcome {
    TableFate fate;
    TableSheet sheet; /* as it stands now */
    Faults faults;    /* of the farm with the new table */
    const char *told; /* what changed, in lines; "" nothing did */
} TableOutcome;

typedef struct TableWrite {
    const char *dir;
    const TableSheet *wanted;
    int32_t today;      /* DATE_ALWAYS: by the clock */
    const char *who;    /* "" nobody is named */
    const char *device; /* "" the same */
} TableWrite;

/* Writes a table whose mark is still that of the file, and tells the journal
 * what changed (an entry of kind table). ERR_BUSY: somebody else is changing
 * the folder. */
NODISCARD Err table_write(const TableWrite *ask, Arena *arena,
                          TableOutcome *out);

#endif
