/* A farm from the bytes of its tables.
 *
 * Tables are read in the order of their list, in which every reference points
 * to an earlier table (a test holds the list to it). */
#include "farm/read.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/text.h"
#include "farm/cell.h"
#include "farm/gone.h"
#include "farm/ids.h"

enum { NEAR_NAMES_MAX = 100, NEAR_COMPARISONS = 300000, FIRST_ROWS = 16 };

typedef struct Reader {
    FarmRead *out;
    Faults *faults;
    Arena *arena;
    IdIndex ids[TABLE_COUNT];
    int32_t near_count; /* names that were offered */
    int64_t near_budget;
    bool has_lost_rows[TABLE_COUNT]; /* some ids may be among them */
    bool is_lack_told[TABLE_COUNT];
    int32_t semicolon_count; /* tables */
    const char *semicolon_file;
} Reader;

/* One table while it is read. */
typedef struct TableReader {
    Reader *reader;
    TableId id;
    const Table *table;
    const char *file;
    const Field **columns; /* by column, NULL for one that is not known */
    int32_t column_count;  /* 0 until the header is read */
    char *rows;
    int32_t count;
    int32_t room;
    char decimal_mark; /* the first one met, 0 before */
    int32_t decimal_line;
} TableReader;

const char *farm_table_file(TableId table)
{
    static const char *const FILES[] = {
#define TABLE_FILE(name, ...) #name ".csv",
        TABLES(TABLE_FILE)
#undef TABLE_FILE
    };
    return FILES[table];
}

TableId farm_table_find(const char *name)
{
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (strcmp(FARM_TABLES[i].name, name) == 0) {
            return (TableId)i;
        }
    }
    return TABLE_COUNT;
}

void *farm_rows(const Farm *farm, const Table *table)
{
    return *(void *const *)((const char *)farm + table->rows_offset);
}

int32_t farm_row_count(const Farm *farm, const Table *table)
{
    return *(const int32_t *)((const char *)farm + table->count_offset);
}

FaultPlace farm_place(const FarmRead *read, TableId table, int32_t line,
                      const char *field)
{
    FaultPlace place = {.file = farm_table_file(table), .line = line};
    for (int i = 0; field && i < FARM_TABLES[table].field_count; i++) {
        if (strcmp(FARM_TABLES[table].fields[i].name, field) == 0) {
            place.column = read->sheets[table].columns[i];
        }
    }
    return place;
}

/* ---- References -----------------------------------------------------------
 */

/* What keeps a table's ids from being known, or "". Its first field is the id.
 */
static const char *lack_of_ids(const Reader *reader, int table)
{
    const FarmSheet *sheet = &reader->out->sheets[table];
    if (reader->has_lost_rows[table]) {
        return "; some of its rows cannot be read";
    }
    if (!sheet->is_there) {
        return "; the table is missing";
    }
    return sheet->columns[0] ? "" : "; it has no column id";
}

/* Where a whole table's ids are not known, told at the first reference: the
 * others would say the same again. */
static void tell_wrong_reference(Reader *reader, const Field *field,
                                 FaultPlace place, const char *text)
{
    const IdIndex *ids = &reader->ids[field->extra];
    const char *lack = lack_of_ids(reader, field->extra);
    if (*lack) {
        if (!reader->is_lack_told[field->extra]) {
            faults_add(reader->faults, place, text,
                       "%s: an id of the table %s%s", field->name,
                       FARM_TABLES[field->extra].name, lack);
        }
        reader->is_lack_told[field->extra] = true;
        return;
    }
    const char *near = NULL;
    if (ids->is_built && reader->near_count < NEAR_NAMES_MAX &&
        faults_has_room(reader->faults)) {
        reader->near_count++;
        near = id_index_nearest(ids, text, &reader->near_budget);
    }
    faults_add(reader->faults, place, text, "%s: an id of the table %s%s%s%s",
               field->name, FARM_TABLES[field->extra].name,
               near ? " (near: " : "", near ? near : "", near ? ")" : "");
}

