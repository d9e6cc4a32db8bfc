/* Change a plan by hand and see at once what breaks; compare two plans.
 *
 * Nothing is searched: choices are changed as asked, sales are worked out
 * exactly, and the separate checker tells every limit that breaks and the
 * value. A change that breaks no limit anew can be accepted; one that breaks
 * hands, light or cleanliness when that is wanted; one that cannot be done, or
 * harms fish, never. */
#ifndef LEAT_DESK_ALTER_H
#define LEAT_DESK_ALTER_H

#include "desk/plan_kept.h"
#include "desk/plan_year.h"
#include "plan/alter.h"
#include "plan/compare.h"

typedef struct AlterAsk {
    const char *dir;
    int32_t today; /* DATE_ALWAYS: as PlanYearAsk */
    PlanName on;   /* the plan that is changed */
    const PlanAlter *changes;
    int count;        /* 0: only looked at, or accepted as it is */
    bool is_kept;     /* kept as the plan "changed" */
    bool is_accepted; /* in place of the accepted plan, which is kept as
                         the plan "before" */
    bool is_even_so;  /* also where a limit breaks that is not hard */
    const char *mark; /* accept only if the farm's tables bear it still;
                         NULL: whatever they are */
} AlterAsk;

typedef struct AlterAnswer {
    PlanYear year; /* with the changed plan */
    PlanName on;
    PlanSolution before;
    PlanAltered *changes; /* count of ask */
    int count;
    PlanCompare compare;
    const char *mark; /* of the farm's tables */
    bool is_kept;
    bool is_accepted;
    int left_out; /* rows of the plan that the farm no longer offers */
} AlterAnswer;

/* Errors of plan_year_open, plan_kept_bring and plan_alter. ERR_CONFLICT: it is
 * not accepted, for what it breaks or because the tables are others by now;
 * nothing was written. ERR_BUSY: somebody else is changing the folder. */
NODISCARD Err alter_plan(const AlterAsk *ask, Arena *arena, AlterAnswer *out);

const char *alter_json(const AlterAnswer *answer, Arena *arena);

typedef struct CompareAsk {
    const char *dir;
    int32_t today;
    PlanName one;
    PlanName two;
} CompareAsk;

typedef struct CompareAnswer {
    PlanYear year; /* of the plan two */
    PlanName names[2];
    PlanSolution one;
    PlanCompare compare;
    int left_out; /* rows of both that the farm no longer offers */
} CompareAnswer;

/* Both as they would go on from today. */
NODISCARD Err compare_plans(const CompareAsk *ask, Arena *arena,
                            CompareAnswer *out);

const char *compare_json(const CompareAnswer *answer, Arena *arena);

/* The plans that are there, as JSON. */
NODISCARD Err plans_json(const char *dir, Arena *arena, const char **out);

#endif
