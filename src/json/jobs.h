/* The jobs of a week as JSON. */
#ifndef LEAT_JSON_JOBS_H
#define LEAT_JSON_JOBS_H

#include "work/news.h"

typedef struct JobsJson {
    const Farm *farm; /* Borrowed, as all of this. */
    const JobsWeek *week;
    const JobLoads *loads;
    const JobNews *news;
    int32_t day;
    const char *const *notices;
    int notice_count;
} JobsJson;

/* {"week", "from", "day", "notices": [text], "news": [{"kind", "day", "text"}],
 * "jobs": [{"id", "day", "kind", "what", "stop", "places": [{"id", "amount"}],
 * "amount", "low", "high", "unit", "minutes", "people", "hands": [id], "may":
 * [id], "note", "brief", "warning", "caution"}], "hands": [{"id", "name",
 * "hours", "hours_had", "days": [{"day", "hours", "hours_had"}]}], "loads": as
 * below}. Amounts are null where a job has no number. */
const char *jobs_to_json(const JobsJson *page, Arena *arena);

/* {"week", "from", "notices", "loads": [{"day", "buyer", "order", "product",
 * "unit", "rule", "ordered", "planned", "low", "expected", "high", "short",
 * "picked_on", "from": [{"id", "amount"}]}]}; picked_on is null where nothing
 * is picked for it. */
const char *loads_to_json(const JobsJson *page, Arena *arena);

#endif
