/* The datapackage.json of a farm's folder: which tables there are and what
 * their columns mean, as an open Tabular Data Package, with the version of the
 * tables as "leat_format".
 *
 * Source: [TABULAR] Frictionless Data, Tabular Data Package and Table Schema,
 * version 1 (specs.frictionlessdata.io), from memory. */
#ifndef LEAT_JSON_DATAPACKAGE_H
#define LEAT_JSON_DATAPACKAGE_H

#include "farm/write.h"

enum { DATAPACKAGE_FORMAT = 1 };

/* name: the package's, in small letters, digits, - _ and . */
FarmBytes datapackage_write(const char *name, const bool has_table[TABLE_COUNT],
                            Arena *arena);

/* The "leat_format" of a package. ERR_INPUT where the bytes are no JSON object
 * or hold no such whole number. */
NODISCARD Err datapackage_read_format(const char *bytes, size_t length,
                                      int *out);

#endif
