/* The fish of an accepted plan as choices in a problem that may begin later. */
#ifndef LEAT_PLAN_RECALL_FISH_H
#define LEAT_PLAN_RECALL_FISH_H

#include "plan/record.h"

/* Fills the solution's runs. Fish that stand by now are quartered anew by
 * weight: what was planned for the heavier is taken by the heavier. Answers how
 * many runs no longer can be. */
int plan_recall_fish(const Farm *farm, const Problem *problem,
                     const PlanIndex *index, Arena *arena, PlanSolution *out);

/* A sale of fish that will not weigh enough: the first week, from the planned
 * one on, in which the lane is heavy enough, or none. */
void plan_fit_sale(const Problem *problem, PlanRun *run);

#endif
