/* One table of a farm's folder, read and written as a form has it. */
#include "desk/table_edit.h"

#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "base/csv.h"
#include "base/text.h"
#include "desk/clock.h"
#include "desk/farm_folder.h"
#include "desk/folder_lock.h"
#include "farm/book.h"
#include "farm/book_fields.h"
#include "farm/check.h"
#include "farm/read.h"
#include "store/store.h"

enum {
    TABLE_MAX_BYTES = 64 * 1024 * 1024,
    FIRST_ROWS = 64,
    FAULTS_SHOWN = 200,
    CHANGES_TOLD = 200,
};

static const char NONE[] = "none";

/* ---- Reading cells as they stand ------------------------------------------
 */

typedef struct SheetReader {
    Arena *arena;
    TableSheet sheet;
    const char **cells;
    int32_t room;
    int *fields; /* by column */
    int32_t column_count;
    const char *lost; /* what would be lost by writing; NULL */
} SheetReader;

static const char *trimmed(const CsvCell *cell, Arena *arena)
{
    const char *from = cell->text + strspn(cell->text, " \t");
    size_t length = strlen(from);
    while (length > 0 && strchr(" \t", from[length - 1])) {
        length--;
    }
    return arena_copy_bytes(arena, from, length);
}

static void read_header(SheetReader *reader, const CsvRow *row)
{
    const Table *table = &FARM_TABLES[reader->sheet.table];
    reader->column_count = row->count;
    reader->fields = ARENA_ARRAY(reader->arena, int, row->count);
    for (int32_t i = 0; i < row->count; i++) {
        const char *name = trimmed(&row->cells[i], reader->arena);
        reader->fields[i] = -1;
        for (int f = 0; f < table->field_count; f++) {
            if (strcmp(table->fields[f].name, name) == 0) {
                reader->fields[i] = f;
            }
        }
        if (reader->fields[i] < 0) {
            reader->lost =
                arena_text(reader->arena,
                           "a column \"%.60s\" that Leat does not know", name);
        }
    }
}

static void on_row(void *self, const CsvRow *row)
{
    SheetReader *reader = self;
    TableSheet *sheet = &reader->sheet;
    size_t columns = (size_t)FARM_TABLES[sheet->table].field_count;
    if (!reader->fields) {
        read_header(reader, row);
        return;
    }
    if (row->count != reader->column_count || row->is_damaged) {
        reader->lost = arena_text(reader->arena,
                                  "line %d, which has not the "
                                  "header's cells",
                                  (int)row->line);
    }
    if (sheet->row_count == reader->room) {
        int32_t room = reader->room ? 2 * reader->room : FIRST_ROWS;
        reader->cells = arena_grow(
            reader->arena, reader->cells, (size_t)sheet->row_count * columns,
            (size_t)room * columns, sizeof *reader->cells);
        reader->room = room;
    }
    const char **cells = reader->cells + (size_t)sheet->row_count * columns;
    bool is_blank = true;
    for (size_t f = 0; f < columns; f++) {
        cells[f] = "";
    }
    for (int32_t i = 0; i < row->count && i < reader->column_count; i++) {
        if (reader->fields[i] >= 0) {
            const char *text = trimmed(&row->cells[i], reader->arena);
            cells[reader->fields[i]] = text;
            is_blank = is_blank && !*text;
        }
    }
    sheet->row_count += is_blank ? 0 : 1;
}

static void on_fault(void *self, const CsvFault *fault)
{
    SheetReader *reader = self;
    reader->lost = arena_text(reader->arena, "line %d, which cannot be read",
                              (int)fault->line);
}

static void close_fd(const int *fd)
{
    if (*fd >= 0) {
        close(*fd);
    }
}

static void mark_bytes(const FarmBuffer *buffer, char out[TABLE_MARK_SIZE])
{
    (void)snprintf(out, TABLE_MARK_SIZE, "%016" PRIx64,
                   book_hash_bytes(0, buffer->bytes, buffer->length));
}

Err table_read(const char *dir, TableId table, Arena *arena, TableSheet *out)
{
    SheetReader reader = {.arena = arena, .sheet = {.table = table}};
    FarmBuffer buffer = {0};
    CLEANUP(close_fd)
    int folder = open(dir, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
        folder_share(folder); /* nobody is between two tables */
    }
    Err err = farm_folder_read_file(dir, farm_table_file(table),
                                    TABLE_MAX_BYTES, arena, &buffer);
    if (err.kind == ERR_NOT_FOUND) {
        FarmRead *farm = ARENA_NEW(arena, FarmRead);
        Faults faults;
        faults_init(&faults, arena, 1);
        TRY(farm_folder_read(dir, &faults, farm)); /* is the folder there? */
        memcpy(reader.sheet.mark, NONE, sizeof NONE);
        *out = reader.sheet;
        return ERR_NONE;
    }
    TRY(err);
    CsvHandler handler = {&reader, on_row, on_fault};
    csv_read_bytes(buffer.bytes, buffer.length, &handler);
    if (reader.lost) {
        return err_make(ERR_CONFLICT,
                        "%s holds %s; mend it in the file first (leat check)",
                        farm_table_file(table), reader.lost);
    }
    mark_bytes(&buffer, reader.sheet.mark);
    reader.sheet.cells = reader.cells;
    *out = reader.sheet;
    return ERR_NONE;
}

