/* Fish told of, onto the rows of fish: who leaves takes his weight with him.
 * Only for journal/. */
#ifndef LEAT_JOURNAL_FISH_FOLD_H
#define LEAT_JOURNAL_FISH_FOLD_H

#include "journal/state.h"

/* The fold at work. */
typedef struct StateFold {
    const Farm *opening;
    Farm *farm; /* its plants, fish and beds are our own copies */
    Arena *arena;
    FishGrow grow;
    JournalState *state;
    int32_t plant_room;
    int32_t fish_room;
    int32_t doubt_room;
    double *opening_mean_g; /* by row of opening->fish */
} StateFold;

/* A doubt about an entry. */
void fold_doubt(StateFold *fold, const Told *told, const char *format, ...)
    PRINTF_LIKE(3, 4);

/* Opens the account with a row of fish. */
void fish_fold_open(StateFold *fold, const Fish *row);

/* One entry about fish; others do nothing. step: the row of plan_moves that it
 * was taken for, or NULL. */
void fish_fold_told(StateFold *fold, const Told *told, const PlanMove *step);

/* A step of the plan taken as done; what is not there stays where it is. */
void fish_fold_planned(StateFold *fold, const PlanMove *step);

/* Totals up what stands. */
void fish_fold_close(StateFold *fold);

#endif
