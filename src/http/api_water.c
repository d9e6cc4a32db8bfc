/* GET /api/water, /api/reading and /api/dose: the water of a day, what readings
 * mean, and what to put in. */
#include "desk/dose.h"
#include "desk/water.h"
#include "http/routes.h"
#include "json/dose.h"

ROUTE_QUESTION(WaterQuestion);
ROUTE_QUESTION(ReadingQuestion);
ROUTE_QUESTION(DoseQuestion);

Err api_water_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    WaterQuestion asked = {.dir = request->dir,
                           .at = request_text(request, "at"),
                           .tank = request_text(request, "tank")};
    TRY(request_today(request, &asked.today));
    *(WaterQuestion *)question = asked;
    return ERR_NONE;
}

Err api_water_answer(const void *question, Arena *arena, Reply *out)
{
    WaterAnswer answer;
    TRY(water_answer(question, arena, &answer));
    *out = reply_json(water_answer_json(&answer, arena));
    return ERR_NONE;
}

Err api_reading_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    ReadingQuestion asked = {.dir = request->dir,
                             .tank = request_text(request, "tank"),
                             .loop = request_text(request, "loop"),
                             .at = request_text(request, "at")};
    TRY(request_today(request, &asked.today));
    const WordList *words = &FARM_WORDS[WORDS_QUANTITIES];
    for (int q = 0; q < words->count; q++) {
        TRY(request_number(request, words->words[q], &asked.told[q]));
    }
    *(ReadingQuestion *)question = asked;
    return ERR_NONE;
}

Err api_reading_answer(const void *question, Arena *arena, Reply *out)
{
    ReadingAnswer answer;
    TRY(reading_answer(question, arena, &answer));
    *out = reply_json(reading_answer_json(&answer, arena));
    return ERR_NONE;
}

Err api_dose_decode(const Request *request, Arena *arena, void *question)
{
    DoseQuestion asked;
    TRY(api_reading_decode(request, arena, &asked.reading));
    TRY(request_number(request, "target_ph", &asked.target_ph));
    TRY(request_number(request, "yours_g", &asked.yours_g));
    TRY(request_number(request, "yours_ph", &asked.yours_ph));
    TRY(request_number(request, "potassium_mg_l", &asked.potassium_mg_l));
    TRY(request_number(request, "calcium_mg_l", &asked.calcium_mg_l));
    TRY(request_number(request, "iron_rise_mg_l", &asked.iron_mg_l));
    *(DoseQuestion *)question = asked;
    return ERR_NONE;
}

Err api_dose_answer(const void *question, Arena *arena, Reply *out)
{
    DosePlan plan;
    TRY(dose_answer(question, arena, &plan));
    *out = reply_json(dose_to_json(&plan, arena));
    return ERR_NONE;
}
