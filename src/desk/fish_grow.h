/* How fish have grown since they were counted, for the journal: by the laws of
 * growth in the farm's typical year. */
#ifndef LEAT_DESK_FISH_GROW_H
#define LEAT_DESK_FISH_GROW_H

#include "journal/state.h"

/* Works the typical year out only when it is first asked. A farm whose year
 * cannot be told has fish that do not grow. */
FishGrow fish_grow_of(const Farm *farm, Arena *arena);

/* Rows counted nearly a year before day, which no forecast reaches from, are
 * taken as they have grown by a month before it. */
void fish_grow_old(const FishGrow *grow, int32_t day, Arena *arena, Farm *farm);

#endif
