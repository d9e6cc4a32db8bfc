/* Lots of produce as JSON. */
#ifndef LEAT_JSON_LOTS_H
#define LEAT_JSON_LOTS_H

#include "work/lots.h"

typedef struct LotsJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const Lots *lots;
    const Lot *shown;
    int32_t shown_count;
    int32_t day;
    const char *title;
    const char *const *notices;
    int notice_count;
} LotsJson;

/* {"day", "title", "notices", "left": [{"way", "name", "unit", "units",
 * "past"}], "lots": [{"lot", "way", "name", "unit", "place", "batch", "who",
 * "picked_on", "keeps_until", "picked", "left", "is_past", "sown_on",
 * "seed_lot", "seed_from", "hold", "to": [{"buyer", "product", "on", "units",
 * "is_assumed"}]}], "lacks": [{"way", "name", "unit", "buyer", "on",
 * "units"}]}. What is not known is null or "". */
const char *lots_to_json(const LotsJson *page, Arena *arena);

#endif
