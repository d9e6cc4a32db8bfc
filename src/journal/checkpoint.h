/* A folded state as bytes, to go on from instead of from the tables.
 *
 * A checkpoint holds what stands at the end of its day, with all that was told
 * of the CHECKPOINT_AHEAD_D days after it known: so that a step of the plan
 * told late is not taken as done. Bytes are read only against the very tables
 * that they were made from. */
#ifndef LEAT_JOURNAL_CHECKPOINT_H
#define LEAT_JOURNAL_CHECKPOINT_H

#include "journal/state.h"
#include "journal/steps.h"

/* More than the days that an entry may be off its step. */
enum { CHECKPOINT_AHEAD_D = 35 };

struct JournalPoint {
    int32_t day;
    Plant *plants; /* Borrowed from the arena, as all arrays here. */
    int32_t plants_count;
    Fish *fish;
    int32_t fish_count;
    const int32_t *cleaned_on; /* by row of beds */
    Step *steps;               /* as steps_of gives them, with how each ended */
    int32_t step_count;
    JournalDoubt *doubts;
    int32_t doubt_count;
    FishAccount account;
};

/* Text of one line a thing, in the arena; *out_length bytes. */
const char *checkpoint_write(const JournalPoint *point, int32_t beds_count,
                             Arena *arena, size_t *out_length);

/* ERR_INPUT: no checkpoint of this farm; go without. */
NODISCARD Err checkpoint_read(const char *bytes, size_t length,
                              const Farm *farm, Arena *arena,
                              JournalPoint *out);

#endif
