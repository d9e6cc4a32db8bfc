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
    bool is_told; /* an entry names it */
    int32_t
        told; /* index of that entry; -1: none, or one before a checkpoint */
    int32_t told_day;
    bool is_undone;
    int32_t undone_day;
    bool is_assumed; /* over, and nothing was told */
    bool is_old;     /* ended before the checkpoint that is gone on from */
} Step;

typedef struct Steps {
    Step *items;
    int32_t count;
} Steps;

typedef struct StepDays {
    int32_t day;
    int32_t last;
} StepDays;

/* All steps, in the order of the plan's rows. */
Steps steps_of(const Farm *farm, Arena *arena);

/* Finds the entry of each step among those that is_known says count; then which
 * of the rest, planned up to last, are over by the week of day. False: an entry
 * names a step that ended before the checkpoint, which is of no use then. */
NODISCARD bool steps_match(const Farm *farm, const Tolds *tolds,
                           const bool *is_known, const StepDays *days,
                           Steps *steps);

/* The step of that kind and row, or NULL. */
const Step *steps_find(const Steps *steps, StepKind kind, int32_t row);

/* The word of the entry that settles it. */
const char *step_word(StepKind kind);

#endif