/* The row of a reference, or REF_WRONG and told. */
static int32_t find_reference(Reader *reader, const Field *field,
                              FaultPlace place, const char *text)
{
    int32_t row = id_index_find(&reader->ids[field->extra], text);
    bool may_be_gone =
        field->fallback > 0.0 && !reader->has_lost_rows[field->extra];
    if (row < 0 && may_be_gone) {
        return REF_GONE;
    }
    if (row < 0) {
        tell_wrong_reference(reader, field, place, text);
        return REF_WRONG;
    }
    return row;
}

/* ---- Cells ----------------------------------------------------------------
 */

/* The cell's text without spaces at its ends; copied only where it must be. */
static const char *trim_cell(Arena *arena, const CsvCell *cell)
{
    const char *text = cell->text + strspn(cell->text, " \t");
    size_t length = strlen(text);
    size_t kept = length;
    while (kept > 0 && strchr(" \t", text[kept - 1])) {
        kept--;
    }
    return kept == length ? text : arena_copy_bytes(arena, text, kept);
}

/* Turns decimal commas into points. False, and told, when the table has shown
 * the other mark before. */
static bool settle_decimals(TableReader *table, const CsvRow *row,
                            const Field *field, FaultPlace place,
                            const char **text)
{
    const char *mark = strpbrk(*text, ",.");
    if (!mark || row->delimiter != ';') {
        return true;
    }
    if (!table->decimal_mark) {
        table->decimal_mark = *mark;
        table->decimal_line = place.line;
    }
    if (*mark != table->decimal_mark) {
        faults_add(table->reader->faults, place, *text,
                   "%s: one decimal mark in a table, \"%c\" as on line %d",
                   field->name, table->decimal_mark, (int)table->decimal_line);
        return false;
    }
    if (*mark == ',' && !strchr(*text, '.')) {
        char *copy = arena_copy_text(table->reader->arena, *text);
        for (char *at = copy; *at; at++) {
            *at = *at == ',' ? '.' : *at;
        }
        *text = copy;
    }
    return true;
}

/* The member of a cell that was told. A reference is wrong, not blank; an id
 * stays, so that references to it are not told too. */
static void fill_faulty(const TableReader *table, const Field *field,
                        const char *text, void *row)
{
    cell_fill(field, true, row);
    if (field->kind == FIELD_REF) {
        *(int32_t *)((char *)row + field->offset) = REF_WRONG;
    }
    if (field->kind == FIELD_ID) {
        *(const char **)((char *)row + field->offset) =
            arena_copy_text(table->reader->arena, text);
    }
}

/* True, and told, where the cell holds what could steer a terminal or make a
 * line of text two: a name comes out again in lists and calendars. */
static bool tell_not_plain(TableReader *table, const Field *field,
                           FaultPlace place, const char *text)
{
    size_t length = strlen(text);
    size_t plain = text_plain(text, length);
    if (plain == length) {
        return false;
    }
    char shown[TEXT_ESCAPE_SIZE];
    text_escape(text + plain, length - plain, shown, sizeof shown);
    shown[shown[1] == 'x' ? 4 : 6] = '\0';
    faults_add(table->reader->faults, place, text,
               "%s: one line of text without control characters; its byte %zu "
               "is %s",
               field->name, plain + 1, shown);
    return true;
}

/* Reads one cell that is not blank. */
static void read_cell(TableReader *table, const CsvRow *csv_row,
                      const CsvCell *cell, const char *text, void *row)
{
    const Field *field = table->columns[cell->column - 1];
    FaultPlace place = {table->file, cell->line, cell->column};
    if (tell_not_plain(table, field, place, text)) {
        fill_faulty(table, field, text, row);
        return;
    }
    if (field->kind == FIELD_REF) {
        *(int32_t *)((char *)row + field->offset) =
            find_reference(table->reader, field, place, text);
        return;
    }
    if (cell_is_decimal(field) &&
        !settle_decimals(table, csv_row, field, place, &text)) {
        fill_faulty(table, field, text, row);
        return;
    }
    if (field->kind == FIELD_ID || field->kind == FIELD_TEXT) {
        text = arena_copy_text(table->reader->arena, text);
    }
    Err err = cell_parse(field, text, row);
    if (err.kind != ERR_OK) {
        faults_add(table->reader->faults, place, text, "%s: %s", field->name,
                   err.text);
        fill_faulty(table, field, text, row);
    }
}

