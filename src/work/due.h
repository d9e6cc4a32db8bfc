/* What orders are due in one week: on which days, how much is wanted, how much
 * of it the accepted plan keeps. */
#ifndef LEAT_WORK_DUE_H
#define LEAT_WORK_DUE_H

#include "base/arena.h"
#include "farm/records.h"

typedef struct Due {
    uint32_t days; /* bit 0 Monday: delivery days on which it is open */
    int day_count;
    int all_days;  /* delivery days in a week without closures; 1 where dated */
    double wanted; /* units in the week; an outlet: what it takes at most */
    double kept;   /* of it by the plan; an outlet: all it takes */
} Due;

/* By row of orders. A dated order is due on its day; others share the week
 * evenly over their delivery days, and lose the part of days that are closed or
 * out of season. week: a Monday. */
const Due *due_of_week(const Farm *farm, int32_t week, Arena *arena);

/* Units of a quantity of the week that fall on a weekday (0..6): an even share
 * of it; whole where is_whole, so that the days' sum is the rounded quantity. 0
 * on other days. */
double due_on_day(const Due *due, double units, bool is_whole, int weekday);

#endif
