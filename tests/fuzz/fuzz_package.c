/* Any bytes as a datapackage.json: its format or an error, nothing else. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>

#include "json/datapackage.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    int format = -1;
    Err err = datapackage_read_format((const char *)data, size, &format);
    assert(err.kind == ERR_OK || err.kind == ERR_INPUT ||
           err.kind == ERR_RANGE || err.kind == ERR_LIMIT);
    assert(err.kind == ERR_OK || format == -1);
    return 0;
}
