/* What a field of a record can be, and how one list makes everything else.
 *
 * Each record has one list in farm/records.h:
 *
 *     #define POND_FIELDS(F, R)
 *         F(R, ID, id, NEEDED, 0, 0, 0, 0, "...")
 *         F(R, NUMBER, volume_m3, NEEDED, 0.1, 500, 0, 0, "...")
 *
 * where R passes the record's type through, with the columns: kind; name (the
 * CSV column, unit included); NEEDED or MAY; least and most (numbers only);
 * fallback where the cell is blank (a reference: 1 where the row that it names
 * may be gone, farm/gone.h); extra (a table for REF, a word list for
 * WORD and WORDS); and what it means. The list makes the C struct, the Field
 * table of reader, checker and writer, and the page of documentation. */
#ifndef LEAT_FARM_FIELDS_H
#define LEAT_FARM_FIELDS_H

#include <limits.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum FieldKind {
    FIELD_ID,      /* a word, unique in its table, never reused */
    FIELD_REF,     /* the id of a row of another table; its index, -1 blank */
    FIELD_TEXT,    /* free text; "" when blank */
    FIELD_NUMBER,  /* a decimal number */
    FIELD_COUNT,   /* a whole number */
    FIELD_DATE,    /* ISO 8601 day, kept as days since 1970-01-01 */
    FIELD_INSTANT, /* ISO 8601 instant with its offset, kept as UTC seconds */
    FIELD_FLAG,    /* yes or no */
    FIELD_PRICE,   /* currency, four decimals; member name_e4 in 1/10000 */
    FIELD_WORD,    /* one word of a list; its number in the list */
    FIELD_WORDS,   /* words of a list, spaces between; bit i is word i */
    FIELD_MONTHS,  /* "all", or months and spans: "5-10", "11-3 7"; bit 0 Jan */
    FIELD_MONTHLY, /* one number for every month, or twelve from January */
    FIELD_WEEKDAYS, /* "all", or days: "mon thu"; bit 0 is Monday */
} FieldKind;

/* Blank dates: always was, never ends. */
#define DATE_ALWAYS INT32_MIN
#define DATE_NEVER INT32_MAX

enum { MONTHS_ALL = 0xfff, WEEKDAYS_ALL = 0x7f };

/* The C member behind each kind. */
#define FIELD_MEMBER_ID(name) const char *name;
#define FIELD_MEMBER_REF(name) int32_t name;
#define FIELD_MEMBER_TEXT(name) const char *name;
#define FIELD_MEMBER_NUMBER(name) double name;
#define FIELD_MEMBER_COUNT(name) int32_t name;
#define FIELD_MEMBER_DATE(name) int32_t name;
#define FIELD_MEMBER_INSTANT(name) int64_t name;
#define FIELD_MEMBER_FLAG(name) bool name;
#define FIELD_MEMBER_PRICE(name) int64_t name##_e4;
#define FIELD_MEMBER_WORD(name) int32_t name;
#define FIELD_MEMBER_WORDS(name) uint32_t name;
#define FIELD_MEMBER_MONTHS(name) uint32_t name;
#define FIELD_MEMBER_MONTHLY(name) double name[12];
#define FIELD_MEMBER_WEEKDAYS(name) uint32_t name;

#define FIELD_STRUCT_ROW(row, kind, name, ...) FIELD_MEMBER_##kind(name)

/* Where the member stands; only a price's member differs from its column. */
#define FIELD_AT_ID(type, name) offsetof(type, name)
#define FIELD_AT_REF(type, name) offsetof(type, name)
#define FIELD_AT_TEXT(type, name) offsetof(type, name)
#define FIELD_AT_NUMBER(type, name) offsetof(type, name)
#define FIELD_AT_COUNT(type, name) offsetof(type, name)
#define FIELD_AT_DATE(type, name) offsetof(type, name)
#define FIELD_AT_INSTANT(type, name) offsetof(type, name)
#define FIELD_AT_FLAG(type, name) offsetof(type, name)
#define FIELD_AT_PRICE(type, name) offsetof(type, name##_e4)
#define FIELD_AT_WORD(type, name) offsetof(type, name)
#define FIELD_AT_WORDS(type, name) offsetof(type, name)
#define FIELD_AT_MONTHS(type, name) offsetof(type, name)
#define FIELD_AT_MONTHLY(type, name) offsetof(type, name)
#define FIELD_AT_WEEKDAYS(type, name) offsetof(type, name)

typedef struct Field {
    FieldKind kind;
    const char *name; /* the column */
    bool is_needed;
    double least; /* numbers, counts, prices, monthly: inclusive */
    double most;
    double fallback; /* where the cell is blank and not needed */
    int extra;       /* TableId for REF, WordListId for WORD and WORDS */
    size_t offset;
    const char *meaning;
} Field;

typedef struct Table {
    const char *name; /* the file is <name>.csv */
    bool is_needed;   /* a farm cannot be read without it */
    bool is_single;   /* exactly one row */
    const Field *fields;
    int field_count;
    size_t row_size;
    size_t rows_offset;  /* of the rows' pointer in Farm */
    size_t count_offset; /* of the int32_t row count in Farm */
    const char *meaning;
} Table;

typedef struct WordList {
    const char *const *words;
    int count;
} WordList;

#endif
