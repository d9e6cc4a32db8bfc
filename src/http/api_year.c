/* GET /api/year: the accepted plan. */
#include "desk/plan_year.h"
#include "http/routes.h"
#include "json/plan.h"

ROUTE_QUESTION(PlanYearAsk);

enum { WEEKS_USUAL = 52 };

Err api_year_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    PlanYearAsk asked = {.dir = request->dir, .weeks = WEEKS_USUAL, .seed = 1};
    TRY(request_today(request, &asked.today));
    *(PlanYearAsk *)question = asked;
    return ERR_NONE;
}

Err api_year_answer(const void *question, Arena *arena, Reply *out)
{
    PlanYear *year = ARENA_NEW(arena, PlanYear);
    TRY(plan_year_open(question, arena, year));
    TRY(plan_year_recall(question, arena, year));
    PlanAnswer answer = {.farm = year->farm,
                         .problem = &year->problem,
                         .index = &year->index,
                         .solution = &year->solution,
                         .report = &year->report};
    *out = reply_json(json_plan(&answer, arena));
    return ERR_NONE;
}
