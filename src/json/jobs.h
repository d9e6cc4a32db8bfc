/* The jobs of a week as JSON. */
#ifndef LEAT_JSON_JOBS_H
#define LEAT_JSON_JOBS_H

#include "work/jobs.h"

/* {"week", "from", "notices": [text], "jobs": [{"id", "day", "kind", "what",
 * "places": [{"id", "amount"}], "amount", "low", "high", "unit", "minutes",
 * "people", "hands": [id], "may": [id], "note", "caution"}], "hands": [{"id",
 * "name", "hours", "hours_had", "days": [{"day", "hours", "hours_had"}]}]}.
 * Amounts are null where a job has no number. */
const char *jobs_to_json(const Farm *farm, const JobsWeek *week,
                         const char *const *notices, int notice_count,
                         Arena *arena);

#endif
