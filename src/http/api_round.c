/* GET /api/round: the day's walk. */
#include "desk/round.h"
#include "http/routes.h"

ROUTE_QUESTION(RoundQuestion);

Err api_round_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    RoundQuestion asked = {.dir = request->dir, .today = request->today};
    TRY(request_day(request, "day", &asked.today));
    *(RoundQuestion *)question = asked;
    return ERR_NONE;
}

Err api_round_answer(const void *question, Arena *arena, Reply *out)
{
    RoundAnswer answer;
    TRY(round_answer(question, arena, &answer));
    *out = reply_json(round_answer_json(&answer, arena));
    return ERR_NONE;
}
