/* GET /api/check: every fault of the farm's tables. */
#include "desk/check_farm.h"
#include "desk/plan_age.h"
#include "http/routes.h"
#include "json/faults.h"

typedef struct CheckQuestion {
    const char *dir;
    int32_t limit;
} CheckQuestion;
ROUTE_QUESTION(CheckQuestion);

Err api_check_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    bool is_all = false;
    TRY(request_flag(request, "all", &is_all));
    *(CheckQuestion *)question =
        (CheckQuestion){request->dir, is_all ? INT32_MAX : FAULTS_USUAL_LIMIT};
    return ERR_NONE;
}

Err api_check_answer(const void *question, Arena *arena, Reply *out)
{
    const CheckQuestion *asked = question;
    FarmCheck check;
    TRY(check_farm(asked->dir, asked->limit, arena, &check));
    const char *age = NULL;
    if (check.faults.count == 0) {
        TRY(plan_age_of(&check.read->farm, asked->dir, arena, &age));
    }
    if (age) {
        faults_notice(&check.faults, (FaultPlace){.file = "plan.csv"}, "", "%s",
                      age);
    }
    *out =
        reply_json(faults_to_json(&check.faults, check.read->row_count, arena));
    return ERR_NONE;
}
