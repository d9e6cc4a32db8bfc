/* The demo farm broken at random and cell by cell: nothing crashes, nothing
 * broken passes silently, and what passes reads back the same. */
#include "check.h"

#include <stdio.h>

#include "base/embed.h"
#include "base/rng.h"
#include "farm/check.h"
#include "farm/write.h"
#include "tables.h"

enum { FILES_MAX = 64, ROUNDS = 1200, LIMIT = 50, CHANGES_MAX = 4 };

extern const EmbeddedFile DEMO_FILES[];
extern const size_t DEMO_FILES_COUNT;

static Book *load_book(Arena *arena)
{
    Book *book = ARENA_NEW(arena, Book);
    assert_ok(book_load(arena, book));
    return book;
}

/* The demo's tables; out has room for all. */
static int demo_buffers(FarmBuffer *out)
{
    assert_true(DEMO_FILES_COUNT <= FILES_MAX);
    for (size_t i = 0; i < DEMO_FILES_COUNT; i++) {
        out[i] = (FarmBuffer){DEMO_FILES[i].name, DEMO_FILES[i].bytes,
                              DEMO_FILES[i].length};
    }
    return (int)DEMO_FILES_COUNT;
}

/* ---- At random ------------------------------------------------------------
 */

static const char *const PIECES[] = {
    "\"",           "\"\"",         ",",          ";",    "\n",    "\r\n",
    "\r",           "nan",          "inf",        "-1",   "1e308", "1e-308",
    "0x10",         "999999999999", "\xff",       "\xc3", "",      " ",
    "\xef\xbb\xbf", "all",          "13-1",       "A",    "=1+1",  "1,5",
    "0001-01-01",   "2199-12-31",   "9999-99-99", "yes",
};

typedef struct Edit {
    size_t at;
    size_t cut;
    const char *piece;
    size_t piece_length;
} Edit;

static Edit any_edit(Rng *rng, const FarmBuffer *table)
{
    size_t length = table->length;
    Edit edit = {.at = rng_below(rng, (uint32_t)length + 1)};
    uint32_t most_cut = rng_below(rng, 20) == 0 ? 400 : 4;
    edit.cut = rng_below(rng, most_cut);
    edit.cut = edit.cut > length - edit.at ? length - edit.at : edit.cut;
    uint32_t count = sizeof PIECES / sizeof *PIECES;
    uint32_t choice = rng_below(rng, count + 3);
    if (choice < count) {
        edit.piece = PIECES[choice];
        edit.piece_length = strlen(edit.piece);
    } else if (choice == count) {
        edit.piece = "\0";
        edit.piece_length = 1;
    } else {
        /* Some of the table itself, from elsewhere: rows twice, odd cells. */
        size_t from = rng_below(rng, (uint32_t)length);
        edit.piece = table->bytes + from;
        edit.piece_length = rng_below(rng, 200);
        if (edit.piece_length > length - from) {
            edit.piece_length = length - from;
        }
    }
    return edit;
}

static void change_buffer(Rng *rng, FarmBuffer *table, Arena *arena)
{
    Edit edit = any_edit(rng, table);
    size_t length = table->length - edit.cut + edit.piece_length;
    char *bytes = arena_alloc(arena, length + 1, 1);
    memcpy(bytes, table->bytes, edit.at);
    if (edit.piece_length) {
        memcpy(bytes + edit.at, edit.piece, edit.piece_length);
    }
    memcpy(bytes + edit.at + edit.piece_length,
           table->bytes + edit.at + edit.cut,
           table->length - edit.at - edit.cut);
    *table = (FarmBuffer){table->file, bytes, length};
}

static int32_t line_count(const FarmBuffer *buffers, int count,
                          const char *file)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(buffers[i].file, file) != 0) {
            continue;
        }
        int32_t lines = 1;
        for (size_t at = 0; at < buffers[i].length; at++) {
            lines += buffers[i].bytes[at] == '\n';
        }
        return lines;
    }
    return 0;
}

static void faults_stand_in_their_files(const Faults *faults,
                                        const FarmBuffer *buffers, int count)
{
    assert_int_equal(faults->kept_count,
                     faults->count < LIMIT ? faults->count : LIMIT);
    for (int32_t i = 0; i < faults->kept_count; i++) {
        const Fault *fault = &faults->items[i];
        assert_true(*fault->expected != '\0');
        assert_true(fault->place.line >= 0);
        assert_true(fault->place.line <=
                    line_count(buffers, count, fault->place.file));
    }
}

static void a_sound_farm_reads_back_the_same(const FarmRead *read,
                                             const Book *book, Arena *arena)
{
    FarmBuffer buffers[TABLE_COUNT];
    int count = 0;
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (read->sheets[i].is_there) {
            FarmBytes bytes = farm_write_table(&read->farm, (TableId)i, arena);
            buffers[count++] = (FarmBuffer){farm_table_file((TableId)i),
                                            bytes.bytes, bytes.length};
        }
    }
    Faults faults;
    faults_init(&faults, arena, LIMIT);
    FarmRead *again = ARENA_NEW(arena, FarmRead);
    farm_read(buffers, count, &faults, again);
    farm_check(again, book, &faults);
    assert_string_equal(faults_text(&faults), "");
    for (int i = 0, b = 0; i < TABLE_COUNT; i++) {
        if (again->sheets[i].is_there) {
            FarmBytes bytes = farm_write_table(&again->farm, (TableId)i, arena);
            assert_int_equal(bytes.length, buffers[b].length);
            assert_memory_equal(bytes.bytes, buffers[b].bytes, bytes.length);
            b++;
        }
    }
}

