/* Entries of the journal as JSON: the keys are the fields of journal/told.h,
 * what is not told is left out.
 *
 *     {"kind":"picked","happened_on":"2027-03-02","batch":"..","grams":2380}
 *
 * Days are "2027-03-02", happened_at minutes of the day, edge true. Entries
 * given back also carry, where it is so, "struck_by", "struck_why",
 * "struck_who" and "is_late" (told on a later day than it happened). */
#ifndef LEAT_JSON_TOLD_H
#define LEAT_JSON_TOLD_H

#include "journal/told.h"

enum { TOLD_JSON_MAX_BYTES = 4 * 1024 * 1024, TOLD_JSON_MAX_ENTRIES = 5000 };

struct json_t;

/* One entry; the caller owns it. */
struct json_t *told_json(const Told *told);

/* {"entries": [..]} with a closing newline. */
const char *tolds_to_json(const Tolds *tolds, Arena *arena);

/* {"entries": [..]}, a list, or one entry. ERR_INPUT names the entry and the
 * key; what tells of keys, kinds, types and sizes is checked
 * (told_check_alone), the farm is not. Where an entry has no day it is given
 * day; with DATE_ALWAYS it stays without one, unchecked. Keys that only Leat
 * writes (number, told_at, told_on, struck_.., is_late) are passed over: so
 * that what was exported can be read again. ERR_LIMIT: too many. */
NODISCARD Err tolds_from_json(const char *text, size_t length, int32_t day,
                              Arena *arena, Tolds *out);

#endif
