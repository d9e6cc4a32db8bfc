/* GET /api/card, /print/card and /api/emergency: what to do when something
 * stops, and what can stop. */
#include <string.h>

#include "desk/emergency.h"
#include "desk/farm_page.h"
#include "http/routes.h"
#include "json/emergency.h"
#include "json/farm_page.h"
#include "out/card_page.h"

ROUTE_QUESTION(EmergencyQuestion);

Err api_card_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    EmergencyQuestion asked = {
        .dir = request->dir,
        .pump = request_text(request, "pump"),
        .heater = request_text(request, "heater"),
        .aerator = request_text(request, "aerator"),
        .power = request_text(request, "power"),
        .at = request_text(request, "at"),
        .tank = request_text(request, "tank"),
    };
    TRY(request_today(request, &asked.today));
    TRY(request_number(request, "temp_degc", &asked.temp_degc));
    TRY(request_number(request, "oxygen_mg_l", &asked.oxygen_mg_l));
    TRY(request_number(request, "fed_hours_ago", &asked.fed_hours_ago));
    TRY(request_number(request, "outside_degc", &asked.outside_degc));
    *(EmergencyQuestion *)question = asked;
    return ERR_NONE;
}

Err api_card_answer(const void *question, Arena *arena, Reply *out)
{
    EmergencyAnswer answer;
    TRY(emergency_answer(question, arena, &answer));
    *out =
        reply_json(emergency_to_json(&answer.emergency, &answer.card, arena));
    return ERR_NONE;
}

Err api_card_page_decode(const Request *request, Arena *arena, void *question)
{
    return api_card_decode(request, arena, question);
}

Err api_card_page_answer(const void *question, Arena *arena, Reply *out)
{
    EmergencyAnswer answer;
    TRY(emergency_answer(question, arena, &answer));
    const char *page =
        card_page(&answer.card, answer.farm_name, answer.emergency.notices,
                  answer.emergency.notice_count, arena);
    *out = (Reply){.status = 200,
                   .type = "text/html; charset=utf-8",
                   .body = page,
                   .length = strlen(page)};
    return ERR_NONE;
}

Err api_emergency_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(const char **)question = request->dir;
    return ERR_NONE;
}

Err api_emergency_answer(const void *question, Arena *arena, Reply *out)
{
    FarmPage page;
    TRY(farm_page_make(*(const char *const *)question, DATE_ALWAYS, arena,
                       &page));
    *out = reply_json(json_farm_stops(&page, arena));
    return ERR_NONE;
}
