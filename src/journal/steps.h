/* The steps of the accepted plan, and which entry told each. Only for
 * journal/. */
#ifndef LEAT_JOURNAL_STEPS_H
#define LEAT_JOURNAL_STEPS_H

#include "journal/told.h"

typedef enum StepKind {
    STEP_SOW,
    STEP_SET,
    STEP_CLEAR,
    STEP_CLEAN,
    STEP_STOCK,
    STEP_GRADE,
    STEP_SALE,
} StepKind;

typedef struct Step {
    StepKind kind;
    int32_t row;  /* of plan_plants, plan_cleans or plan_moves */
    int32_t day;  /* planned */
    int32_t told; /* index of the entry that names it, or -1 */
    bool is_undone;
    bool is_assumed; /* over, and nothing was told */
} Step;

typedef struct Steps {
    Step *items;
    int32_t count;
} Steps;

/* All steps, in the order of the plan's rows. */
Steps steps_of(const Farm *farm, Arena *arena);

/* Finds the entry of each step among those that is_in says are to be folded;
 * then which of the rest are over by the week of day. */
void steps_match(const Farm *farm, const Tolds *tolds, const bool *is_in,
                 int32_t day, Steps *steps);

/* The step of that kind and row, or NULL. */
const Step *steps_find(const Steps *steps, StepKind kind, int32_t row);

/* The word of the entry that settles it. */
const char *step_word(StepKind kind);

#endif
