/* Doses as JSON. */
#ifndef LEAT_JSON_DOSE_H
#define LEAT_JSON_DOSE_H

#include "base/arena.h"
#include "work/dose_plan.h"

/* Text in the arena. */
const char *dose_to_json(const DosePlan *plan, Arena *arena);

#endif
