/* The load list: what goes in the van on which day for whom, out of what is
 * picked and netted, and who gets it first where it is short.
 *
 * What the week's jobs bring waits from its day on and is given by rule: firm
 * orders of all days first, then promised ones, then outlets. Within a day and
 * rule the plan's share goes first, the rest by what is still wanted;
 * less than an order's least useful quantity is given to the others. Low,
 * middle and high are worked out side by side. */
#ifndef LEAT_WORK_LOADS_H
#define LEAT_WORK_LOADS_H

#include "work/jobs.h"

typedef struct Load {
    int32_t day;     /* of the delivery */
    int32_t order;   /* row of orders; buyer, product and firmness are its */
    double ordered;  /* units due that day; an outlet: what it takes at most */
    double planned;  /* of it by the plan */
    double low;      /* to be expected */
    double expected; /* */
    double high;     /* never over ordered */
    double short_by; /* ordered less expected; 0 for an outlet */
    const JobPlace *from; /* beds; of fish the tanks or none; amounts in units
                             of the way, of all that was brought for the day */
    int32_t from_count;
    int32_t from_day; /* when it is picked; DATE_NEVER where nothing is */
    bool is_stored;   /* picked in weeks before and put by */
} Load;

typedef struct JobLoads {
    const Load *loads; /* by day, buyer, firmness, order */
    int32_t count;
} JobLoads;

/* The week's jobs must have their days. */
JobLoads loads_of_week(const Farm *farm, const JobsWeek *week, Arena *arena);

/* "head lettuce 31 heads (27 to 31)"; "chard 3 of 4 bunches (2 to 4), short 1".
 */
const char *load_text(const Farm *farm, const Load *load, Arena *arena);

/* Short by enough to tell: half a unit of what is counted, 50 g of the rest. */
bool load_is_short(const Farm *farm, const Load *load);

/* "firm", "promised", "outlet". */
const char *load_rule(const Farm *farm, const Load *load);

#endif
