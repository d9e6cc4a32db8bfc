/* The book in memory: rows by id, figures replaced by a farm's own, and the
 * equations' structs made from its figures. Reading is in book_read.c. */
#include "farm/book.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "farm/book_fields.h"

static void *rows_of(const Book *book, int table, int32_t *out_count)
{
    const BookTable *t = &BOOK_TABLE[table];
    const char *bytes = (const char *)book;
    memcpy(out_count, bytes + t->count_offset, sizeof *out_count);
    void *rows = NULL;
    memcpy(&rows, bytes + t->rows_offset, sizeof rows);
    return rows;
}

static const char *id_at(const void *rows, size_t row_size, int32_t row)
{
    /* Every record begins with its id. */
    const char *id = NULL;
    memcpy(&id, (const char *)rows + row_size * (size_t)row, sizeof id);
    return id;
}

static void *find(const Book *book, int table, const char *id)
{
    int32_t count = 0;
    char *rows = rows_of(book, table, &count);
    size_t size = BOOK_TABLE[table].row_size;
    for (int32_t i = 0; i < count; i++) {
        if (strcmp(id_at(rows, size, i), id) == 0) {
            return rows + size * (size_t)i;
        }
    }
    return NULL;
}

const BookCrop *book_crop(const Book *book, const char *id)
{
    return find(book, BOOK_crops, id);
}

const BookWay *book_way(const Book *book, const char *id)
{
    return find(book, BOOK_ways, id);
}

const BookTray *book_tray(const Book *book, const char *id)
{
    return find(book, BOOK_trays, id);
}

const BookCover *book_cover(const Book *book, const char *id)
{
    return find(book, BOOK_covers, id);
}

const BookGravel *book_gravel(const Book *book, const char *id)
{
    return find(book, BOOK_gravels, id);
}

const BookFeed *book_feed(const Book *book, const char *id)
{
    return find(book, BOOK_feeds, id);
}

const BookBase *book_base(const Book *book, const char *id)
{
    return find(book, BOOK_bases, id);
}

const BookTask *book_task(const Book *book, const char *id)
{
    return find(book, BOOK_tasks, id);
}

const BookCrop *book_crop_of(const Book *book, const BookWay *way)
{
    return book_crop(book, way->crop);
}

const BookLimit *book_limit(const Book *book, const char *id)
{
    return find(book, BOOK_limits, id);
}

const char *book_id(const Book *book, const char *table, int32_t row)
{
    for (int t = 0; t < BOOK_TABLE_COUNT; t++) {
        int32_t count = 0;
        if (strcmp(BOOK_TABLE[t].name, table) == 0) {
            const void *rows = rows_of(book, t, &count);
            return row < count ? id_at(rows, BOOK_TABLE[t].row_size, row)
                               : NULL;
        }
    }
    return NULL;
}

void book_copy(Arena *arena, const Book *book, Book *out)
{
    Book copy = *book;
#define COPY_ROWS(table, record, list)                                         \
    copy.table = arena_grow(arena, book->table, (size_t)book->table##_count,   \
                            (size_t)book->table##_count, sizeof(record));
    BOOK_TABLES(COPY_ROWS)
#undef COPY_ROWS
    size_t crops = (size_t)book->crops_count;
    copy.emergence = arena_grow(arena, book->emergence, crops, crops,
                                sizeof *book->emergence);
    *out = copy;
}

static Figure *figure_at(const Book *book, const char *id, const char *figure,
                         const BookField **out_field)
{
    for (int t = 0; t < BOOK_TABLE_COUNT; t++) {
        char *row = find(book, t, id);
        if (!row) {
            continue;
        }
        const BookField *field = book_field_find(&BOOK_TABLE[t], figure);
        if (!field || field->kind != BOOK_FIGURE) {
            return NULL;
        }
        *out_field = field;
        return (Figure *)(void *)(row + field->offset);
    }
    return NULL;
}

const Figure *book_figure(const Book *book, const char *id, const char *figure)
{
    const BookField *field = NULL;
    return figure_at(book, id, figure, &field);
}

void book_note(Book *book, const char *id, const char *figure, Figure yours)
{
    book->hash = book_hash_bytes(book->hash, id, strlen(id));
    book->hash = book_hash_bytes(book->hash, figure, strlen(figure));
    double numbers[3] = {yours.value, yours.low, yours.high};
    book->hash =
        book_hash_bytes(book->hash, (const char *)numbers, sizeof numbers);
}

Err book_replace(Book *book, const char *id, const char *figure, Figure yours)
{
    const BookField *field = NULL;
    Figure *at = figure_at(book, id, figure, &field);
    if (!at) {
        return err_make(ERR_NOT_FOUND, "the book has no figure %.60s of %.60s",
                        figure, id);
    }
    TRY(book_figure_check(field, &yours));
    *at = yours;
    at->origin = FIGURE_YOURS;
    book_note(book, id, figure, yours);
    return ERR_NONE;
}

ThermalRule book_thermal(const BookCrop *crop)
{
    return (ThermalRule){.base_degc = crop->base_degc.value,
                         .optimum_degc = crop->optimum_degc.value,
                         .ceiling_degc = crop->ceiling_degc.value};
}

LightRule book_light(const BookCrop *crop)
{
    return (LightRule){.least_mol = crop->dli_least_mol.value,
                       .full_mol = crop->dli_full_mol.value};
}

EmergenceLine book_emergence_line(const BookCrop *crop)
{
    return (EmergenceLine){.base_degc = crop->emerge_base_degc.value,
                           .most_degc = crop->germ_most_degc.value,
                           .sum_degc_d = crop->emerge_sum_degc_d.value};
}

/* An absent road never leads to bolting. */
static double or_none(const Figure *figure, double none)
{
    return isnan(figure->value) ? none : figure->value;
}

BoltRule book_bolt(const BookCrop *crop)
{
    return (BoltRule){.heat_day_h = or_none(&crop->bolt_heat_day_h, INFINITY),
                      .heat_degc = or_none(&crop->bolt_heat_degc, INFINITY),
                      .heat_sum_degc_d =
                          or_none(&crop->bolt_heat_sum_degc_d, 0.0),
                      .cold_degc = or_none(&crop->bolt_cold_degc, -INFINITY),
                      .cold_d = or_none(&crop->bolt_cold_d, 0.0),
                      .cold_day_h = or_none(&crop->bolt_cold_day_h, INFINITY)};
}
