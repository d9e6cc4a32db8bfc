/* How the figures of a batch of fish are made: when it is ready, how many are
 * over the weight of sale. */
#ifndef LEAT_SIM_FISH_WORKING_H
#define LEAT_SIM_FISH_WORKING_H

#include "sim/fish_stand.h"

/* Begins "over_count" of "fish"; each part's share is put in by the other, and
 * the caller closes it. NULL where it is not asked for. */
Working *fish_working_begin_over(const FishStandCase *stand,
                                 const FishStandBatch *batch);
void fish_working_over(Working *working, double count, double over);

/* Writes "ready_on", "ready_early" and "ready_late". */
void fish_working_ready(const FishStandCase *stand,
                        const FishStandBatch *batch);

#endif