Err table_list(const char *dir, Arena *arena, TableLine out[TABLE_COUNT])
{
    FarmRead *read = ARENA_NEW(arena, FarmRead);
    Faults faults;
    faults_init(&faults, arena, INT32_MAX);
    TRY(farm_folder_read(dir, &faults, read));
    Book *book = ARENA_NEW(arena, Book);
    TRY(book_load(arena, book));
    farm_check(read, book, &faults);
    for (int t = 0; t < TABLE_COUNT; t++) {
        out[t] = (TableLine){.table = (TableId)t,
                             .is_there = read->sheets[t].is_there,
                             .row_count =
                                 farm_row_count(&read->farm, &FARM_TABLES[t])};
        for (int32_t i = 0; i < faults.kept_count; i++) {
            out[t].fault_count += strcmp(faults.items[i].place.file,
                                         farm_table_file((TableId)t)) == 0;
        }
    }
    return ERR_NONE;
}

/* ---- The farm with another table ------------------------------------------
 */

static FarmBuffer bytes_of(const TableSheet *sheet, Arena *arena)
{
    const Table *table = &FARM_TABLES[sheet->table];
    CsvWriter writer;
    csv_writer_init(&writer, arena);
    for (int f = 0; f < table->field_count; f++) {
        csv_writer_cell(&writer, table->fields[f].name);
    }
    csv_writer_end_row(&writer);
    for (int32_t r = 0; r < sheet->row_count; r++) {
        for (int f = 0; f < table->field_count; f++) {
            csv_writer_cell(&writer, sheet->cells[r * table->field_count + f]);
        }
        csv_writer_end_row(&writer);
    }
    return (FarmBuffer){farm_table_file(sheet->table), writer.bytes,
                        writer.length};
}

/* What is wrong in a folder's tables: cells that cannot be read, counted before
 * the sense of the whole is looked at. */
typedef struct Look {
    Faults *faults; /* all of them */
    FarmRead *read;
    int64_t cells_here;
    int64_t cells_elsewhere;
} Look;

static void count_cells(const Faults *faults, const char *file, Look *look)
{
    for (int32_t i = 0; i < faults->kept_count; i++) {
        bool is_here = strcmp(faults->items[i].place.file, file) == 0;
        look->cells_here += is_here ? 1 : 0;
        look->cells_elsewhere += is_here ? 0 : 1;
    }
}

/* The folder's known tables, the one named by the cells of sheet (NULL: as it
 * is in the folder). */
static Err look_with(const char *dir, TableId table, const TableSheet *sheet,
                     Look *look)
{
    Arena *arena = look->faults->arena;
    FarmBuffer buffers[TABLE_COUNT];
    int count = 0;
    for (int t = 0; t < TABLE_COUNT; t++) {
        if (sheet && table == (TableId)t) {
            buffers[count++] = bytes_of(sheet, arena);
            continue;
        }
        Err err =
            farm_folder_read_file(dir, farm_table_file((TableId)t),
                                  TABLE_MAX_BYTES, arena, &buffers[count]);
        if (err.kind != ERR_NOT_FOUND) {
            TRY(err);
            count++;
        }
    }
    Book *book = ARENA_NEW(arena, Book);
    TRY(book_load(arena, book));
    look->read = ARENA_NEW(arena, FarmRead);
    farm_read(buffers, count, look->faults, look->read);
    count_cells(look->faults, farm_table_file(table), look);
    farm_check(look->read, book, look->faults);
    faults_sort(look->faults);
    return ERR_NONE;
}

/* Every cell that is written must be readable, and no row may go that another
 * table names. A sound farm stays sound, unless it is said that it may lack
 * something for now; one that is still being set up may. */
static Err is_worse(const char *dir, const TableSheet *wanted,
                    const Look *after, Arena *arena, bool *out)
{
    *out = false;
    if (after->faults->count == 0) {
        return ERR_NONE;
    }
    Faults faults;
    faults_init(&faults, arena, INT32_MAX);
    Look before = {.faults = &faults};
    TRY(look_with(dir, wanted->table, NULL, &before));
    *out = (faults.count == 0 && !wanted->may_lack) || after->cells_here > 0 ||
           after->cells_elsewhere > before.cells_elsewhere;
    return ERR_NONE;
}

/* ---- What changed ---------------------------------------------------------
 */

static const char *const *row_like(const TableSheet *sheet, const char *id)
{
    int columns = FARM_TABLES[sheet->table].field_count;
    for (int32_t r = 0; r < sheet->row_count; r++) {
        if (strcmp(sheet->cells[r * columns], id) == 0) {
            return sheet->cells + r * columns;
        }
    }
    return NULL;
}

