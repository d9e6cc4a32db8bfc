/* GET /api/carry: whether the fish carry the beds. */
#include "desk/carry.h"
#include "http/routes.h"
#include "json/carry.h"

ROUTE_QUESTION(CarryQuestion);

Err api_carry_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    CarryQuestion asked = carry_usual_question(request->dir);
    int64_t weeks = CARRY_WEEKS_USUAL;
    int64_t spell_days = asked.spell_days;
    asked.loop = request_text(request, "loop");
    TRY(request_flag(request, "iron", &asked.has_iron));
    TRY(request_integer(request, "weeks", 1, CARRY_WEEKS_MOST, &weeks));
    TRY(request_number(request, "spell_k", &asked.spell_k));
    TRY(request_integer(request, "spell_d", 1, 60, &spell_days));
    TRY(request_day(request, "spell_from", &asked.spell_from));
    asked.weeks = (int)weeks;
    asked.spell_days = (int)spell_days;
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
