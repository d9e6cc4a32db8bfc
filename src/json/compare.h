/* Two plans side by side, and a plan changed by hand, as JSON. */
#ifndef LEAT_JSON_COMPARE_H
#define LEAT_JSON_COMPARE_H

#include "plan/alter.h"
#include "plan/compare.h"

struct json_t;

typedef struct CompareSides {
    const Farm *farm;
    const Problem *problem;
    const PlanIndex *index;
    const PlanSolution *before;
    const PlanSolution *after;
    const PlanCompare *compare;
} CompareSides;

/* {"one","two","from","weeks","currency","verdict","value_before",
 * "value_after","money_before":{..},"money_after":{..},"breaks":[..],
 * "mended","orders":[..],"batches":[..],"fish":[..],"cleans":[..],
 * "feed":[..],"left_out"}; weeks as 2027-W09, days as 2027-03-01. */
const char *json_compare(const CompareSides *sides, const char *one,
                         const char *two, int left_out, Arena *arena);

/* The same keys but the names, put into an object. */
void json_compare_put(struct json_t *object, const CompareSides *sides);

/* A plan that is kept: its name and its row of plan.csv. */
typedef struct NamedPlan {
    const char *name;
    const Plan *row;
} NamedPlan;

/* {"plans":[{"name","from","weeks","made_on","value"}]} */
const char *json_plans(const NamedPlan *plans, int count, Arena *arena);

typedef struct AlterFound {
    CompareSides sides;
    const char *plan;
    const PlanAltered *changes;
    int count;
    const char *mark;
    bool is_kept;
    bool is_accepted;
    int left_out;
} AlterFound;

/* What json_compare has, with "plan", "mark", "is_kept", "is_accepted" and
 * "changes":[{"what","before":{..},"after":{..},"note"}]. */
const char *json_alter(const AlterFound *found, Arena *arena);

enum { ALTER_JSON_MAX_BYTES = 32 * 1024 };

/* What is asked for. Text is "" where it is not told. */
typedef struct AlterBody {
    const char *plan; /* its name */
    const char *mark; /* NULL: not told */
    PlanAlter *changes;
    int count;
    bool is_kept;
    bool is_accepted;
    bool is_even_so;
} AlterBody;

/* {"plan","changes":[{"batch"|"step"|"way"|"clean", "drop", "weeks", "sow_on",
 * "set_on", "clear_on", "on", "bed", "section", "sections", "plants",
 * "tank"}],"keep","accept","even_so","mark"}. ERR_INPUT names the key at
 * fault; an unknown key is a fault. */
NODISCARD Err json_alter_read(const char *text, size_t length, Arena *arena,
                              AlterBody *out);

#endif
