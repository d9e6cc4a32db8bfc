/* GET /api/year: the accepted plan, or one that is kept beside it. */
#include "desk/plan_year.h"
#include "http/routes.h"

typedef struct YearAsk {
    PlanYearAsk plan;
    PlanName name;
} YearAsk;
ROUTE_QUESTION(YearAsk);

Err api_year_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    YearAsk asked = {.plan = {.dir = request->dir, .seed = 1}};
    const char *name = request_text(request, "plan");
    if (name) {
        TRY(plan_name_read(name, &asked.name));
    }
    TRY(request_today(request, &asked.plan.today));
    *(YearAsk *)question = asked;
    return ERR_NONE;
}

Err api_year_answer(const void *question, Arena *arena, Reply *out)
{
    const YearAsk *asked = question;
    PlanYear *year = ARENA_NEW(arena, PlanYear);
    TRY(plan_year_open(&asked->plan, arena, year));
    TRY(plan_year_bring(&asked->plan, asked->name, arena, year));
    *out = reply_json(plan_year_json(year, arena));
    return ERR_NONE;
}
