/* GET /api/heat: what warmth costs and brings. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "desk/heat.h"
#include "http/routes.h"
#include "json/heat.h"

ROUTE_QUESTION(HeatQuestion);

/* "16,18,20" */
static Err read_floors(const Request *request, Arena *arena, HeatQuestion *out)
{
    const char *text = request_text(request, "floors");
    if (!text) {
        return ERR_NONE;
    }
    out->floor_count = 0;
    for (;;) {
        size_t length = strcspn(text, ",");
        if (out->floor_count == HEAT_FLOORS_MOST) {
            return err_make(ERR_USAGE, "floors: up to %d numbers",
                            HEAT_FLOORS_MOST);
        }
        TRY(text_to_f64(arena_copy_bytes(arena, text, length),
                        &out->floors_degc[out->floor_count++]));
        if (!text[length]) {
            return ERR_NONE;
        }
        text += length + 1;
    }
}

Err api_heat_decode(const Request *request, Arena *arena, void *question)
{
    HeatQuestion asked = heat_usual_question(request->dir);
    int64_t weeks = asked.weeks;
    int64_t spell_days = asked.spell_days;
    double spell_k = NAN;
    TRY(request_today(request, &asked.day));
    TRY(request_integer(request, "weeks", 4, 104, &weeks));
    TRY(request_integer(request, "spell_d", 1, 60, &spell_days));
    TRY(request_number(request, "spell_k", &spell_k));
    TRY(request_day(request, "spell_from", &asked.spell_from));
    TRY(read_floors(request, arena, &asked));
    asked.weeks = (int)weeks;
    asked.spell_days = (int)spell_days;
    asked.spell_k = isnan(spell_k) ? asked.spell_k : spell_k;
    *(HeatQuestion *)question = asked;
    return ERR_NONE;
}

Err api_heat_answer(const void *question, Arena *arena, Reply *out)
{
    HeatAnswer answer;
    TRY(heat_answer(question, arena, &answer));
    HeatPage page = {answer.farm,    answer.first_week,  answer.weeks,
                     answer.floors,  answer.floor_count, &answer.plants,
                     answer.notices, answer.notice_count};
    *out = reply_json(heat_to_json(&page, arena));
    return ERR_NONE;
}
