/* A farm's tables and its journal: the tables written as of a day, and changed
 * tables taken back. */
#ifndef LEAT_DESK_EXPORT_H
#define LEAT_DESK_EXPORT_H

#include "journal/told.h"

enum { EXPORT_TABLES_MAX = 12 };

typedef struct ExportAnswer {
    int32_t day;
    TableId tables[EXPORT_TABLES_MAX]; /* written */
    int table_count;
    const char *before; /* the folder that has what they told before; NULL: it
                           was there already */
} ExportAnswer;

/* Writes the standing tables, readings and the plan that follows them as they
 * are at the end of a day (DATE_ALWAYS: today), and tells the journal so: from
 * then on entries told later are folded onto these. What the tables told before
 * is kept in a folder told-DAY within the farm's. ERR_NOT_FOUND: nothing was
 * told that changes them. */
NODISCARD Err export_tables(const char *dir, int32_t today, Arena *arena,
                            ExportAnswer *out);

/* Entries that Leat tells itself: that the standing tables were written as of a
 * day (farm: as written; NULL: they were not), and that a plan was accepted
 * (text, or NULL). Does
 * nothing where nothing was ever told to the farm. */
NODISCARD Err export_tell(const char *dir, const Farm *farm, int32_t day,
                          const char *plan);

typedef struct TableChange {
    TableId table;
    const char *changes; /* lines: what came, went or changed */
    const char *who;     /* or "" */
    int32_t day;
} TableChange;

/* Tells that tables were changed: the first makes leat.db. out_numbers: of the
 * entries, count of them. */
NODISCARD Err export_tell_changes(const char *dir, const TableChange *changes,
                                  int count, int64_t *out_numbers);

typedef struct ImportTable {
    TableId table;
    const char *changes; /* lines: what came, went or changed */
    int64_t number;      /* of the entry that tells it */
} ImportTable;

typedef struct ImportAnswer {
    ImportTable tables[TABLE_COUNT];
    int count; /* 0: nothing differs */
    int32_t day;
} ImportAnswer;

/* Takes the tables of from (a folder, or one *.csv of a table's name) into
 * dir: only where the farm with all of them has no fault (ERR_INPUT names the
 * first), all or none, and each difference told in the journal. today:
 * DATE_ALWAYS by the clock. */
NODISCARD Err import_tables(const char *dir, const char *from, int32_t today,
                            Arena *arena, ImportAnswer *out);

#endif
