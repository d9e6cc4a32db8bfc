/* Any bytes as entries of the journal: read, or one error. What is read passes
 * the check, and is written and read again the same. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "json/told.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { DAY = 20880 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    Tolds tolds;
    Err err = tolds_from_json((const char *)data, size, DAY, &arena, &tolds);
    if (err.kind != ERR_OK) {
        assert(*err.text);
        return 0;
    }
    for (int32_t i = 0; i < tolds.count; i++) {
        err = told_check_alone(&tolds.items[i]);
        assert(err.kind == ERR_OK);
    }
    const char *once = tolds_to_json(&tolds, &arena);
    Tolds again;
    err = tolds_from_json(once, strlen(once), DAY, &arena, &again);
    assert(err.kind == ERR_OK && again.count == tolds.count);
    assert(strcmp(tolds_to_json(&again, &arena), once) == 0);
    return 0;
}
