/* Weeks of a plan as people write them. */
#ifndef LEAT_PLAN_WEEK_WORDS_H
#define LEAT_PLAN_WEEK_WORDS_H

#include <stdint.h>

#include "base/arena.h"

/* A text with its "week 3", "weeks 3 to 5" and "week 3 and 5" as 2027-W14 and
 * so on, counted from that Monday. Numbers of weeks outside what dates can say
 * stay. */
const char *week_words(const char *text, int32_t from, Arena *arena);

#endif
