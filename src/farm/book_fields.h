/* The book's tables as data: what its reader, its check and its lookups share.
 * Only farm/book*.c include it. */
#ifndef LEAT_FARM_BOOK_FIELDS_H
#define LEAT_FARM_BOOK_FIELDS_H

#include "farm/book.h"

typedef enum BookFieldKind { BOOK_TEXT, BOOK_WORD, BOOK_FIGURE } BookFieldKind;

typedef struct BookField {
    BookFieldKind kind;
    const char *name;
    const char *words; /* of a word: the words, spaces between, by number */
    const char *unit;  /* of a figure; "" where each row tells its own */
    bool is_needed;
    double least;
    double most;
    size_t offset;
} BookField;

typedef struct BookTable {
    const char *name;
    const BookField *fields;
    int field_count;
    size_t row_size;
    size_t rows_offset;
    size_t count_offset;
} BookTable;

typedef enum BookTableId {
#define BOOK_TABLE_ENUM(table, record, list) BOOK_##table,
    BOOK_TABLES(BOOK_TABLE_ENUM)
#undef BOOK_TABLE_ENUM
        BOOK_TABLE_COUNT
} BookTableId;

extern const BookTable BOOK_TABLE[BOOK_TABLE_COUNT];

/* The field of that name, or NULL. */
const BookField *book_field_find(const BookTable *table, const char *name);

/* low <= value <= high, all three within the field's range; else ERR_RANGE. */
NODISCARD Err book_figure_check(const BookField *field, const Figure *figure);

/* FNV-1a, going on from hash. */
uint64_t book_hash_bytes(uint64_t hash, const char *bytes, size_t length);

#endif
