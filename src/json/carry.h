/* Whether the fish carry the beds, as JSON. */
#ifndef LEAT_JSON_CARRY_H
#define LEAT_JSON_CARRY_H

#include "work/carry.h"

/* All by week; arrays hold an entry a week:
 *
 * {"from", "weeks": ["2027-W09"], "notices": [text],
 *  "loops": [{"id", "words": [text], "offered_kg", "wanted_kg", "water_degc",
 *             "growth_frac", "fish_kg", "elements": [{"name", "fish_g",
 *             "mineral_g", "source_g", "asked_g", "taken_g", "lost_g",
 *             "store_g_m3", "short_from", "short_weeks", "missing_g_w",
 *             "gathers"}],
 *             "dips": [{"week", "drop_frac", "sold_count", "colder_k",
 *             "back_week", "short_element", "short_week"}]}]}
 *
 * and in each loop "chain": what a spell of other weather does, or null:
 * {"from", "days", "warmer_k", "is_forecast", "water_k", "heater_kwh",
 * "feed_frac", "short_element", "short_on", "usual_short_on", "later": [{"way",
 * "days"}], "frozen_batches", "frozen_on"}.
 *
 * A week that does not come is null. loop: a row, or -1 for all. */
const char *carry_to_json(const Carry *carry, int loop,
                          const char *const *notices, int notice_count,
                          Arena *arena);

#endif
