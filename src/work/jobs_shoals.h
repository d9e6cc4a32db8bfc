/* Which fish are where on each day of a week: lanes and routes of the plan
 * followed to it, fed and grown through it. */
#ifndef LEAT_WORK_JOBS_SHOALS_H
#define LEAT_WORK_JOBS_SHOALS_H

#include "nature/fish/law.h"
#include "work/jobs_parts.h"

/* Handling limits. Common practice of the trade. */
#define GRADE_LEAST_DEGC 20.0
#define GRADE_MOST_DEGC 30.0

enum { GRADE_FIRST = 2, STOCK_DAY = 1 };

/* Fish of one lane and route that are together in the week. */
typedef struct Shoal {
    const char *batch;
    const FishSpecies *species;
    int32_t lane; /* row of plan_fish, -1 */
    int32_t tank; /* on Monday; -1 not here yet, or gone */
    double count;
    double ration_frac; /* of the book's ration: appetite here, and breeders'
                           short rations */
    double weight_g[JOBS_DAYS + 1];
    const PlanMove *move; /* stocking or grading in this week, or NULL */
    int move_day;         /* from Monday; -1 where no day's water allows it */
    const PlanMove *sale; /* caught or sold in this week, or NULL */
    const PlanMove *given_up; /* leave in this week without a buyer, or NULL */
    int sale_day;             /* from Monday, may lie beyond the week */
    int catch_day; /* into the purge water; may lie before the week */
} Shoal;

typedef struct FishWork {
    Jobs *jobs;
    Shoal *shoals;
    int count;
} FishWork;

/* What a tank holds on a day, and what it is fed. */
typedef struct TankDay {
    double count;
    double kg;
    double feed_g;
    double least_g; /* weight of its smallest fish; INFINITY where none */
} TankDay;

/* Finds the shoals and grows them through the week. */
NODISCARD Err shoals_find(FishWork *work);

/* The tank that a shoal for sale is caught from. */
int32_t shoals_caught_from(const Shoal *shoal);

TankDay shoals_tank_day(const FishWork *work, int32_t tank, int day);

/* The same, and how the feed is made, but for whether such water is fed at all
 * ("m"), which the caller puts in. working: NULL for none. */
TankDay shoals_tank_day_told(const FishWork *work, int32_t tank, int day,
                             Working *working);

/* Meals of a day, by its water and the lightest fish of the tank. */
int shoals_meals(double temp_degc, double least_g);

double shoals_water_degc(const Jobs *jobs, int32_t tank, int day);

#endif
