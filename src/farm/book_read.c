/* Reads the book's tables: one figure a row into structs, checked as a whole.
 */
#include "farm/book.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/text.h"
#include "farm/book_fields.h"

static const char *const COLUMNS[] = {"id",   "figure", "value",  "low", "high",
                                      "unit", "origin", "source", "note"};
enum { ID, FIGURE, VALUE, LOW, HIGH, UNIT, ORIGIN, SOURCE, COLUMN_COUNT = 9 };

/* What reading one table knows; the first fault stops the filling. */
typedef struct Reader {
    Arena *arena;
    const char *file;
    const BookTable *table;
    EmergenceRow *emergence; /* crops only; grows with the rows */
    char *rows;
    bool *is_told; /* by row and field */
    int32_t count;
    bool has_header;
    Err err;
} Reader;

static void fail(Reader *reader, int32_t line, const char *what,
                 const char *word)
{
    if (reader->err.kind == ERR_OK) {
        reader->err = err_make(ERR_INPUT, "%s line %d: %s: \"%.60s\"",
                               reader->file, (int)line, what, word);
    }
}

static void blank_row(const Reader *reader, char *row, const char *id)
{
    memcpy(row, &id, sizeof id);
    const Figure none = {NAN, NAN, NAN, FIGURE_BOOK, ""};
    const char *no_text = "";
    for (int i = 0; i < reader->table->field_count; i++) {
        const BookField *field = &reader->table->fields[i];
        if (field->kind == BOOK_FIGURE) {
            memcpy(row + field->offset, &none, sizeof none);
        } else if (field->kind == BOOK_TEXT) {
            memcpy(row + field->offset, &no_text, sizeof no_text);
        }
    }
}

static EmergenceRow blank_emergence(void)
{
    EmergenceRow row;
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        row.germination_frac[i] = NAN;
        row.days_d[i] = NAN;
    }
    return row;
}

/* The row of an id: rows of one id stand together, so only the last is asked
 * before a new one begins. */
static int32_t row_of(Reader *reader, const CsvRow *csv)
{
    const char *word = csv->cells[ID].text;
    size_t size = reader->table->row_size;
    for (int32_t i = reader->count - 1; i >= 0; i--) {
        const char *id = NULL;
        memcpy(&id, reader->rows + size * (size_t)i, sizeof id);
        if (strcmp(id, word) == 0) {
            return i;
        }
    }
    size_t old = (size_t)reader->count;
    size_t fields = (size_t)reader->table->field_count;
    reader->rows = arena_grow(reader->arena, reader->rows, old, old + 1, size);
    reader->is_told = arena_grow(reader->arena, reader->is_told, old * fields,
                                 (old + 1) * fields, sizeof(bool));
    reader->emergence = arena_grow(reader->arena, reader->emergence, old,
                                   old + 1, sizeof(EmergenceRow));
    memset(reader->is_told + old * fields, 0, fields);
    reader->emergence[old] = blank_emergence();
    blank_row(reader, reader->rows + size * old,
              arena_copy_text(reader->arena, word));
    reader->count++;
    return (int32_t)old;
}

/* "germ_15_frac" and "emerge_15_d" fill step 3 of the crop's row. */
static bool put_emergence(Reader *reader, int32_t row, const CsvRow *csv)
{
    const char *name = csv->cells[FIGURE].text;
    EmergenceRow *into = &reader->emergence[row];
    for (int i = 0; i < EMERGENCE_STEPS; i++) {
        char germ[32], days[32];
        int degc = (int)emergence_step_degc(i);
        (void)snprintf(germ, sizeof germ, "germ_%02d_frac", degc);
        (void)snprintf(days, sizeof days, "emerge_%02d_d", degc);
        bool is_germ = strcmp(name, germ) == 0;
        if (!is_germ && strcmp(name, days) != 0) {
            continue;
        }
        double *at = is_germ ? &into->germination_frac[i] : &into->days_d[i];
        double value = NAN;
        Err err = text_to_f64(csv->cells[VALUE].text, &value);
        double most = is_germ ? 1.0 : 200.0;
        if (err.kind != ERR_OK || value < 0.0 || value > most || !isnan(*at)) {
            fail(reader, csv->line, "a germination figure once, in its range",
                 name);
            return true;
        }
        *at = value;
        return true;
    }
    return false;
}

static bool put_word(const BookField *field, const char *word, char *row)
{
    int number = 0;
    size_t length = strlen(word);
    for (const char *at = field->words; *at != '\0'; number++) {
        size_t here = strcspn(at, " ");
        if (here == length && memcmp(at, word, length) == 0) {
            memcpy(row + field->offset, &number, sizeof number);
            return true;
        }
        at += here + (at[here] == ' ');
    }
    return false;
}

