/* Plan a year: read the farm, build its problem, search, find the ceiling.
 *
 * Search and ceiling run in child processes; the answer does not depend on the
 * number of cores. */
#ifndef LEAT_DESK_PLAN_YEAR_H
#define LEAT_DESK_PLAN_YEAR_H

#include <signal.h>

#include "desk/plan_kept.h"
#include "plan/build.h"
#include "plan/change.h"
#include "plan/record.h"
#include "plan/report.h"
#include "plan/scarce.h"
#include "plan/solution.h"

typedef struct PlanYearAsk {
    const char *dir;
    int weeks; /* horizon, 4 .. 104; 0: the accepted plan's, else 52 */
    int64_t seed;
    int64_t moves;     /* of all starts together; 0: by the farm's size */
    int keep_weeks;    /* weeks of the accepted plan that stay as they are */
    int32_t today;     /* DATE_ALWAYS: the day the tables describe */
    bool is_from_plan; /* all starts begin with the accepted plan, not only the
                          first */
    bool is_anew;      /* none does */
    bool is_fish_frozen;               /* no stocking, no grading */
    const volatile sig_atomic_t *stop; /* NULL: never */
    /* Told now and then: share done (0..1) and best value so far; of the
     * ceiling, whose end is not known, a share below 0 and the relaxation's
     * value so far. NULL: not. */
    void (*progress)(void *context, double done_frac, double value);
    void *progress_context;
} PlanYearAsk;

typedef struct PlanYear {
    const Farm *farm; /* on the day the plan starts */
    const Book *book;
    PlanInputs inputs;
    Problem problem;
    PlanIndex index;
    const char *age; /* what changed since the accepted plan; NULL: nothing */
    bool is_told;    /* the standing tables are written from the journal */
    bool is_plan_assumed; /* nothing was told since the tables were counted:
                             the accepted plan is taken as done until today */
    PlanSolution solution;
    PlanReport report;
    int starts;
    int64_t moves;   /* of all starts together; 0: recalled */
    bool has_change; /* there was an accepted plan to differ from */
    PlanChange change;
    int left_out;     /* recalled: rows of the plan that no longer fit */
    const char *told; /* how it came about, for the journal; NULL: searched */
    bool was_stopped; /* Ctrl-C: the best so far */
    bool has_ceiling;
    PlanCeiling ceiling;
} PlanYear;

/* Reads, checks and builds. ERR_INPUT with the first fault and their count. */
NODISCARD Err plan_year_open(const PlanYearAsk *ask, Arena *arena,
                             PlanYear *out);

/* The same for a farm in memory: from, weeks and is_fish_frozen of wanted are
 * read. */
NODISCARD Err plan_year_make(const Farm *farm, const PlanInputs *wanted,
                             Arena *arena, PlanYear *out);

/* Searches and fills solution and report; refuses (ERR_DEFECT) a plan that
 * the separate checker does not pass. */
NODISCARD Err plan_year_search(const PlanYearAsk *ask, Arena *arena,
                               PlanYear *year);

/* The ceiling and what one more of anything would earn. */
NODISCARD Err plan_year_ceiling(const PlanYearAsk *ask, Arena *arena,
                                PlanYear *year);

/* The accepted plan of the folder instead of a search; ERR_NOT_FOUND where
 * none has been accepted. */
NODISCARD Err plan_year_recall(const PlanYearAsk *ask, Arena *arena,
                               PlanYear *year);

/* The plan of that name, as recall does the accepted one; the year's farm is
 * from then on the farm with that plan. ERR_NOT_FOUND where there is none. */
NODISCARD Err plan_year_bring(const PlanYearAsk *ask, PlanName name,
                              Arena *arena, PlanYear *year);

/* The farm with the year's plan in its tables. */
void plan_year_tables(const PlanYearAsk *ask, const PlanYear *year,
                      Arena *arena, Farm *out);

/* Keeps the year's plan as the draft. */
NODISCARD Err plan_year_keep_draft(const PlanYearAsk *ask, Arena *arena,
                                   const PlanYear *year);

/* Writes the plan's tables into the folder; the plan that was accepted till
 * then is kept as the plan "before". Where the plan before was taken as
 * done up to a later day, what stands on that day is written too: the new plan
 * begins from it, and the farm's records_from is that day. The tables as they
 * were told are kept in a folder of their day, told-YYYY-MM-DD. */
NODISCARD Err plan_year_accept(const PlanYearAsk *ask, Arena *arena,
                               const PlanYear *year);

/* As JSON, see json/plan.h; with the ceiling and the change where they were
 * found. */
const char *plan_year_json(const PlanYear *year, Arena *arena);

#endif
