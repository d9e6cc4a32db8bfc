/* What the files of alter share. */
#ifndef LEAT_PLAN_ALTER_PARTS_H
#define LEAT_PLAN_ALTER_PARTS_H

#include "plan/alter.h"

typedef struct Alterer {
    const PlanInputs *inputs;
    const Problem *problem;
    const PlanIndex *index;
    Arena *arena;
    PlanSolution *solution; /* its arrays have room for ALTER_MOST more */
} Alterer;

NODISCARD Err alter_plants(Alterer *alterer, const PlanAlter *change,
                           PlanAltered *out);
NODISCARD Err alter_step(Alterer *alterer, const PlanAlter *change,
                         PlanAltered *out);

/* The row of a bed or tank. ERR_NOT_FOUND with the nearest name. */
NODISCARD Err alter_bed(const Alterer *alterer, const char *id, int *out);
NODISCARD Err alter_tank(const Alterer *alterer, const char *id, int *out);

/* ERR_NOT_FOUND: what ("planned batch") has no row of that id; the nearest of
 * count names is told. */
Err alter_not_found(const char *what, const char *id, const char *const *names,
                    int count);

/* "2027-W14" */
const char *alter_week(const Alterer *alterer, int week);

/* The week that a change asks for: week moved by its weeks, or that of day
 * where it is told. */
int alter_wanted_week(const Alterer *alterer, const PlanAlter *change,
                      int32_t day, int week);

#endif
