/* The beds of a day as JSON. */
#ifndef LEAT_JSON_BEDS_H
#define LEAT_JSON_BEDS_H

#include "work/beds.h"

typedef struct BedsJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const Beds *beds;
    int32_t only; /* place in beds->beds; -1 all of them */
    const char *title;
    const char *const *notices;
    int notice_count;
} BedsJson;

/* {"day", "title", "notices", "stops": [{"id", "name", "walk", "beds": [bed]}],
 * "trays": [batch with "for_bed"]}; with one bed alone "stops" holds its stop
 * with that bed. A bed: {"id", "plate", "walk", "side", "zone", "pump",
 * "sections", "edge_m", "edge", "state": "free"|"part free"|"full"|
 * "cleaning", "free_sections", "now": [batch], "next": [batch], "past":
 * [batch], "job": {"id", "day", "kind", "what"}, "cleaned_on", "clean_due",
 * "hold": {"why", "until"}, "history": [entry]}. A batch: {"batch", "way",
 * "name", "place": "floor"|"edge", "first_section", "sections", "plants",
 * "stage", "sow_on", "set_on", "age_d", "pick_early", "pick_on", "pick_late",
 * "last_pick_on", "clear_on", "trouble"}. What is not known is null. history is
 * told of one bed alone. */
const char *beds_to_json(const BedsJson *page, Arena *arena);

#endif
