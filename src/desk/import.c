/* Changed tables taken into a farm's folder, their differences told. */
#include <string.h>

#include "desk/export.h"
#include "desk/farm_folder.h"
#include "desk/farm_today.h"
#include "desk/folder_lock.h"
#include "farm/cell.h"
#include "farm/check.h"

enum {
    BYTES_MAX = 128 * 1024 * 1024,
    CHANGES_MAX_BYTES = 7000, /* of an entry's text */
};

/* ---- Which tables ---------------------------------------------------------
 */

/* "plants.csv" at the end of a path. */
static const char *file_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static const char *folder_of(const char *path, Arena *arena)
{
    const char *slash = strrchr(path, '/');
    return !slash ? "."
           : slash == path
               ? "/"
               : arena_copy_bytes(arena, path, (size_t)(slash - path));
}

/* The new table where from has it, else the farm's own; is_new says which. */
static Err read_one(const char *dir, const char *from, TableId table,
                    Arena *arena, FarmBuffer *out, bool *out_is_new)
{
    const char *file = farm_table_file(table);
    bool is_file = strcmp(file_of(from), file) == 0;
    Err err = farm_folder_read_file(is_file ? folder_of(from, arena) : from,
                                    file, BYTES_MAX, arena, out);
    *out_is_new = err.kind == ERR_OK;
    bool is_other = err.kind == ERR_NOT_FOUND || err.kind == ERR_INPUT;
    return is_other ? farm_folder_read_file(dir, file, BYTES_MAX, arena, out)
                    : err;
}

typedef struct Mixed {
    FarmBuffer buffers[TABLE_COUNT];
    int count;
    bool is_new[TABLE_COUNT]; /* by table */
    int new_count;
} Mixed;

static Err mix(const char *dir, const char *from, Arena *arena, Mixed *mixed)
{
    size_t length = strlen(from);
    bool is_csv = length > 4 && strcmp(from + length - 4, ".csv") == 0;
    for (int t = 0; t < TABLE_COUNT; t++) {
        bool is_new = false;
        bool is_asked =
            !is_csv || strcmp(file_of(from), farm_table_file((TableId)t)) == 0;
        Err err = read_one(dir, is_asked ? from : dir, (TableId)t, arena,
                           &mixed->buffers[mixed->count], &is_new);
        if (err.kind == ERR_NOT_FOUND) {
            continue;
        }
        TRY(err);
        mixed->count++;
        mixed->is_new[t] = is_asked && is_new;
        mixed->new_count += mixed->is_new[t];
    }
    return mixed->new_count > 0
               ? ERR_NONE
               : err_make(ERR_NOT_FOUND, "%.160s holds no table of a farm",
                          from);
}

/* ---- What differs ---------------------------------------------------------
 */

typedef struct Diff {
    Arena *arena;
    const Table *table;
    const Farm *before;
    const Farm *after;
    const char *text;
} Diff;

static const char *cell(const Diff *diff, const Farm *farm, int field,
                        int32_t row)
{
    const char *rows = farm_rows(farm, diff->table);
    return cell_format(&diff->table->fields[field],
                       rows + (size_t)row * diff->table->row_size, farm,
                       diff->arena);
}

static int32_t find_row(const Diff *diff, const Farm *farm, const char *first)
{
    int32_t count = farm_row_count(farm, diff->table);
    for (int32_t i = 0; i < count; i++) {
        if (strcmp(cell(diff, farm, 0, i), first) == 0) {
            return i;
        }
    }
    return -1;
}

static void tell_of(Diff *diff, const char *row, const char *what)
{
    if (strlen(diff->text) < CHANGES_MAX_BYTES) {
        diff->text =
            arena_text(diff->arena, "%s%.80s: %.400s\n", diff->text, row, what);
    }
}

static void compare_row(Diff *diff, const char *id, int32_t before,
                        int32_t after)
{
    const char *what = "";
    for (int f = 1; f < diff->table->field_count; f++) {
        const char *old = cell(diff, diff->before, f, before);
        const char *new_one = cell(diff, diff->after, f, after);
        if (strcmp(old, new_one) != 0) {
            what =
                arena_text(diff->arena, "%s%s%s %s -> %s", what,
                           *what ? ", " : "", diff->table->fields[f].name,
                           *old ? old : "blank", *new_one ? new_one : "blank");
        }
    }
    if (*what) {
        tell_of(diff, id, what);
    }
}

