/* GET /api/farm: the farm at a glance. */
#include "desk/farm_page.h"
#include "http/routes.h"
#include "json/farm_page.h"

typedef struct FarmQuestion {
    const char *dir;
    int32_t today;
} FarmQuestion;
ROUTE_QUESTION(FarmQuestion);

Err api_farm_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    FarmQuestion asked = {.dir = request->dir};
    TRY(request_today(request, &asked.today));
    *(FarmQuestion *)question = asked;
    return ERR_NONE;
}

Err api_farm_answer(const void *question, Arena *arena, Reply *out)
{
    const FarmQuestion *asked = question;
    FarmPage page;
    TRY(farm_page_make(asked->dir, asked->today, arena, &page));
    *out = reply_json(json_farm_page(&page, arena));
    return ERR_NONE;
}