static void random_changes_do_no_harm(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena book_arena = {0};
    const Book *book = load_book(&book_arena);
    Rng rng = rng_make(20270301, 7);
    int sound_count = 0;
    for (int round = 0; round < ROUNDS; round++) {
        CLEANUP(arena_release) Arena arena = {0};
        FarmBuffer buffers[FILES_MAX];
        int count = demo_buffers(buffers);
        uint32_t changes = rng_below(&rng, CHANGES_MAX) + 1;
        for (uint32_t i = 0; i < changes; i++) {
            uint32_t table = rng_below(&rng, (uint32_t)count);
            change_buffer(&rng, &buffers[table], &arena);
        }
        Faults faults;
        faults_init(&faults, &arena, LIMIT);
        FarmRead *read = ARENA_NEW(&arena, FarmRead);
        farm_read(buffers, count, &faults, read);
        farm_check(read, book, &faults);
        faults_sort(&faults);
        faults_stand_in_their_files(&faults, buffers, count);
        if (faults.count == 0) {
            sound_count++;
            a_sound_farm_reads_back_the_same(read, book, &arena);
        }
    }
    /* Some changes are harmless (a name, a blank), most are not. */
    assert_true(sound_count > 0);
    assert_true(sound_count < ROUNDS / 2);
}

/* ---- Cell by cell ---------------------------------------------------------
 */

/* A demo farm of the first row of each table with one cell replaced. */
static const char *row_with(const Farm *farm, TableId id, int broken,
                            const char *text, Arena *arena)
{
    const Table *table = &FARM_TABLES[id];
    FarmBytes whole = farm_write_table(farm, id, arena);
    const char *header_end = strchr(whole.bytes, '\n');
    const char *row_end = strchr(header_end + 1, '\n');
    const char *cell = header_end + 1;
    for (int i = 0; i < broken; i++) {
        bool is_quoted = false;
        for (; *cell != ',' || is_quoted; cell++) {
            is_quoted ^= *cell == '"';
        }
        cell++;
    }
    const char *after = cell;
    for (bool is_quoted = false; is_quoted || (*after != ',' && *after != '\n');
         after++) {
        is_quoted ^= *after == '"';
    }
    assert_true(after <= row_end && broken < table->field_count);
    return arena_text(arena, "%.*s%s%s", (int)(cell - whole.bytes), whole.bytes,
                      text, after);
}

static int64_t faults_with(const FarmRead *demo, const Book *book, TableId id,
                           int field, const char *text)
{
    CLEANUP(arena_release) Arena arena = {0};
    FarmBuffer buffers[TABLE_COUNT];
    int count = 0;
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (!demo->sheets[i].is_there) {
            continue;
        }
        FarmBytes bytes = farm_write_table(&demo->farm, (TableId)i, &arena);
        buffers[count] = (FarmBuffer){farm_table_file((TableId)i), bytes.bytes,
                                      bytes.length};
        if (i == (int)id) {
            const char *broken = row_with(&demo->farm, id, field, text, &arena);
            buffers[count].bytes = broken;
            buffers[count].length = strlen(broken);
        }
        count++;
    }
    Faults faults;
    faults_init(&faults, &arena, LIMIT);
    FarmRead *read = ARENA_NEW(&arena, FarmRead);
    farm_read(buffers, count, &faults, read);
    farm_check(read, book, &faults);
    return faults.count;
}

static void no_broken_cell_passes_silently(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const Book *book = load_book(&arena);
    FarmBuffer buffers[FILES_MAX];
    Faults faults;
    faults_init(&faults, &arena, LIMIT);
    FarmRead *demo = ARENA_NEW(&arena, FarmRead);
    farm_read(buffers, demo_buffers(buffers), &faults, demo);
    farm_check(demo, book, &faults);
    assert_string_equal(faults_text(&faults), "");
    int silent = 0;
    for (int t = 0; t < TABLE_COUNT; t++) {
        const Table *table = &FARM_TABLES[t];
        for (int i = 0; demo->sheets[t].is_there && i < table->field_count;
             i++) {
            const Field *field = &table->fields[i];
            if (field->kind == FIELD_TEXT) {
                continue; /* any text is text */
            }
            /* One mistake is one fault; but others refer to an id, and a row
             * may make no sense without the right word. */
            int64_t count = faults_with(demo, book, (TableId)t, i, "x@ y:9");
            bool may_be_more = field->kind == FIELD_ID ||
                               field->kind == FIELD_WORD ||
                               field->kind == FIELD_WORDS;
            bool is_told = may_be_more ? count >= 1 : count == 1;
            if (!is_told) {
                print_error("%s.%s: %d faults\n", table->name, field->name,
                            (int)count);
            }
            silent += !is_told;
            if (field->is_needed) {
                assert_true(faults_with(demo, book, (TableId)t, i, "") >= 1);
            }
        }
    }
    assert_int_equal(silent, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_changes_do_no_harm),
        cmocka_unit_test(no_broken_cell_passes_silently),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
