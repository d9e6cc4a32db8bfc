/* The openings of a day, as JSON. */
#ifndef LEAT_JSON_VENT_H
#define LEAT_JSON_VENT_H

#include "work/vent.h"

/* {"day", "is_forecast", "forecast_days", "clock_ahead_h", "outside_most_degc",
 *  "outside_least_degc", "wind_m_s", "note" (all tunnels), "notices": [text],
 *  "tunnels": [{"id", "brief", "lines": [text], "heat": span, "dry": span,
 *    "morning": span, "midday": "as-asked", "midday_h", "is_usual",
 *    "floor_degc", "floor_way", "night_degc", "night_out_degc", "crop_degc",
 *    "is_fleeced", "tender_way", "opened": air, "shut": air,
 *    "pressure": [{"mould", "rule", "opened", "shut", "opened_count",
 *    "shut_count", "batches": [id]}]}]}
 *
 * span: {"from", "until" (by the clock), "from_h", "until_h" (by the sun),
 * "width_frac"} or null. air: {"wet_h", "rh_frac", "week_wet_h", "hours":
 * [{"clock", "air_degc", "outside_degc", "rh_frac", "open_frac", "is_wet"}]}.
 * pressure: moulds of what stands there. */
const char *vent_to_json(const VentDay *day, const char *const *notices,
                         int notice_count, Arena *arena);

const char *vent_midday_word(VentMidday midday); /* "as-asked" .. */

#endif
