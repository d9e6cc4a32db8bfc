/* Plans kept beside the accepted one, each in a folder of its name within the
 * farm's: what was accepted before, the draft last made, what was changed by
 * hand. They can be shown, compared, changed and accepted. */
#ifndef LEAT_DESK_PLAN_KEPT_H
#define LEAT_DESK_PLAN_KEPT_H

#include "farm/records.h"

#include "base/arena.h"
#include "base/err.h"

/* The accepted plan stands in the farm's own tables. */
#define PLAN_NAMES(N)                                                          \
    N(ACCEPTED, "accepted")                                                    \
    N(BEFORE, "before") N(DRAFT, "draft") N(CHANGED, "changed")

typedef enum PlanName {
#define PLAN_NAME_ENUM(name, word) PLAN_##name,
    PLAN_NAMES(PLAN_NAME_ENUM)
#undef PLAN_NAME_ENUM
        PLAN_NAME_COUNT
} PlanName;

const char *plan_name_word(PlanName name);

/* ERR_INPUT with the names there are. */
NODISCARD Err plan_name_read(const char *word, PlanName *out);

/* The plan tables of a farm, kept under that name in place of the one before.
 * Not for PLAN_ACCEPTED. */
NODISCARD Err plan_kept_write(const char *dir, PlanName name, const Farm *farm,
                              Arena *arena);

/* The farm with the plan of that name instead of its own. Rows that name what
 * the farm no longer has are left out and counted. ERR_NOT_FOUND where no such
 * plan is kept. */
NODISCARD Err plan_kept_bring(const char *dir, PlanName name, const Farm *farm,
                              Arena *arena, const Farm **out, int *out_lost);

/* Whether both have the same plan, whenever it was accepted. */
bool plan_kept_is_same(const Farm *a, const Farm *b, Arena *arena);

/* A plan that is there: its row of plan.csv; of a draft accepted_on is the day
 * it was made. */
typedef struct KeptPlan {
    PlanName name;
    Plan row;
} KeptPlan;

/* Those that are there, in the order of their names: at most PLAN_NAME_COUNT.
 */
int plan_kept_all(const char *dir, Arena *arena, KeptPlan *out);

#endif
