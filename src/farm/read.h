/* A farm from the bytes of its tables.
 *
 * Every fault is told, not only the first. Cells are trimmed of spaces at their
 * ends. A table may hold its columns in any order and leave out those that are
 * not needed. Semicolons with decimal commas are read, with one notice; two
 * kinds of decimal mark in one table are a fault. */
#ifndef LEAT_FARM_READ_H
#define LEAT_FARM_READ_H

#include <stddef.h>

#include "farm/faults.h"
#include "farm/records.h"

/* What stands in a member whose cell was told as a fault, so that later checks
 * can pass over it: for a reference (-1 is a blank one), a count, a day. A
 * number at fault is NAN. */
enum { REF_BLANK = -1, REF_WRONG = -2, COUNT_WRONG = INT32_MIN };
#define DATE_WRONG DATE_ALWAYS

enum { FARM_FIELDS_MAX = 32, FARM_ROWS_MAX = 1000000 };

typedef struct FarmBuffer {
    const char *file;  /* Borrowed: its name in the folder, as "beds.csv". */
    const char *bytes; /* Borrowed; NULL: told as a fault, not read. */
    size_t length;
} FarmBuffer;

/* How a table looked as a file, for faults found later. */
typedef struct FarmSheet {
    bool is_there;
    int32_t columns[FARM_FIELDS_MAX]; /* 1-based, by field; 0 is not there */
} FarmSheet;

typedef struct FarmRead {
    Farm farm;
    FarmSheet sheets[TABLE_COUNT];
    int32_t row_count; /* of all tables */
} FarmRead;

/* Reads count buffers. out holds what could be read also where there are
 * faults: only a farm without faults may be used. out is large: keep it in an
 * arena. */
void farm_read(const FarmBuffer *buffers, int count, Faults *faults,
               FarmRead *out);

/* The file of a table, "beds.csv", and the place of a field in a row. */
const char *farm_table_file(TableId table);
FaultPlace farm_place(const FarmRead *read, TableId table, int32_t line,
                      const char *field);

/* Rows of a table by its description. */
void *farm_rows(const Farm *farm, const Table *table);
int32_t farm_row_count(const Farm *farm, const Table *table);

/* The table of that name, or TABLE_COUNT. */
TableId farm_table_find(const char *name);

#endif