static Err parse_figure(Reader *reader, const BookField *field,
                        const CsvRow *csv, Figure *out)
{
    Figure figure = {0};
    TRY(text_to_f64(csv->cells[VALUE].text, &figure.value));
    TRY(text_to_f64(csv->cells[LOW].text, &figure.low));
    TRY(text_to_f64(csv->cells[HIGH].text, &figure.high));
    TRY(figure_origin_parse(csv->cells[ORIGIN].text, &figure.origin));
    if (field->unit[0] != '\0' &&
        strcmp(csv->cells[UNIT].text, field->unit) != 0) {
        return err_make(ERR_INPUT, "%s: unit \"%.20s\", expected %s",
                        field->name, csv->cells[UNIT].text, field->unit);
    }
    TRY(book_figure_check(field, &figure));
    figure.source = arena_copy_text(reader->arena, csv->cells[SOURCE].text);
    *out = figure;
    return ERR_NONE;
}

static void put_field(Reader *reader, const BookField *field, char *row,
                      const CsvRow *csv)
{
    const char *word = csv->cells[VALUE].text;
    if (field->kind == BOOK_TEXT) {
        const char *text = arena_copy_text(reader->arena, word);
        memcpy(row + field->offset, &text, sizeof text);
        return;
    }
    if (field->kind == BOOK_WORD) {
        if (!put_word(field, word, row)) {
            fail(reader, csv->line, "not a word of its list", word);
        }
        return;
    }
    Figure figure = {0};
    Err err = parse_figure(reader, field, csv, &figure);
    if (err.kind != ERR_OK) {
        fail(reader, csv->line, err.text, csv->cells[ID].text);
        return;
    }
    memcpy(row + field->offset, &figure, sizeof figure);
}

static void read_header(Reader *reader, const CsvRow *csv)
{
    reader->has_header = true;
    for (int i = 0; i < COLUMN_COUNT; i++) {
        if (i >= csv->count || strcmp(csv->cells[i].text, COLUMNS[i]) != 0) {
            fail(reader, csv->line, "the columns of the book", COLUMNS[i]);
            return;
        }
    }
}

static void read_row(void *self, const CsvRow *csv)
{
    Reader *reader = self;
    if (reader->err.kind != ERR_OK) {
        return;
    }
    if (!reader->has_header) {
        read_header(reader, csv);
        return;
    }
    if (csv->count != COLUMN_COUNT) {
        fail(reader, csv->line, "expected nine cells", csv->cells[ID].text);
        return;
    }
    int32_t row = row_of(reader, csv);
    bool is_crops = reader->table == &BOOK_TABLE[BOOK_crops];
    if (is_crops && put_emergence(reader, row, csv)) {
        return;
    }
    const char *name = csv->cells[FIGURE].text;
    const BookField *field = book_field_find(reader->table, name);
    if (!field) {
        fail(reader, csv->line, "no such figure", name);
        return;
    }
    size_t told = (size_t)row * (size_t)reader->table->field_count +
                  (size_t)(field - reader->table->fields);
    if (reader->is_told[told]) {
        fail(reader, csv->line, "told twice", name);
        return;
    }
    reader->is_told[told] = true;
    put_field(reader, field,
              reader->rows + reader->table->row_size * (size_t)row, csv);
}

static void read_fault(void *self, const CsvFault *fault)
{
    fail(self, fault->line, fault->expected, fault->value);
}

static void check_needed(Reader *reader)
{
    int fields = reader->table->field_count;
    for (int32_t i = 0; i < reader->count * fields; i++) {
        const BookField *field = &reader->table->fields[i % fields];
        if (field->is_needed && !reader->is_told[i]) {
            const char *id = NULL;
            memcpy(&id,
                   reader->rows +
                       reader->table->row_size * (size_t)(i / fields),
                   sizeof id);
            fail(reader, 0, field->name, id);
        }
    }
}

static Err read_table(Arena *arena, const EmbeddedFile *file, int table,
                      Book *book)
{
    const BookTable *t = &BOOK_TABLE[table];
    Reader reader = {.arena = arena, .file = file->name, .table = t};
    const CsvHandler handler = {&reader, read_row, read_fault};
    csv_read_bytes(file->bytes, file->length, &handler);
    check_needed(&reader);
    if (reader.err.kind != ERR_OK) {
        return reader.err;
    }
    char *into = (char *)book;
    memcpy(into + t->rows_offset, &reader.rows, sizeof reader.rows);
    memcpy(into + t->count_offset, &reader.count, sizeof reader.count);
    if (table == BOOK_crops) {
        book->emergence = reader.emergence;
    }
    return ERR_NONE;
}

