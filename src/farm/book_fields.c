/* The book's tables as data, made from the lists of farm/book.h. */
#include "farm/book_fields.h"

#include <math.h>
#include <string.h>

#define NEEDED true
#define MAY false

/* Which texts are needed is told in book_read.c: a way sown in place has no
 * tray. */
#define TEXT_FIELD(R, member)                                                  \
    {.kind = BOOK_TEXT, .name = #member, .offset = offsetof(R, member)},
#define WORD_FIELD(R, member, list)                                            \
    {.kind = BOOK_WORD,                                                        \
     .name = #member,                                                          \
     .words = list,                                                            \
     .is_needed = true,                                                        \
     .offset = offsetof(R, member)},
#define FIGURE_FIELD(R, member, its_unit, need, low, high)                     \
    {.kind = BOOK_FIGURE,                                                      \
     .name = #member,                                                          \
     .unit = its_unit,                                                         \
     .is_needed = need,                                                        \
     .least = low,                                                             \
     .most = high,                                                             \
     .offset = offsetof(R, member)},

#define FIELDS(table, record, list)                                            \
    static const BookField FIELDS_##table[] = {                                \
        list(record, TEXT_FIELD, WORD_FIELD, FIGURE_FIELD)};
BOOK_TABLES(FIELDS)

#define TABLE(table, record, list)                                             \
    {.name = #table,                                                           \
     .fields = FIELDS_##table,                                                 \
     .field_count = (int)(sizeof FIELDS_##table / sizeof *FIELDS_##table),     \
     .row_size = sizeof(record),                                               \
     .rows_offset = offsetof(Book, table),                                     \
     .count_offset = offsetof(Book, table##_count)},
const BookTable BOOK_TABLE[BOOK_TABLE_COUNT] = {BOOK_TABLES(TABLE)};

const BookField *book_field_find(const BookTable *table, const char *name)
{
    for (int i = 0; i < table->field_count; i++) {
        if (strcmp(table->fields[i].name, name) == 0) {
            return &table->fields[i];
        }
    }
    return NULL;
}

Err book_figure_check(const BookField *field, const Figure *figure)
{
    bool is_ordered =
        figure->low <= figure->value && figure->value <= figure->high;
    if (!is_ordered) {
        return err_make(ERR_RANGE, "%s: low %g, value %g, high %g do not rise",
                        field->name, figure->low, figure->value, figure->high);
    }
    if (!(figure->low >= field->least && figure->high <= field->most)) {
        return err_make(ERR_RANGE, "%s: %g to %g: expected %g to %g %s",
                        field->name, figure->low, figure->high, field->least,
                        field->most, field->unit);
    }
    return ERR_NONE;
}

/* The offset and prime of FNV-1a, 64 bit.
 * Source: [FNV] Fowler, Noll & Vo, draft-eastlake-fnv, section 5. */
uint64_t book_hash_bytes(uint64_t hash, const char *bytes, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        hash ^= (unsigned char)bytes[i];
        hash *= 0x100000001b3u;
    }
    return hash;
}
