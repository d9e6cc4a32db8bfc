/* From a farm to the planning problem: kinds, columns, fish, sales, hours. */
#ifndef LEAT_PLAN_BUILD_H
#define LEAT_PLAN_BUILD_H

#include "base/arena.h"
#include "base/err.h"
#include "farm/book.h"
#include "farm/records.h"
#include "plan/problem.h"
#include "sim/climate_year.h"

/* What a plan is made from. */
typedef struct PlanInputs {
    const Farm *farm;
    const Book *book;
    const ClimateYear *climate;
    int32_t from;   /* Monday of week 0 */
    int weeks;      /* horizon, 4 .. 104 */
    int keep_weeks; /* weeks of the accepted plan that will stay: what was sown
                       in them holds its bed against a deep clean */
    /* No stocking, no grading: standing fish are only sold or given up. For
     * telling what the choices about fish are worth. */
    bool is_fish_frozen;
} PlanInputs;

/* Seedlings standing in trays that the plan has no use for. */
typedef struct PlanUnused {
    const char *id;
    int way;
    int plants;      /* 0: as many as their sections take */
    const char *why; /* in words */
} PlanUnused;

/* Where the problem's numbers stand in the farm's tables. */
typedef struct PlanIndex {
    int32_t from;           /* Monday of week 0 */
    const int *order_rows;  /* problem order -> farm order */
    const int *outlet_rows; /* problem outlet -> farm order */
    const int *stock_fish;  /* stock -> farm fish, or PLAN_NONE */
    int fish_goods;         /* goods below are ways, from here sizes of fish */
    /* Ways that cannot be grown here, with the reason in words. */
    const char **refused; /* by farm way; NULL where it can be grown */
    PlanUnused *unused;   /* seedlings that no option could be made for */
    int unused_count;
    const int *trays_rows; /* seedlings of the problem -> the farm's plants */
} PlanIndex;

/* Problem kinds are in order of their first bed; beds, tanks, loops, products
 * and ways stand in the order of the farm's tables. ERR_INPUT names the row
 * that makes no sense; the farm has passed farm_check. */
NODISCARD Err plan_build(const PlanInputs *inputs, Arena *arena,
                         Problem *out_problem, PlanIndex *out_index);

enum { PLAN_TAIL_WEEKS = 26 };

#endif
