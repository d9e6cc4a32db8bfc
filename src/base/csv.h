/* Tables of comma or semicolon separated values, out of and into memory.
 *
 * The reader follows RFC 4180, strictly about quotes, and keeps no spaces from
 * the caller: nothing is trimmed. It never fails as a whole: a fault is told
 * with its place, and reading goes on with the line after the one on which the
 * faulty cell began. Physical lines count, also those inside quotes. */
#ifndef LEAT_BASE_CSV_H
#define LEAT_BASE_CSV_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

enum { CSV_CELL_MAX_BYTES = 64 * 1024, CSV_ROW_MAX_CELLS = 4096 };

typedef struct CsvCell {
    const char *text; /* Borrowed until the handler returns; ends with NUL. */
    size_t length;    /* bytes, at most CSV_CELL_MAX_BYTES */
    int32_t line;     /* 1-based line of the file on which the cell begins */
    int32_t column;   /* 1-based number of the cell in its row */
} CsvCell;

typedef struct CsvRow {
    const CsvCell *cells; /* Borrowed until the handler returns. */
    int32_t count;        /* at least 1; empty lines give no row */
    int32_t line;         /* where the row begins */
    char delimiter;       /* ',' or ';', decided from the first line */
    /* A fault was told within this row: it held NUL, CR or bytes that are not
     * UTF-8, now question marks. */
    bool is_damaged;
} CsvRow;

typedef struct CsvFault {
    int32_t line;
    int32_t column;       /* 1-based cell; 0 when it belongs to the line */
    const char *value;    /* what stands there, cut short, valid UTF-8 */
    const char *expected; /* what should stand there instead */
} CsvFault;

/* What a reader is told; self is handed back. */
typedef struct CsvHandler {
    void *self;
    void (*row)(void *self, const CsvRow *row);
    void (*fault)(void *self, const CsvFault *fault);
} CsvHandler;

/* Reads a whole table, the header row included, row by row in file order. A
 * byte order mark is passed over. Line ends are LF or CR LF. Semicolons divide
 * the cells when the first line holds more of them than commas. */
void csv_read_bytes(const char *bytes, size_t length,
                    const CsvHandler *handler);

/* Builds a table: commas, LF, quotes only where they are needed. */
typedef struct CsvWriter {
    Arena *arena;    /* Borrowed; holds the bytes. */
    char *bytes;     /* Borrowed from arena. */
    size_t length;   /* bytes written */
    size_t capacity; /* bytes there is room for */
    bool is_mid_row;
} CsvWriter;

void csv_writer_init(CsvWriter *writer, Arena *arena);
void csv_writer_cell(CsvWriter *writer, const char *text);
void csv_writer_end_row(CsvWriter *writer);

#endif
