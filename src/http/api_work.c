/* POST, GET and DELETE /api/work, POST /api/plan/accept: what the server does
 * itself (http/works.h). Here a request is read; without a server that is open
 * there is nothing to answer. */
#include "http/api_work.h"
#include "http/routes.h"
#include "json/work.h"

ROUTE_QUESTION(WorkAsk);

Err api_work_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(WorkAsk *)question =
        (WorkAsk){.verb = WORK_LOOK, .id = request_text(request, "id")};
    return ERR_NONE;
}

Err api_delete_work_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(WorkAsk *)question =
        (WorkAsk){.verb = WORK_STOP, .id = request_text(request, "id")};
    return ERR_NONE;
}

Err api_post_work_decode(const Request *request, Arena *arena, void *question)
{
    WorkQuestion work;
    TRY(json_work_read(request->body, request->body_length, arena, &work));
    *(WorkAsk *)question = (WorkAsk){.verb = WORK_BEGIN,
                                     .kind = work.kind,
                                     .body = request->body,
                                     .length = request->body_length};
    return ERR_NONE;
}

Err api_accept_decode(const Request *request, Arena *arena, void *question)
{
    WorkAsk *ask = question;
    *ask = (WorkAsk){.verb = WORK_ACCEPT};
    return json_work_id_read(request->body, request->body_length, arena,
                             &ask->id);
}

static Err no_server(void)
{
    return err_make(ERR_STOPPED, "only a Leat that is open works for others");
}

#define NO_SERVER(name)                                                        \
    Err api_##name##_answer(const void *question, Arena *arena, Reply *out)    \
    {                                                                          \
        (void)question;                                                        \
        (void)arena;                                                           \
        (void)out;                                                             \
        return no_server();                                                    \
    }
NO_SERVER(work)
NO_SERVER(post_work)
NO_SERVER(delete_work)
NO_SERVER(accept)
