/* Warmth as a choice, as JSON. */
#ifndef LEAT_JSON_HEAT_H
#define LEAT_JSON_HEAT_H

#include "base/arena.h"
#include "work/heat.h"

typedef struct HeatPage {
    const Farm *farm; /* Borrowed, as all of these. */
    int32_t first_week;
    int weeks;
    const HeatFloor *floors;
    int floor_count;
    const HeatPlants *plants;
    const char *const *notices;
    int notice_count;
} HeatPage;

/* {"from","weeks","notices":[..],"floors":[{"floor_degc" (null: as it is),
 * "coldest_degc","under_d","heater_kwh","heater_cost","feed_kg","feed_cost",
 * "gained_kg","fish_value","margin"}],"spell":{"from","days","warmer_k",
 * "is_forecast"},"pressure":[{"tunnel","way","mould","rule","high_weeks",
 * "standing_weeks","from","until"}],"batches":[..],"ways":[..],"shades":[..],"seeds":[..]}
 */
const char *heat_to_json(const HeatPage *page, Arena *arena);

/* "anywhere", "hot side", "cool side", "choose". */
const char *heat_place_name(HeatPlace place);

#endif