static void tell_blank(TableReader *table, const Field *field, int32_t line,
                       int32_t column)
{
    if (!faults_has_room(table->reader->faults)) {
        table->reader->faults->count++;
        return;
    }
    char expected[CELL_TEXT_SIZE];
    cell_describe(field, expected);
    faults_add(table->reader->faults, (FaultPlace){table->file, line, column},
               "", "%s: %s; it may not be blank", field->name, expected);
}

/* ---- Rows -----------------------------------------------------------------
 */

static void *next_row(TableReader *table)
{
    if (table->count == table->room) {
        int32_t room = table->room ? table->room * 2 : FIRST_ROWS;
        table->rows =
            arena_grow(table->reader->arena, table->rows, (size_t)table->count,
                       (size_t)room, table->table->row_size);
        table->room = room;
    }
    return table->rows + (size_t)table->count * table->table->row_size;
}

/* Every member as a blank cell leaves it; faulty where it is needed. */
static void fill_row(const TableReader *table, int32_t line, void *row)
{
    for (int i = 0; i < table->table->field_count; i++) {
        const Field *field = &table->table->fields[i];
        cell_fill(field, field->is_needed, row);
        if (field->kind == FIELD_REF && field->is_needed) {
            *(int32_t *)((char *)row + field->offset) = REF_WRONG;
        }
    }
    *(int32_t *)row = line;
}

static bool is_blank_row(const CsvRow *row)
{
    for (int32_t i = 0; i < row->count; i++) {
        const char *text = row->cells[i].text;
        if (text[strspn(text, " \t")]) {
            return false;
        }
    }
    return true;
}

static void tell_cell_count(TableReader *table, const CsvRow *row)
{
    bool has_other_delimiter =
        row->count == 1 &&
        strchr(row->cells[0].text, row->delimiter == ';' ? ',' : ';');
    faults_add(table->reader->faults, (FaultPlace){table->file, row->line, 0},
               row->cells[0].text, "%d cells as in the header, not %d%s",
               (int)table->column_count, (int)row->count,
               has_other_delimiter
                   ? "; commas and semicolons may not be mixed in a table"
                   : "");
}

static void read_row(TableReader *table, const CsvRow *csv_row)
{
    if (table->count == FARM_ROWS_MAX) {
        faults_add(table->reader->faults,
                   (FaultPlace){table->file, csv_row->line, 0}, "",
                   "at most %d rows in a table", FARM_ROWS_MAX);
        return;
    }
    void *row = next_row(table);
    fill_row(table, csv_row->line, row);
    bool is_short = csv_row->count != table->column_count;
    if (csv_row->is_damaged || is_short) {
        /* Told already, or here: what the cells hold is not judged too. The
         * row stays, so that references to it are right. */
        if (is_short && !csv_row->is_damaged) {
            tell_cell_count(table, csv_row);
        }
        const Field *first = &table->table->fields[0];
        if (first->kind == FIELD_ID && table->columns[0] == first) {
            const char *id =
                trim_cell(table->reader->arena, &csv_row->cells[0]);
            *(const char **)((char *)row + first->offset) =
                arena_copy_text(table->reader->arena, id);
        }
        table->count++;
        return;
    }
    for (int32_t i = 0; i < csv_row->count; i++) {
        const Field *field = table->columns[i];
        const char *text = trim_cell(table->reader->arena, &csv_row->cells[i]);
        if (field && *text) {
            read_cell(table, csv_row, &csv_row->cells[i], text, row);
        } else if (field && field->is_needed) {
            tell_blank(table, field, csv_row->cells[i].line, i + 1);
        }
    }
    table->count++;
}

