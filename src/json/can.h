/* Whether an order can be taken, as JSON. */
#ifndef LEAT_JSON_CAN_H
#define LEAT_JSON_CAN_H

#include "plan/what_if.h"

/* {"answer":"yes|yes-if|no","wanted","kept","short_in","value_change",
 * "batches":[..],"gives_way":[..],"more_feed_kg_d","more_hours_w","more_hours",
 * "refuse_free_until","age"}; from: the Monday of week 0. age: what changed
 * since the plan was accepted; NULL: nothing. */
const char *json_can(const WhatIf *found, int32_t from, const char *age,
                     Arena *arena);

#endif
