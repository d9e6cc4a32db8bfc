/* The plan of a year as JSON. */
#ifndef LEAT_JSON_PLAN_H
#define LEAT_JSON_PLAN_H

#include "plan/build.h"
#include "plan/change.h"
#include "plan/report.h"
#include "plan/scarce.h"

struct json_t;

typedef struct PlanAnswer {
    const Farm *farm;
    const Problem *problem;
    const PlanIndex *index;
    const PlanSolution *solution;
    const PlanReport *report;
    const PlanCeiling *ceiling; /* NULL: not worked out */
    const PlanChange *change;   /* NULL: there is no accepted plan */
    const char *age; /* what changed since it was accepted; NULL: nothing */
} PlanAnswer;

/* {"from","weeks","currency","value","money":{..},"wages","heat","ceiling",
 * "promises":[..],"ways":[..],"batches":[..],"seedlings":[..],"fish":[..],
 * "cleans":[..],"change":{..},"not_grown":[..],"age"}; weeks as 2027-W09, days
 * as 2027-03-01. */
const char *json_plan(const PlanAnswer *answer, Arena *arena);

/* What the value of a plan is made of, each part as it is told: costs above 0
 * are taken off. */
struct json_t *json_plan_money(const PlanOutcome *money);

#endif
