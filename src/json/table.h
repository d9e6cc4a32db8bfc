/* One table of a farm as a form has it: its fields and its cells as text. */
#ifndef LEAT_JSON_TABLE_H
#define LEAT_JSON_TABLE_H

#include "base/err.h"
#include "farm/faults.h"
#include "farm/records.h"

enum { TABLE_JSON_MAX_BYTES = 8 * 1024 * 1024, TABLE_MARK_SIZE = 24 };

/* The cells of a table, row by row in the order of its fields. */
typedef struct TableSheet {
    TableId table;
    char mark[TABLE_MARK_SIZE]; /* of the file's bytes; "none": there is none */
    const char *const *cells;   /* Borrowed: row_count * field_count, trimmed */
    int32_t row_count;
    bool may_lack; /* to be written though the farm then has faults */
} TableSheet;

/* One row of the list of tables. */
typedef struct TableLine {
    TableId table;
    bool is_there;
    int32_t row_count;
    int64_t fault_count;
} TableLine;

/* {"tables":[{"name","meaning","needed","single","there","rows","faults"}]} */
const char *json_table_list(const TableLine *lines, int count, Arena *arena);

/* {"name","meaning","needed","single","hash","fields":[{"name","kind","needed",
 * "least","most","words":[..],"table","expects","meaning"}],"rows":[{"id":".."
 * ,..}]}: cells are text as in the file; blank ones are left out. kind: id,
 * ref, text, number, count, date, instant, flag, price, word, words, months,
 * monthly, weekdays; table: where the ids of a ref stand. */
const char *json_table_sheet(const TableSheet *sheet, Arena *arena);

/* {"hash":"..","rows":[{..}],"may_lack":true}; may_lack may be left out: write
 * it though the farm then lacks something in another table. A cell may be text,
 * a number, true (yes), false (no) or null (blank). ERR_INPUT names row and
 * key. */
NODISCARD Err json_table_read(const char *text, size_t length, TableId table,
                              Arena *arena, TableSheet *out);

/* What came of a write: {"hash","rows":n,"faults":[..],"notices":[..],
 * "doubts":[..]}; faults: what the farm still lacks. */
const char *json_table_written(const TableSheet *sheet, const Faults *faults,
                               Arena *arena);

/* {"error":{"kind":"input","text"},"faults":[{"file","line","row","column",
 * "value","expected"}]}; row counts from 0, column is a field's name, both only
 * where the fault is in this table. */
const char *json_table_refused(const TableSheet *sheet, const Faults *faults,
                               Arena *arena);

/* {"error":{"kind":"conflict","text"},"theirs":{sheet},"yours":{"rows":[..]}}
 */
const char *json_table_conflict(const TableSheet *theirs,
                                const TableSheet *yours, Arena *arena);

#endif
