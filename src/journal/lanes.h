/* The accepted plan's moves of fish, for the fish as they stand.
 *
 * A plan tells its moves by lane of a batch as it began. Where fish were moved,
 * sold, weighed or lost since, lanes are drawn anew, in each tank of the fish
 * that stand there, so that all who follow the plan from today follow those. */
#ifndef LEAT_JOURNAL_LANES_H
#define LEAT_JOURNAL_LANES_H

#include "journal/state.h"

/* Replaces plan_fish and plan_moves of a state's farm: only moves that are not
 * over, of lanes of the rows of fish as they stand, a share of the fish there
 * being moved where the plan moved that share. Batches that the plan has yet to
 * stock stay as they are. opening: the farm whose plan it is. */
void lanes_follow(const Farm *opening, Arena *arena, JournalState *state);

#endif
