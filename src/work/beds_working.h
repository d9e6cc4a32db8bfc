/* How the figures of the beds' page are made that its batches do not bring
 * along. */
#ifndef LEAT_WORK_BEDS_WORKING_H
#define LEAT_WORK_BEDS_WORKING_H

#include "work/beds.h"

/* Of "batch": age_d. */
void beds_working_batch(const BedsAsk *ask, const BedBatch *batch);

/* Of "bed": job_day, clean_due. */
void beds_working_bed(const BedsAsk *ask, const BedState *state);

#endif