static const char *row_change(const TableSheet *sheet,
                              const char *const *before,
                              const char *const *after, Arena *arena)
{
    const Table *table = &FARM_TABLES[sheet->table];
    const char *text = "";
    for (int f = 0; f < table->field_count; f++) {
        if (strcmp(before[f], after[f]) != 0) {
            text = arena_text(arena, "%s%s%s %s -> %s", text, *text ? ", " : "",
                              table->fields[f].name,
                              *before[f] ? before[f] : "blank",
                              *after[f] ? after[f] : "blank");
        }
    }
    return text;
}

/* Lines of rows that came, went or changed, by what stands in the first field.
 */
static const char *changes(const TableSheet *before, const TableSheet *after,
                           Arena *arena)
{
    int columns = FARM_TABLES[after->table].field_count;
    const char *text = "";
    int told = 0;
    for (int32_t r = 0; r < after->row_count && told < CHANGES_TOLD; r++) {
        const char *const *row = after->cells + r * columns;
        const char *const *old = row_like(before, row[0]);
        const char *change = old ? row_change(after, old, row, arena) : "added";
        if (*change) {
            text = arena_text(arena, "%s%s: %s\n", text, row[0], change);
            told++;
        }
    }
    for (int32_t r = 0; r < before->row_count && told < CHANGES_TOLD; r++) {
        const char *id = before->cells[r * columns];
        if (!row_like(after, id)) {
            text = arena_text(arena, "%s%s: taken out\n", text, id);
            told++;
        }
    }
    return told < CHANGES_TOLD ? text : arena_text(arena, "%s..\n", text);
}

/* ---- Writing --------------------------------------------------------------
 */

/* The entry's text holds so many bytes (journal/told.h); what is cut is cut
 * between letters. */
static const char *entry_text(const char *file, const char *told, Arena *arena)
{
    enum { TEXT_MOST = 7900 };
    const char *text = arena_text(arena, "%s\n%s", file, told);
    size_t length = strlen(text);
    size_t kept = length < TEXT_MOST ? length : TEXT_MOST;
    kept = text_utf8_valid(text, kept);
    return arena_copy_bytes(arena, text, kept);
}

static Err tell_journal(const TableWrite *ask, const Farm *farm,
                        const char *changed, Arena *arena)
{
    const char *zone = farm->farm_count > 0 ? farm->farm[0].timezone : "";
    int32_t today = ask->today != DATE_ALWAYS
                        ? ask->today
                        : clock_today(zone && *zone ? zone : "UTC");
    Told told = told_blank(TOLD_TABLE, today);
    told.told_at = (int64_t)time(NULL);
    told.told_on = today;
    told.who = ask->who;
    told.device = ask->device;
    told.product = FARM_TABLES[ask->wanted->table].name;
    told.text = entry_text(farm_table_file(ask->wanted->table), changed, arena);
    CLEANUP(store_close) StoreDb store = {0};
    StoreAdded added;
    TRY(store_open(ask->dir, STORE_CREATE, &store));
    return store_add(&store, &told, 1, &added);
}

static Err write_table(const TableWrite *ask, const Farm *farm, Arena *arena,
                       TableOutcome *outcome)
{
    const TableSheet *wanted = ask->wanted;
    const TableSheet before = outcome->sheet;
    TRY(farm_folder_write_tables(ask->dir, farm, &wanted->table, 1, arena));
    TRY(table_read(ask->dir, wanted->table, arena, &outcome->sheet));
    outcome->told = changes(&before, &outcome->sheet, arena);
    Err err = *outcome->told ? tell_journal(ask, farm, outcome->told, arena)
                             : ERR_NONE;
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(
                     err.kind,
                     "%s was written, but the journal was not told: %.150s",
                     farm_table_file(wanted->table), err.text);
}

Err table_write(const TableWrite *ask, Arena *arena, TableOutcome *out)
{
    const char *dir = ask->dir;
    const TableSheet *wanted = ask->wanted;
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    TRY(folder_lock_open(dir, &lock));
    TableOutcome outcome = {.fate = TABLE_CONFLICT, .told = ""};
    TRY(table_read(dir, wanted->table, arena, &outcome.sheet));
    faults_init(&outcome.faults, arena, INT32_MAX);
    if (strcmp(outcome.sheet.mark, wanted->mark) != 0) {
        *out = outcome;
        return ERR_NONE;
    }
    Look look = {.faults = &outcome.faults};
    bool is_bad = false;
    TRY(look_with(dir, wanted->table, wanted, &look));
    TRY(is_worse(dir, wanted, &look, arena, &is_bad));
    outcome.faults.kept_count = outcome.faults.kept_count < FAULTS_SHOWN
                                    ? outcome.faults.kept_count
                                    : FAULTS_SHOWN;
    outcome.fate = is_bad ? TABLE_REFUSED : TABLE_WRITTEN;
    if (!is_bad) {
        TRY(write_table(ask, &look.read->farm, arena, &outcome));
    }
    *out = outcome;
    return ERR_NONE;
}
