/* The list of the sums as JSON. */
#ifndef LEAT_JSON_SUMS_LIST_H
#define LEAT_JSON_SUMS_LIST_H

#include "base/arena.h"

/* {"subjects":[{"title","sums":[{"name","purpose","example","source":[key],
 * "keys":[{"name","unit","kind","need","usual","least","most","meaning",
 * "expects"}]}]}]}; kind: number, count, flag, word, date, instant; need:
 * required, usual, may; usual, least and most are null where there is none. */
const char *json_sums_list(Arena *arena);

#endif
