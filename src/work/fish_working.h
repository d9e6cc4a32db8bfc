/* How the figures of the fish page are made, written by the code that makes
 * them. */
#ifndef LEAT_WORK_FISH_WORKING_H
#define LEAT_WORK_FISH_WORKING_H

#include "work/fish_day.h"

/* What a batch has in a tank today, and what that was made from. */
typedef struct FishMade {
    double monday_count; /* after the week's moves */
    double monday_kg;
    double net_count; /* of those moves still to be done, undone */
    double net_kg;
    double grown_frac;  /* weight today over Monday's */
    bool is_cv_counted; /* the spread is the one counted, else Monday's */
    FishPart part;
} FishMade;

/* Of "in-tank" TANK/BATCH: count, mean_g, kg, cv_frac. */
void fish_working_part(const FishDayAsk *ask, const char *tank,
                       const char *batch, const FishMade *made);

/* Of "tank": count, kg, mean_g, density_kg_m3, temp_degc, conversion; feed_g
 * where no job told it. */
void fish_working_tank(const FishDayAsk *ask, const FishTank *tank);

/* Of "fish": count, kg, mean_g. */
void fish_working_batches(const FishDayAsk *ask, const FishPage *page);

/* Of "farm": feed_g. */
void fish_working_feed(const FishDayAsk *ask, const FishPage *page);

#endif