/* ---- The header -----------------------------------------------------------
 */

static void tell_unknown_column(TableReader *table, const CsvCell *cell,
                                const char *name)
{
    const char *names[FARM_FIELDS_MAX] = {0};
    for (int i = 0; i < table->table->field_count; i++) {
        names[i] = table->table->fields[i].name;
    }
    const char *near =
        text_nearest(name, names, (size_t)table->table->field_count);
    faults_add(table->reader->faults,
               (FaultPlace){table->file, cell->line, cell->column}, name,
               "a column of the table %s%s%s%s", table->table->name,
               near ? " (near: " : "", near ? near : "", near ? ")" : "");
}

static void read_header_cell(TableReader *table, FarmSheet *sheet,
                             const CsvCell *cell)
{
    const char *name = trim_cell(table->reader->arena, cell);
    int found = -1;
    for (int i = 0; i < table->table->field_count; i++) {
        found = strcmp(table->table->fields[i].name, name) == 0 ? i : found;
    }
    if (found < 0) {
        tell_unknown_column(table, cell, name);
        return;
    }
    if (sheet->columns[found]) {
        faults_add(table->reader->faults,
                   (FaultPlace){table->file, cell->line, cell->column}, name,
                   "each column once; column %d has this name too",
                   (int)sheet->columns[found]);
        return;
    }
    sheet->columns[found] = cell->column;
    table->columns[cell->column - 1] = &table->table->fields[found];
}

static void read_header(TableReader *table, const CsvRow *row)
{
    FarmSheet *sheet = &table->reader->out->sheets[table->id];
    table->column_count = row->count;
    table->columns =
        ARENA_ARRAY(table->reader->arena, const Field *, row->count);
    if (row->delimiter == ';') {
        table->reader->semicolon_count++;
        table->reader->semicolon_file = table->file;
    }
    for (int32_t i = 0; i < row->count; i++) {
        read_header_cell(table, sheet, &row->cells[i]);
    }
    for (int i = 0; i < table->table->field_count; i++) {
        const Field *field = &table->table->fields[i];
        if (field->is_needed && !sheet->columns[i]) {
            faults_add(table->reader->faults,
                       (FaultPlace){table->file, row->line, 0}, "",
                       "a column \"%s\" (%s)", field->name, field->meaning);
        }
    }
}

/* ---- Tables ---------------------------------------------------------------
 */

static void on_row(void *self, const CsvRow *row)
{
    TableReader *table = self;
    if (is_blank_row(row)) {
        return;
    }
    if (table->column_count == 0) {
        read_header(table, row);
    } else {
        read_row(table, row);
    }
}

static void on_fault(void *self, const CsvFault *fault)
{
    TableReader *table = self;
    table->reader->has_lost_rows[table->id] = true;
    faults_add(table->reader->faults,
               (FaultPlace){table->file, fault->line, fault->column},
               fault->value, "%s", fault->expected);
}

static void tell_duplicate_id(TableReader *table, const char *id, int32_t line,
                              int32_t earlier_line)
{
    faults_add(table->reader->faults,
               farm_place(table->reader->out, table->id, line, "id"), id,
               "an id of its own; line %d has it already", (int)earlier_line);
}

static void index_ids(TableReader *table)
{
    const Field *field = &table->table->fields[0];
    IdIndex *ids = &table->reader->ids[table->id];
    id_index_init(ids, table->reader->arena, table->count);
    if (field->kind != FIELD_ID) {
        return;
    }
    for (int32_t i = 0; i < table->count; i++) {
        const char *row = table->rows + (size_t)i * table->table->row_size;
        const char *id = *(const char *const *)(row + field->offset);
        int32_t earlier = *id ? id_index_put(ids, i, id) : -1;
        if (earlier >= 0) {
            const char *first =
                table->rows + (size_t)earlier * table->table->row_size;
            tell_duplicate_id(table, id, *(const int32_t *)row,
                              *(const int32_t *)first);
        }
    }
}

