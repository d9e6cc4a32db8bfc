/* The round as JSON. */
#ifndef LEAT_JSON_ROUND_H
#define LEAT_JSON_ROUND_H

#include "work/round.h"

typedef struct RoundJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const Round *round;
    const char *title;
    const char *const *notices;
    int notice_count;
} RoundJson;

/* {"day", "title", "notices": [text], "suspects": [{"text", "pump"}], "taps",
 * "told_today", "feed_g", "loops": [{"id", "given_g", "wanted_g"}], "stops":
 * [{"id", "name", "hands", "as_usual", "items": [{"id", "kind", "text",
 * "place", "places": [{"id", "amount"}], "job", "value": {"key", "unit",
 * "amount", "expected", "low", "high", "yesterday", "yesterday_on",
 * "yesterday_from": "told"|"plan", "told", "odd_below", "odd_above"}, "detail",
 * "caution", "warning", "hold", "then_amount", "meals", "batch", "troubles":
 * [{"cause", "text"}], "entries": [entry], "done", "told": [number]}],
 * "as_usual_entries": [entry]}]}. What is not known is null; an entry has the
 * keys of the journal's entries and leaves out what is empty. */
const char *round_to_json(const RoundJson *page, Arena *arena);

#endif
