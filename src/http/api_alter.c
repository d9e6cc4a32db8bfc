/* POST /api/alter: a plan changed by hand; GET /api/compare and /api/plans: two
 * plans side by side, and which there are. */
#include "desk/alter.h"
#include "http/routes.h"
#include "json/compare.h"

ROUTE_QUESTION(AlterAsk);
ROUTE_QUESTION(CompareAsk);

Err api_alter_decode(const Request *request, Arena *arena, void *question)
{
    AlterBody body;
    TRY(json_alter_read(request->body, request->body_length, arena, &body));
    AlterAsk ask = {.dir = request->dir,
                    .changes = body.changes,
                    .count = body.count,
                    .is_kept = body.is_kept,
                    .is_accepted = body.is_accepted,
                    .is_even_so = body.is_even_so,
                    .mark = body.mark};
    TRY(plan_name_read(body.plan, &ask.on));
    TRY(request_today(request, &ask.today));
    *(AlterAsk *)question = ask;
    return ERR_NONE;
}

Err api_alter_answer(const void *question, Arena *arena, Reply *out)
{
    AlterAnswer *answer = ARENA_NEW(arena, AlterAnswer);
    TRY(alter_plan(question, arena, answer));
    *out = reply_json(alter_json(answer, arena));
    return ERR_NONE;
}

Err api_compare_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    CompareAsk ask = {
        .dir = request->dir, .one = PLAN_BEFORE, .two = PLAN_ACCEPTED};
    const char *one = request_text(request, "one");
    const char *two = request_text(request, "two");
    if (one) {
        TRY(plan_name_read(one, &ask.one));
    }
    if (two) {
        TRY(plan_name_read(two, &ask.two));
    }
    TRY(request_today(request, &ask.today));
    *(CompareAsk *)question = ask;
    return ERR_NONE;
}

Err api_compare_answer(const void *question, Arena *arena, Reply *out)
{
    CompareAnswer *answer = ARENA_NEW(arena, CompareAnswer);
    TRY(compare_plans(question, arena, answer));
    *out = reply_json(compare_json(answer, arena));
    return ERR_NONE;
}

typedef struct PlansAsk {
    const char *dir;
} PlansAsk;
ROUTE_QUESTION(PlansAsk);

Err api_plans_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(PlansAsk *)question = (PlansAsk){request->dir};
    return ERR_NONE;
}

Err api_plans_answer(const void *question, Arena *arena, Reply *out)
{
    const char *text = NULL;
    TRY(plans_json(((const PlansAsk *)question)->dir, arena, &text));
    *out = reply_json(text);
    return ERR_NONE;
}
