/* Gives each job of a week its day and its people.
 *
 * A person has a week's hours, spread evenly over the working days that no
 * closure takes. Work with one possible day comes first, then work that can
 * wait; each goes to who is at its stop already, else to those who may do it
 * and have most time left, on the first day from its earliest on that has room,
 * else on the one with most room. */
#ifndef LEAT_WORK_ALLOT_H
#define LEAT_WORK_ALLOT_H

#include "work/job.h"

typedef struct HandWeek {
    double minutes_had[7]; /* by day, Monday first */
    double minutes_used[7];
} HandWeek;

/* Sets day, hands and hand_count of every job of the list. out_hands has an
 * entry for each of the farm's hands. week is a Monday. */
void allot_week(const Farm *farm, int32_t week, JobList *list,
                HandWeek *out_hands);

#endif
