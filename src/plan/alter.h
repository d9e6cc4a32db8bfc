/* A plan changed by hand: planned batches moved, made larger or smaller,
 * dropped or added, steps of fish and deep cleans moved.
 *
 * Nothing is searched and no limit is held: what is asked is done as far as the
 * problem has a choice for it, and plan/verify tells what it breaks. Weeks are
 * the plan's; a batch that stands already is no choice and cannot be changed.
 */
#ifndef LEAT_PLAN_ALTER_H
#define LEAT_PLAN_ALTER_H

#include "plan/build.h"
#include "plan/solution.h"

enum { ALTER_MOST = 64, ALTER_UNITS_MOST = 100000 };

/* One change. Exactly one of batch, step, way and clean is told. */
typedef struct PlanAlter {
    const char *batch; /* of plan_plants, by its id */
    const char *step;  /* of plan_moves: a stocking, a grading, a sale */
    const char *way;   /* a new batch of that way */
    const char *clean; /* the deep clean of that bed */
    bool is_drop;
    int weeks;        /* so much later; below 0: earlier; 0: told otherwise */
    int32_t sow_on;   /* sown in the week of that day; DATE_ALWAYS: not told */
    int32_t set_on;   /* set out then */
    int32_t clear_on; /* the place is free then */
    int32_t on;       /* a step or clean: in the week of that day */
    const char *bed;  /* NULL: where it is */
    int section;      /* from 1; 0: where it is, or where there is room */
    int sections;     /* floor; 0: as many as it has */
    int plants;       /* edge, or in whole sections; 0: as many */
    const char *tank; /* a stocking or grading: into that tank */
} PlanAlter;

typedef enum AlteredKind {
    ALTERED_MOVED, /* or of another size */
    ALTERED_DROPPED,
    ALTERED_ADDED,
    ALTERED_STEP,
    ALTERED_CLEAN
} AlteredKind;

/* What became of it. */
typedef struct PlanAltered {
    AlteredKind kind;
    PlanPlacement before; /* of plants; option PLAN_NONE: none */
    PlanPlacement after;
    int move_kind; /* of a step */
    int stock;
    int bed;         /* of a clean */
    int heads;       /* of a step */
    int week_before; /* of a step or clean; PLAN_NONE: none */
    int week_after;
    int tank_before; /* of a step; PLAN_NONE: none */
    int tank_after;
    const char *note; /* what is not just as asked, in words, or NULL */
} PlanAltered;

/* before: as plan_recall gave it; it is left as it is. inputs: of the farm with
 * that plan. out_altered: one for each change. ERR_NOT_FOUND names what is not
 * there, with the nearest name; ERR_INPUT what makes no sense or cannot be a
 * choice, with the nearest week that can. */
NODISCARD Err plan_alter(const PlanInputs *inputs, const Problem *problem,
                         const PlanIndex *index, const PlanSolution *before,
                         const PlanAlter *changes, int count, Arena *arena,
                         PlanSolution *out, PlanAltered *out_altered);

#endif
