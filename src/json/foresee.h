/* What is foreseen, as JSON. */
#ifndef LEAT_JSON_FORESEE_H
#define LEAT_JSON_FORESEE_H

#include "work/foresight.h"

/* All by week; arrays hold an entry a week, the first that of "from":
 *
 * {"from", "weeks": ["2027-W09"], "notices": [text], "sale_g",
 *  "feed_short_ratio", "feed_over_ratio",
 *  "tunnels": [{"id", "mean_degc", "min_degc", "max_degc", "dli_mol",
 *               "heater_kwh"}],
 *  "bed_kinds": [{"name", "beds": [id], "light_frac", "dli_mol"}],
 *  "loops": [{"id", "water_degc", "water_min_degc", "water_max_degc",
 *             "heater_kwh", "feed_offered_kg", "feed_wanted_kg", "feed_ratio",
 *             "ammonia_made_g_d", "ammonia_carried_g_d": {"low", "value",
 *             "high"}, "oxygen_used_g_h", "oxygen_worst": [{"tank",
 *             "used_frac"}]}],
 *  "tanks": [{"id", "loop", "water_degc", "count", "kg", "mean_g", "cv_frac",
 *             "density_kg_m3", "feed_kg", "oxygen_g_h", "air_g_h", "tan_g_d",
 *             "over_density_week", "over_air_week"}],
 *  "fish": [{"id", "species", "standing", "source", "count", "kg", "mean_g",
 *            "cv_frac", "over_count", "all_mean_g": {"low", "value", "high"},
 *            "ready_early", "ready_on", "ready_late", "sold_count", "sold_kg",
 *            "tanks": [{"id", "count", "kg", "mean_g", "cv_frac"}]}],
 *  "ways": [{"id", "unit", "low", "value", "high"}],
 *  "plants": [{"id", "way", "bed", "place", "standing", "planned", "plants",
 *              "sow_on", "emerge_on", "set_on", "pick_early", "pick_on",
 *              "pick_late", "last_pick_on", "clear_on", "trouble", "low",
 *              "value", "high", "feed_wanted_kg"}],
 *  "days": {"way", "kinds": [{"name", "months": [{"month", "early", "value",
 *           "late", "nursery", "trouble"}]}]},
 *  "year": {"heater_kwh", "heater_cost"}}
 *
 * Fish arrays hold one entry more than there are weeks but those by tank. A
 * number that is not there is null; "days" is null where no way was asked for.
 */
const char *foresee_to_json(const Foresight *foresight,
                            const char *const *notices, int notice_count,
                            Arena *arena);

#endif
