/* Any bytes in the place of the book's trays: read, or one fault told. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "farm/book.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { FILES_MAX = 32 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    EmbeddedFile files[FILES_MAX];
    assert(BOOK_FILES_COUNT <= FILES_MAX);
    for (size_t i = 0; i < BOOK_FILES_COUNT; i++) {
        files[i] = BOOK_FILES[i];
        if (strcmp(files[i].name, "trays.csv") == 0) {
            files[i].bytes = arena_copy_bytes(&arena, (const char *)data, size);
            files[i].length = size;
        }
    }
    Book book;
    Err err = book_parse(&arena, files, BOOK_FILES_COUNT, &book);
    assert(err.kind == ERR_OK || err.kind == ERR_INPUT);
    return 0;
}
