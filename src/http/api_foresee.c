/* GET /api/foresee: what the weeks bring. */
#include <math.h>

#include "desk/foresee.h"
#include "http/routes.h"
#include "json/foresee.h"

ROUTE_QUESTION(ForeseeQuestion);

Err api_foresee_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    ForeseeQuestion asked = {.dir = request->dir,
                             .way = request_text(request, "way"),
                             .tank = request_text(request, "tank"),
                             .loop = request_text(request, "loop")};
    int64_t weeks = FORESEE_WEEKS_USUAL;
    TRY(request_today(request, &asked.day));
    TRY(request_integer(request, "weeks", 1, FORESIGHT_WEEKS_MOST, &weeks));
    TRY(request_number(request, "over_g", &asked.sale_g));
    if (!isnan(asked.sale_g) && !(asked.sale_g > 0.0)) {
        return err_make(ERR_USAGE, "over_g=%g: a weight in grams over 0",
                        asked.sale_g);
    }
    asked.weeks = (int)weeks;
    *(ForeseeQuestion *)question = asked;
    return ERR_NONE;
}

Err api_foresee_answer(const void *question, Arena *arena, Reply *out)
{
    ForeseeAnswer answer;
    TRY(foresee_answer(question, arena, &answer));
    *out = reply_json(foresee_to_json(&answer.foresight, answer.notices,
                                      answer.notice_count, arena));
    return ERR_NONE;
}
