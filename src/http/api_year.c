/* GET /api/year: the accepted plan. */
#include "desk/farm_page.h"
#include "desk/plan_year.h"
#include "http/routes.h"

ROUTE_QUESTION(PlanYearAsk);

enum { WEEKS_USUAL = 52, WEEKS_LEAST = 4, WEEKS_MOST = 104 };

Err api_year_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    PlanYearAsk asked = {.dir = request->dir, .weeks = WEEKS_USUAL, .seed = 1};
    TRY(request_today(request, &asked.today));
    *(PlanYearAsk *)question = asked;
    return ERR_NONE;
}

/* As many as it was accepted with. */
static int weeks_of(const Plan *plan)
{
    return plan->weeks < WEEKS_LEAST  ? WEEKS_LEAST
           : plan->weeks > WEEKS_MOST ? WEEKS_MOST
                                      : plan->weeks;
}

Err api_year_answer(const void *question, Arena *arena, Reply *out)
{
    PlanYearAsk asked = *(const PlanYearAsk *)question;
    FarmPage page;
    TRY(farm_page_make(asked.dir, asked.today, arena, &page));
    if (page.farm->plan_count > 0) {
        asked.weeks = weeks_of(&page.farm->plan[0]);
    }
    PlanYear *year = ARENA_NEW(arena, PlanYear);
    TRY(plan_year_open(&asked, arena, year));
    TRY(plan_year_recall(&asked, arena, year));
    *out = reply_json(plan_year_json(year, arena));
    return ERR_NONE;
}
