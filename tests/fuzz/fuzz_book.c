/* Any bytes in the place of one of the book's tables, which the first of them
 * chooses: read, or one fault told. */
#include <assert.h>
#include <stdbool.h>
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
    size_t chosen = size > 0 ? data[0] % BOOK_FILES_COUNT : 0;
    bool is_by_digit = size > 0 && data[0] < ' ';
    if (is_by_digit) {
        data++;
        size--;
    }
    for (size_t i = 0; i < BOOK_FILES_COUNT; i++) {
        files[i] = BOOK_FILES[i];
        bool is_it =
            is_by_digit ? i == chosen : strcmp(files[i].name, "trays.csv") == 0;
        if (is_it) {
            files[i].bytes = arena_copy_bytes(&arena, (const char *)data, size);
            files[i].length = size;
        }
    }
    Book book;
    Err err = book_parse(&arena, files, BOOK_FILES_COUNT, &book);
    assert(err.kind == ERR_OK || err.kind == ERR_INPUT);
    return 0;
}
