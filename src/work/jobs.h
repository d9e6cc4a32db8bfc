/* The jobs of one week, from the accepted plan.
 *
 * What the typical year brings in that week (temperatures, yields, weights of
 * fish) comes in as an outlook; nothing is foreseen here and nothing planned.
 */
#ifndef LEAT_WORK_JOBS_H
#define LEAT_WORK_JOBS_H

#include "base/err.h"
#include "base/working.h"
#include "farm/book.h"
#include "work/allot.h"
#include "work/job.h"

enum { JOBS_DAYS = 7 };

typedef struct JobYield {
    double low; /* units in the week */
    double mean;
    double high;
} JobYield;

/* What is to be expected in the week. Arrays are borrowed; those "by day" hold
 * seven entries for each row, Monday first. */
typedef struct JobOutlook {
    const JobYield *yields;   /* by row of plan_plants */
    const double *next_units; /* the same of the week after, mean */
    const double *lane_g;     /* by row of plan_fish: mean weight on Monday */
    const double *lane_alive_frac; /* by row of plan_fish, of its count */
    const double *fish_g;          /* by row of fish: mean weight on Monday */
    const double *fish_alive_frac; /* by row of fish */
    const double *tank_degc;       /* by tank and day */
    const double *tunnel_min_degc; /* by tunnel and day: air inside */
    const double *tunnel_max_degc;
    /* By row of plan_plants: mean at the bench from its sowing on, or of the
     * air above a bed sown in place. */
    const double *sow_degc;
} JobOutlook;

typedef struct JobsAsk {
    const Farm *farm;
    const Book *book; /* with the farm's own figures in it */
    const JobOutlook *outlook;
    int32_t week;       /* Monday */
    int32_t day;        /* whose workings are asked for */
    Workings *workings; /* NULL for none */
} JobsAsk;

typedef struct JobsWeek {
    int32_t week;
    JobList list;          /* sorted by day, phase and walk */
    const HandWeek *hands; /* by row of hands */
} JobsWeek;

/* ERR_NOT_FOUND where no plan is accepted. */
NODISCARD Err jobs_is_planned(const Farm *farm);

/* ERR_NOT_FOUND where no plan is accepted; ERR_RANGE where the week lies
 * outside the accepted plan, which is named. */
NODISCARD Err jobs_week_is_planned(const Farm *farm, int32_t week);

/* Fails as jobs_week_is_planned does; ERR_INPUT for a row whose way or fish the
 * book does not know. */
NODISCARD Err jobs_of_week(const JobsAsk *ask, Arena *arena, JobsWeek *out);

/* A job's stop in the arena's language; a farm's own name stays. */
const char *jobs_stop_name(const char *stop, const Arena *arena);

#endif
