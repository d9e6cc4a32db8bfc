/* The separate checker of plans: every limit of docs/planning.md and the value,
 * from the problem and the plan alone.
 *
 * It shares no code with the search, the ceiling or the evaluation, so that a
 * fault in one of them shows here. */
#ifndef LEAT_PLAN_VERIFY_H
#define LEAT_PLAN_VERIFY_H

#include "base/arena.h"
#include "plan/problem.h"
#include "plan/solution.h"

enum { VERIFY_MOST_TEXTS = 200 };

typedef struct VerifyReport {
    int count;                            /* broken limits */
    const char *texts[VERIFY_MOST_TEXTS]; /* the first of them, in words, with
                                             names and weeks */
    double value;                         /* as added up here */
} VerifyReport;

/* Checks the choices and the outcome of solution: that choices keep all limits,
 * that the sales told can be made from the goods, parts and stores told, and
 * that the value is what they come to. Texts live in arena. */
void plan_verify(const Problem *problem, const PlanSolution *solution,
                 Arena *arena, VerifyReport *out);

/* The same for the choices alone: the outcome is not read, value is 0. */
void plan_verify_choices(const Problem *problem, const PlanSolution *solution,
                         Arena *arena, VerifyReport *out);

#endif
