/* Plants told of, onto the rows of plants. Only for journal/. */
#ifndef LEAT_JOURNAL_PLANT_FOLD_H
#define LEAT_JOURNAL_PLANT_FOLD_H

#include "journal/fish_fold.h"
#include "journal/steps.h"

/* A row of the standing table, or one that comes to stand. */
void plant_fold_add(StateFold *fold, const Plant *plant);

/* One entry about plants or a bed; others do nothing. */
void plant_fold_told(StateFold *fold, const Tolds *tolds, const Told *told,
                     const Steps *steps);

/* A step of the plan taken as done. */
void plant_fold_planned(StateFold *fold, const Step *step);

/* The plan's rows of plants as they are now: those cleared are gone, those set
 * stand, on the day and with the plants that were told. */
void plant_fold_follow(StateFold *fold, const Steps *steps);

#endif
