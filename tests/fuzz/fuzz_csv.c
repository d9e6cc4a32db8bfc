/* Any bytes as a table: read once; what is read whole is written and read
 * again to the same cells. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/csv.h"
#include "base/text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct Pass {
    CsvWriter writer;
    long faults;
    bool is_damaged;
} Pass;

static void on_row(void *self, const CsvRow *row)
{
    Pass *pass = self;
    assert(row->count >= 1 && row->count <= CSV_ROW_MAX_CELLS);
    pass->is_damaged |= row->is_damaged;
    for (int32_t i = 0; i < row->count; i++) {
        const CsvCell *cell = &row->cells[i];
        assert(strlen(cell->text) == cell->length);
        assert(text_utf8_valid(cell->text, cell->length) == cell->length);
        csv_writer_cell(&pass->writer, cell->text);
    }
    csv_writer_end_row(&pass->writer);
}

static void on_fault(void *self, const CsvFault *fault)
{
    Pass *pass = self;
    assert(fault->line >= 1 && fault->expected && fault->value);
    pass->faults++;
}

static void read_into(const char *bytes, size_t length, Arena *arena,
                      Pass *pass)
{
    csv_writer_init(&pass->writer, arena);
    csv_read_bytes(bytes, length, &(CsvHandler){pass, on_row, on_fault});
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    Pass first = {0};
    read_into((const char *)data, size, &arena, &first);
    if (first.faults > 0) {
        return 0;
    }
    assert(!first.is_damaged);
    Pass second = {0};
    read_into(first.writer.bytes, first.writer.length, &arena, &second);
    assert(second.faults == 0);
    assert(second.writer.length == first.writer.length);
    assert(first.writer.length == 0 ||
           memcmp(first.writer.bytes, second.writer.bytes,
                  first.writer.length) == 0);
    return 0;
}