static Err check_way(const Book *book, const BookWay *way)
{
    if (!book_crop(book, way->crop)) {
        return err_make(ERR_INPUT, "way %s: no crop %s", way->id, way->crop);
    }
    bool is_set = way->start == START_SET;
    if (is_set && !book_tray(book, way->tray)) {
        return err_make(ERR_INPUT, "way %s: no tray \"%s\"", way->id,
                        way->tray);
    }
    const struct {
        bool is_needed;
        const char *name;
        const Figure *figure;
    } needs[] = {
        {way->place == WAY_FLOOR, "plants_m2", &way->plants_m2},
        {way->place == WAY_EDGE, "plants_m", &way->plants_m},
        {way->place == WAY_EDGE, "area_m2_plant", &way->area_m2_plant},
        {way->shape != SHAPE_ONCE, "pick_every_degc_d",
         &way->pick_every_degc_d},
        {is_set, "nursery_d", &way->nursery_d},
        {is_set, "wait_d", &way->wait_d},
        {is_set, "seeds_cell", &way->seeds_cell},
        {is_set, "sow_min_tray", &way->sow_min_tray},
        {is_set, "set_min_plant", &way->set_min_plant},
        {!is_set, "sow_min_m2", &way->sow_min_m2},
    };
    for (size_t i = 0; i < sizeof needs / sizeof *needs; i++) {
        if (needs[i].is_needed && isnan(needs[i].figure->value)) {
            return err_make(ERR_INPUT, "way %s: %s is lacking", way->id,
                            needs[i].name);
        }
    }
    return ERR_NONE;
}

static Err check_crop(const BookCrop *crop)
{
    double base = crop->base_degc.value;
    double optimum = crop->optimum_degc.value;
    if (!(base < optimum && optimum <= crop->ceiling_degc.value)) {
        return err_make(ERR_INPUT, "crop %s: base, optimum, ceiling", crop->id);
    }
    if (!(crop->dli_least_mol.value < crop->dli_full_mol.value)) {
        return err_make(ERR_INPUT, "crop %s: light limits", crop->id);
    }
    bool has_cool = !isnan(crop->cool_degc.value);
    if (has_cool != !isnan(crop->cool_loss_frac.value)) {
        return err_make(ERR_INPUT, "crop %s: cool_degc and cool_loss_frac",
                        crop->id);
    }
    bool has_chill = !isnan(crop->chill_degc.value);
    if (has_chill != !isnan(crop->chill_d.value)) {
        return err_make(ERR_INPUT, "crop %s: chill_degc and chill_d", crop->id);
    }
    return ERR_NONE;
}

Err book_parse(Arena *arena, const EmbeddedFile *files, size_t count, Book *out)
{
    /* The offset basis of FNV-1a. */
    Book book = {.hash = 0xcbf29ce484222325u};
    for (int t = 0; t < BOOK_TABLE_COUNT; t++) {
        const EmbeddedFile *file = NULL;
        for (size_t i = 0; i < count; i++) {
            size_t stem = strcspn(files[i].name, ".");
            if (stem == strlen(BOOK_TABLE[t].name) &&
                memcmp(files[i].name, BOOK_TABLE[t].name, stem) == 0) {
                file = &files[i];
            }
        }
        if (!file) {
            return err_make(ERR_INPUT, "the book lacks %s.csv",
                            BOOK_TABLE[t].name);
        }
        TRY(read_table(arena, file, t, &book));
    }
    /* All files, so that a plan knows a book with other fish too. */
    for (size_t i = 0; i < count; i++) {
        book.hash = book_hash_bytes(book.hash, files[i].bytes, files[i].length);
    }
    for (int32_t i = 0; i < book.crops_count; i++) {
        TRY(check_crop(&book.crops[i]));
    }
    for (int32_t i = 0; i < book.ways_count; i++) {
        TRY(check_way(&book, &book.ways[i]));
    }
    if (book.common_count != 1) {
        return err_make(ERR_INPUT, "common.csv: expected one record");
    }
    if (book.alarm_count != 1) {
        return err_make(ERR_INPUT, "alarm.csv: expected one record");
    }
    if (book.waters_count != 1) {
        return err_make(ERR_INPUT, "waters.csv: expected one record");
    }
    *out = book;
    return ERR_NONE;
}

Err book_load(Arena *arena, Book *out)
{
    Err err = book_parse(arena, BOOK_FILES, BOOK_FILES_COUNT, out);
    return err.kind == ERR_OK ? ERR_NONE
                              : err_make(ERR_DEFECT, "book: %s", err.text);
}
