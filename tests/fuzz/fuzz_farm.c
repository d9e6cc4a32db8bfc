/* Any bytes as the tables of a farm: sections that begin with a line "=name".
 * Read and checked; what has no fault is written and read again the same. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "farm/check.h"
#include "farm/write.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { SECTIONS_MAX = 48, FAULTS_KEPT = 20 };

static int cut_sections(const char *text, size_t size, Arena *arena,
                        FarmBuffer *out)
{
    int count = 0;
    const char *end = text + size;
    while (text < end && count < SECTIONS_MAX) {
        const char *line = memchr(text, '\n', (size_t)(end - text));
        size_t name = (size_t)((line ? line : end) - text);
        if (*text == '=') {
            text++;
            name--;
        }
        const char *body = line ? line + 1 : end;
        const char *next = body;
        while (next < end && !(*next == '=' && next[-1] == '\n')) {
            next++;
        }
        out[count++] =
            (FarmBuffer){.file = arena_text(arena, "%.*s.csv", (int)name, text),
                         .bytes = body,
                         .length = (size_t)(next - body)};
        text = next;
    }
    return count;
}

/* Read once: a run must not pay for it. */
static const Book *the_book(void)
{
    static Arena arena;
    static Book book;
    if (arena.used_bytes == 0) {
        Err err = book_load(&arena, &book);
        assert(err.kind == ERR_OK);
    }
    return &book;
}

static void writes_back_the_same(const Farm *farm, TableId table, Arena *arena)
{
    FarmBytes first = farm_write_table(farm, table, arena);
    FarmBuffer buffer = {farm_table_file(table), first.bytes, first.length};
    Faults faults;
    faults_init(&faults, arena, FAULTS_KEPT);
    FarmRead *again = ARENA_NEW(arena, FarmRead);
    farm_read(&buffer, 1, &faults, again);
    assert(farm_row_count(&again->farm, &FARM_TABLES[table]) ==
           farm_row_count(farm, &FARM_TABLES[table]));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    FarmBuffer buffers[SECTIONS_MAX];
    char *text = arena_copy_bytes(&arena, (const char *)data, size);
    int count = cut_sections(text, size, &arena, buffers);
    Faults faults;
    faults_init(&faults, &arena, FAULTS_KEPT);
    FarmRead *read = ARENA_NEW(&arena, FarmRead);
    farm_read(buffers, count, &faults, read);
    int64_t unread = faults.count;
    farm_check(read, the_book(), &faults);
    faults_sort(&faults);
    assert(faults.kept_count <= FAULTS_KEPT);
    assert(faults.kept_count <= faults.count);
    for (int table = 0; table < TABLE_COUNT && unread == 0; table++) {
        writes_back_the_same(&read->farm, (TableId)table, &arena);
    }
    return 0;
}
