/* GET /api/working: how a shown figure was made. */
#include "desk/working.h"
#include "http/routes.h"

ROUTE_QUESTION(WorkingQuestion);

Err api_working_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    WorkingQuestion asked = {
        .dir = request->dir,
        .key = {.of = request_text(request, "of"),
                .id = request_text(request, "id"),
                .figure = request_text(request, "figure")}};
    TRY(request_today(request, &asked.today));
    *(WorkingQuestion *)question = asked;
    return ERR_NONE;
}

Err api_working_answer(const void *question, Arena *arena, Reply *out)
{
    WorkingAnswer answer;
    TRY(working_answer(question, arena, &answer));
    *out = reply_json(working_answer_json(&answer, arena));
    return ERR_NONE;
}