/* Rows with an id are known by it; those of other tables by their number. */
static void compare(Diff *diff)
{
    bool has_id = diff->table->fields[0].kind == FIELD_ID;
    int32_t was = farm_row_count(diff->before, diff->table);
    int32_t is = farm_row_count(diff->after, diff->table);
    for (int32_t i = 0; i < is; i++) {
        const char *id = cell(diff, diff->after, 0, i);
        int32_t old =
            has_id ? find_row(diff, diff->before, id) : (i < was ? i : -1);
        if (old < 0) {
            tell_of(diff, id, "added");
        } else {
            compare_row(diff, id, old, i);
        }
    }
    for (int32_t i = 0; i < was; i++) {
        const char *id = cell(diff, diff->before, 0, i);
        bool is_there = has_id ? find_row(diff, diff->after, id) >= 0 : i < is;
        if (!is_there) {
            tell_of(diff, id, "taken out");
        }
    }
}

/* ---- Taking them in -------------------------------------------------------
 */

static Err check_mixed(const Mixed *mixed, const Book *book, Arena *arena,
                       FarmRead *out)
{
    Faults faults;
    faults_init(&faults, arena, FAULTS_USUAL_LIMIT);
    farm_read(mixed->buffers, mixed->count, &faults, out);
    farm_check(out, book, &faults);
    faults_sort(&faults);
    if (faults.count == 0) {
        return ERR_NONE;
    }
    const Fault *first = &faults.items[0];
    return err_make(ERR_INPUT,
                    "%lld %s with these tables; one is %.60s line %d: "
                    "expected %.120s; nothing was written",
                    (long long)faults.count,
                    faults.count == 1 ? "fault" : "faults", first->place.file,
                    (int)first->place.line, first->expected);
}

static Err tell(const char *dir, ImportAnswer *answer)
{
    TableChange changes[TABLE_COUNT];
    int64_t numbers[TABLE_COUNT];
    for (int i = 0; i < answer->count; i++) {
        changes[i] = (TableChange){answer->tables[i].table,
                                   answer->tables[i].changes, "", answer->day};
    }
    TRY(export_tell_changes(dir, changes, answer->count, numbers));
    for (int i = 0; i < answer->count; i++) {
        answer->tables[i].number = numbers[i];
    }
    return ERR_NONE;
}

Err import_tables(const char *dir, const char *from, int32_t today,
                  Arena *arena, ImportAnswer *out)
{
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    TRY(folder_lock_open(dir, &lock));
    Faults faults;
    faults_init(&faults, arena, FAULTS_USUAL_LIMIT);
    FarmRead *before = ARENA_NEW(arena, FarmRead);
    FarmRead *after = ARENA_NEW(arena, FarmRead);
    Book *book = ARENA_NEW(arena, Book);
    TRY(book_load(arena, book));
    TRY(farm_folder_read(dir, &faults, before));
    Mixed *mixed = ARENA_NEW(arena, Mixed);
    TRY(mix(dir, from, arena, mixed));
    TRY(check_mixed(mixed, book, arena, after));
    ImportAnswer answer = {.day = farm_today_day(&after->farm, today)};
    TableId tables[TABLE_COUNT];
    for (int t = 0; t < TABLE_COUNT; t++) {
        Diff diff = {arena, &FARM_TABLES[t], &before->farm, &after->farm, ""};
        if (!mixed->is_new[t]) {
            continue;
        }
        compare(&diff);
        if (*diff.text) {
            tables[answer.count] = (TableId)t;
            answer.tables[answer.count++] =
                (ImportTable){(TableId)t, diff.text, 0};
        }
    }
    if (answer.count > 0) {
        TRY(farm_folder_write_tables(dir, &after->farm, tables, answer.count,
                                     arena));
        TRY(tell(dir, &answer));
    }
    *out = answer;
    return ERR_NONE;
}