static void tell_row_count(TableReader *table)
{
    if (table->column_count == 0) {
        faults_add(table->reader->faults, (FaultPlace){table->file, 1, 0}, "",
                   "a header row with the names of the columns");
    } else if (table->table->is_single && table->count != 1) {
        faults_add(table->reader->faults, (FaultPlace){table->file, 0, 0}, "",
                   "exactly one row below the header, not %d",
                   (int)table->count);
    } else if (table->table->is_needed && table->count == 0) {
        faults_add(table->reader->faults, (FaultPlace){table->file, 0, 0}, "",
                   "at least one row below the header (%s)",
                   table->table->meaning);
    }
}

static void read_table(Reader *reader, TableId id, const FarmBuffer *buffer)
{
    TableReader table = {.reader = reader,
                         .id = id,
                         .table = &FARM_TABLES[id],
                         .file = farm_table_file(id)};
    assert(table.table->field_count <= FARM_FIELDS_MAX);
    reader->out->sheets[id].is_there = true;
    csv_read_bytes(buffer->bytes, buffer->length,
                   &(CsvHandler){&table, on_row, on_fault});
    tell_row_count(&table);
    index_ids(&table);
    char *farm = (char *)&reader->out->farm;
    *(void **)(farm + table.table->rows_offset) = table.rows;
    *(int32_t *)(farm + table.table->count_offset) = table.count;
    reader->out->row_count += table.count;
}

static void tell_unknown_table(Faults *faults, const char *file)
{
    const char *names[TABLE_COUNT];
    for (int i = 0; i < TABLE_COUNT; i++) {
        names[i] = farm_table_file((TableId)i);
    }
    const char *near = text_nearest(file, names, TABLE_COUNT);
    faults_add(faults, (FaultPlace){.file = file}, "",
               "a table that Leat knows%s%s%s", near ? " (near: " : "",
               near ? near : "", near ? ")" : "");
}

/* The buffer of a table, or NULL. */
static const FarmBuffer *find_buffer(const FarmBuffer *buffers, int count,
                                     const char *file)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(buffers[i].file, file) == 0) {
            return &buffers[i];
        }
    }
    return NULL;
}

static void tell_unknown_tables(const FarmBuffer *buffers, int count,
                                Faults *faults)
{
    for (int i = 0; i < count; i++) {
        bool is_known = false;
        for (int t = 0; t < TABLE_COUNT && !is_known; t++) {
            is_known =
                strcmp(buffers[i].file, farm_table_file((TableId)t)) == 0;
        }
        if (!is_known) {
            tell_unknown_table(faults, buffers[i].file);
        }
    }
}

void farm_read(const FarmBuffer *buffers, int count, Faults *faults,
               FarmRead *out)
{
    *out = (FarmRead){0};
    Reader *reader = ARENA_NEW(faults->arena, Reader);
    *reader = (Reader){.out = out,
                       .faults = faults,
                       .arena = faults->arena,
                       .near_budget = NEAR_COMPARISONS};
    tell_unknown_tables(buffers, count, faults);
    for (int i = 0; i < TABLE_COUNT; i++) {
        const char *file = farm_table_file((TableId)i);
        const FarmBuffer *buffer = find_buffer(buffers, count, file);
        if (buffer && !buffer->bytes) {
            /* Told by who could not read it. */
            out->sheets[i].is_there = true;
            reader->has_lost_rows[i] = true;
        } else if (buffer) {
            read_table(reader, (TableId)i, buffer);
        } else if (FARM_TABLES[i].is_needed) {
            faults_add(faults, (FaultPlace){.file = file}, "",
                       "this table: %s; it is missing", FARM_TABLES[i].meaning);
        }
    }
    gone_leave_out(&out->farm, faults);
    if (reader->semicolon_count > 0) {
        faults_notice(faults, (FaultPlace){.file = reader->semicolon_file}, "",
                      "semicolons between cells, and decimal commas, are read "
                      "(%d tables); Leat writes commas and points",
                      (int)reader->semicolon_count);
    }
}
