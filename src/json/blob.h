/* A photo or voice note that was kept, as JSON. */
#ifndef LEAT_JSON_BLOB_H
#define LEAT_JSON_BLOB_H

#include "base/arena.h"

/* {"sha256","type"} */
const char *json_blob(const char *sha256, const char *type, Arena *arena);

#endif
