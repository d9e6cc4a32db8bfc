/* An emergency as JSON. */
#ifndef LEAT_JSON_EMERGENCY_H
#define LEAT_JSON_EMERGENCY_H

#include "work/emergency_card.h"

/* Text in the arena. Times are minutes; null: never, by what is known. */
const char *emergency_to_json(const Emergency *emergency, const Card *card,
                              Arena *arena);

#endif
