/* The fish of a day: tanks and batches, feed, forecast to sale weight, what a
 * grading would leave and move. */
#ifndef LEAT_WORK_FISH_DAY_H
#define LEAT_WORK_FISH_DAY_H

#include "work/conversion.h"
#include "work/foresight.h"
#include "work/jobs.h"

/* Part of the fish of a tank. */
typedef struct FishPart {
    double count;
    double mean_g;
    double cv_frac;
    double kg;
} FishPart;

/* A grading that could be done: heavier fish to another tank. before, moved and
 * left of the batch that is cut; counts and kilos add up. */
typedef struct FishGrading {
    double over_g; /* those heavier go */
    FishPart before;
    FishPart moved;
    FishPart left;
    int32_t to_tank; /* row of farm->tanks, -1: no tank has room for them */
    double from_density_kg_m3; /* of the tank, afterwards */
    double to_density_kg_m3;   /* NAN without a tank */
    const char *doubt;         /* why those fish should not go there; "" none */
} FishGrading;

/* Fish that the plan moves together. */
typedef struct FishMove {
    int32_t on; /* Monday of its week */
    int kind;   /* MOVE_.. */
    const char *batch;
    double count;
    double mean_g;
    int32_t from_tank; /* rows of farm->tanks, -1 */
    int32_t to_tank;
    int32_t product; /* row of products; -1: none */
} FishMove;

/* The shares of a batch that are offered to go. */
enum { FISH_GRADINGS = 3, FISH_BATCHES_IN_TANK = 8 };

typedef struct FishInTank {
    int batch; /* of the foresight's fish */
    FishPart part;
    FishGrading gradings[FISH_GRADINGS];
    int grading_count;
} FishInTank;

typedef struct FishTank {
    int32_t tank; /* row of farm->tanks */
    FishInTank batches[FISH_BATCHES_IN_TANK];
    int batch_count;
    double count;
    double kg;
    double mean_g; /* 0 without fish */
    double density_kg_m3;
    double ceiling_kg_m3;
    int32_t crowded_on; /* Monday of the first week over it; DATE_NEVER */
    double degc;        /* today, as foreseen or told */
    bool is_degc_told;
    double feed_g;          /* today by the plan; 0 none */
    const char *grade_hold; /* why it must not be graded today; NULL */
    Conversion conversion;
    FishMove *moves; /* the plan's next in or out, by week */
    int32_t move_count;
} FishTank;

typedef struct FishBatchDay {
    int batch; /* of the foresight's fish */
    FishPart part;
    double over_count;                         /* of sale weight now */
    int32_t ready_early, ready_on, ready_late; /* its mean; DATE_NEVER */
    double sold_count; /* by the plan in the weeks ahead */
} FishBatchDay;

typedef struct FishDayAsk {
    const Farm *farm;           /* Borrowed, as all of these. */
    const Farm *opening;        /* with its fish as they were counted */
    const Foresight *foresight; /* from the day's week on */
    const JobsWeek *week;       /* NULL without a plan */
    const double *degc;         /* by tank: today */
    const bool *is_degc_told;   /* by tank */
    const Told *facts;          /* since the fish were counted, by day */
    int32_t fact_count;
    int32_t day;
    /* A grading that is asked for, else tank -1: those over cut_g of the
     * largest batch of tank to to_tank (-1: where there is room). */
    int32_t tank;
    double cut_g;
    int32_t to_tank;
    Workings *workings; /* NULL for none */
} FishDayAsk;

typedef struct FishPage {
    int32_t day;
    double sale_g;
    FishTank *tanks; /* that hold fish or are to, by walk */
    int32_t tank_count;
    FishBatchDay *batches;
    int32_t batch_count;
    double feed_g;
    FishGrading asked;   /* the one that is asked for */
    int32_t asked_batch; /* of the foresight's fish; -1: none is asked for */
} FishPage;

/* ERR_RANGE: a grading that would move none or all. */
NODISCARD Err fish_page_make(const FishDayAsk *ask, Arena *arena,
                             FishPage *out);

#endif
