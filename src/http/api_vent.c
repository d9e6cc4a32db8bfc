/* GET /api/vent: when to open each tunnel, and how wide. */
#include "desk/vent.h"
#include "http/routes.h"
#include "json/vent.h"

ROUTE_QUESTION(VentQuestion);

Err api_vent_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    VentQuestion asked = {.dir = request->dir, .day = request->today};
    TRY(request_day(request, "day", &asked.day));
    *(VentQuestion *)question = asked;
    return ERR_NONE;
}

Err api_vent_answer(const void *question, Arena *arena, Reply *out)
{
    VentAnswer answer;
    TRY(vent_answer(question, arena, &answer));
    *out = reply_json(
        vent_to_json(&answer.day, answer.notices, answer.notice_count, arena));
    return ERR_NONE;
}
