/* A sum's answer, and an error, as JSON. */
#ifndef LEAT_JSON_JSON_SUM_H
#define LEAT_JSON_JSON_SUM_H

#include "sums/sum.h"

/* {"name", "inputs", "value", "low", "high", "unit", "also": [{"name","value",
 * "low","high","unit"}], "working": [...], "source": [...]}. Inputs are as
 * they were used, usual values among them. With unit "date" the three values
 * are dates. Cautions stand first in "working". Text in the answer's arena. */
const char *json_sum(const SumAnswer *answer);

/* {"error": {"kind", "text"}} */
const char *json_sum_error(const Err *err, Arena *arena);

#endif
