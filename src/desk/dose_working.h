/* How doses are made: of "dose", by day and by salt. */
#ifndef LEAT_DESK_DOSE_WORKING_H
#define LEAT_DESK_DOSE_WORKING_H

#include "nature/water/base.h"
#include "sums/sum.h"
#include "work/dose_plan.h"

/* A day's base, out of the sum that made it: id "day-1", figures product_g,
 * portion_g, ph_after. day: its place in the plan's days. read_on:
 * day of the readings. */
void dose_working_day(DosePlan *plan, int day, const WaterBase *base,
                      const SumAnswer *sum, int32_t read_on);

/* A salt or iron: id as its row of bases.csv, figures product_g, portion_g.
 * share: of the element in the product. */
void dose_working_salt(DosePlan *plan, const DoseSalt *salt, double share);

#endif
