/* The water of a day as JSON. */
#ifndef LEAT_JSON_WATER_H
#define LEAT_JSON_WATER_H

#include "work/water_day.h"

typedef struct WaterJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const WaterDay *water;
    int32_t only; /* row of farm->tanks; -1 all */
    int32_t day;
    const char *title;
    const char *when;
    const char *const *notices;
    int notice_count;
} WaterJson;

/* {"day", "title", "when", "notices", "places": [{"id", "is_tank", "loop",
 * "readings": [{"quantity", "value", "age_h", "foreseen", "low", "high",
 * "mark": "in range"|"low"|"high"|"old"|"not read", "points": [{"day",
 * "minute", "value"}]}], "feed": as usual, half or none in a word,
 * "findings": [{"rule", "class", "means", "act", "again", "next"}], "needs":
 * [text], "wants_base", "change_today_frac", "fish": [{"batch", "least_g",
 * "most_g", "ammonia_caution_mg_l", "ammonia_half_mg_l",
 * "ammonia_deadly_mg_l", "full_feed_mg_l", "eats_low_frac",
 * "eats_high_frac"}]}]}. What is not known is null. */
const char *water_to_json(const WaterJson *page, Arena *arena);

#endif
