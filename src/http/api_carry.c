/* GET /api/carry: whether the fish carry the beds. */
#include "desk/carry.h"
#include "http/routes.h"
#include "json/carry.h"

ROUTE_QUESTION(CarryQuestion);

Err api_carry_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    CarryQuestion asked = {.dir = request->dir,
                           .loop = request_text(request, "loop")};
    int64_t weeks = CARRY_WEEKS_USUAL;
    TRY(request_flag(request, "iron", &asked.has_iron));
    TRY(request_integer(request, "weeks", 1, CARRY_WEEKS_MOST, &weeks));
    asked.weeks = (int)weeks;
    *(CarryQuestion *)question = asked;
    return ERR_NONE;
}

Err api_carry_answer(const void *question, Arena *arena, Reply *out)
{
    CarryAnswer answer;
    TRY(carry_answer(question, arena, &answer));
    *out = reply_json(carry_to_json(&answer.carry, answer.loop, answer.notices,
                                    answer.notice_count, arena));
    return ERR_NONE;
}
