/* Days on which somebody has more work than hours, and what could give way. */
#ifndef LEAT_WORK_OVERFULL_H
#define LEAT_WORK_OVERFULL_H

#include "work/jobs.h"

/* Less than this over is no trouble; judged. */
#define OVERFULL_LEAST_MIN 15.0

/* Minutes over what that person has on that weekday; 0 where all fits. */
double overfull_minutes(const JobsWeek *week, int hand, int weekday);

/* "Ada 1.2 h over; could go: deep clean, part 2 of 4 (150 min) to Thu, Ben";
 * NULL where the day is not over-full. */
const char *overfull_text(const Farm *farm, const JobsWeek *week, int hand,
                          int weekday, Arena *arena);

#endif
