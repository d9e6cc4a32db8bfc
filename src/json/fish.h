/* The fish of a day as JSON. */
#ifndef LEAT_JSON_FISH_H
#define LEAT_JSON_FISH_H

#include "work/fish_day.h"

typedef struct FishJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const Foresight *foresight;
    const FishPage *page;
    int32_t only; /* row of farm->tanks; -1 all */
    const char *title;
    const char *const *notices;
    int notice_count;
} FishJson;

/* {"day", "title", "notices", "sale_g", "feed_g", "tanks": [{"id", "loop",
 * "use", "volume_m3", "count", "kg", "density_kg_m3", "ceiling_kg_m3",
 * "crowded_on", "temp_degc", "temp_from": "told"|"plan", "feed_g",
 * "grade_hold", "conversion": {"value", "from", "until", "feed_kg", "gain_kg",
 * "fed_days", "lacking"}, "batches": [{"batch", part, "gradings": [grading]}],
 * "moves": [{"week", "kind", "batch", "count", "mean_g", "from", "to",
 * "product"}]}], "batches": [{"batch", "species", "standing", part,
 * "over_count", "ready_early", "ready_on", "ready_late", "planned_sold"}],
 * "asked": grading with "batch", or null}. part: "count", "mean_g", "cv_frac",
 * "kg". grading: {"over_g", "before": part, "moved": part, "left": part, "to",
 * "from_density_kg_m3", "to_density_kg_m3", "doubt"}. What is not known is
 * null. */
const char *fish_to_json(const FishJson *page, Arena *arena);

#endif
