/* POST /api/login and /api/logout, GET and POST /api/me, GET /api/people. */
#include <time.h>

#include "desk/people.h"
#include "http/routes.h"
#include "json/people.h"

typedef struct LoginQuestion {
    const char *dir;
    const char *name;
    const char *passphrase;
    const char *device;
} LoginQuestion;
ROUTE_QUESTION(LoginQuestion);

Err api_login_decode(const Request *request, Arena *arena, void *question)
{
    LoginQuestion *asked = question;
    asked->dir = request->dir;
    asked->device = request->device;
    return json_login_read(request->body, request->body_length, arena,
                           &asked->name, &asked->passphrase);
}

Err api_login_answer(const void *question, Arena *arena, Reply *out)
{
    enum { UNKNOWN = 401 };
    const LoginQuestion *asked = question;
    char *token = arena_alloc(arena, PEOPLE_TOKEN_SIZE, 1);
    int64_t now_s = (int64_t)time(NULL);
    Person person;
    Err err = people_login(asked->dir, asked->name, asked->passphrase,
                           asked->device, now_s, arena, token);
    if (err.kind == ERR_NOT_FOUND) {
        *out = reply_error(&err, arena);
        out->status = UNKNOWN;
        return ERR_NONE;
    }
    TRY(err);
    TRY(people_session(asked->dir, token, now_s, arena, &person));
    JsonPerson me = {.name = person.name,
                     .id = person.hand,
                     .role = people_role_word(person.role),
                     .language = person.language,
                     .is_us_units = person.is_us_units};
    *out = reply_json(json_me(&me, false, true, arena));
    out->session = token;
    return ERR_NONE;
}

typedef struct MeQuestion {
    const char *dir;
    Requester me;
    const char *language;
    bool is_us_units;
} MeQuestion;
ROUTE_QUESTION(MeQuestion);

Err api_me_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(MeQuestion *)question =
        (MeQuestion){.dir = request->dir, .me = request->requester};
    return ERR_NONE;
}

static JsonPerson person_of(const Requester *me)
{
    return (JsonPerson){.name = me->who,
                        .id = me->hand,
                        .role = people_role_word(me->role),
                        .language = me->language,
                        .is_us_units = me->is_us_units};
}

Err api_me_answer(const void *question, Arena *arena, Reply *out)
{
    const MeQuestion *asked = question;
    JsonPerson me = person_of(&asked->me);
    bool needs_login = asked->me.is_lan && asked->me.role == ROLE_ANYONE;
    *out = reply_json(json_me(&me, needs_login, asked->me.is_lan, arena));
    return ERR_NONE;
}

Err api_post_me_decode(const Request *request, Arena *arena, void *question)
{
    MeQuestion *asked = question;
    TRY(api_me_decode(request, arena, question));
    return json_prefer_read(request->body, request->body_length, arena,
                            &asked->language, &asked->is_us_units);
}

/* Without people there is nobody to remember it for: the browser does. */
Err api_post_me_answer(const void *question, Arena *arena, Reply *out)
{
    const MeQuestion *asked = question;
    if (*asked->me.who) {
        TRY(people_prefer(asked->dir, asked->me.who, asked->language,
                          asked->is_us_units, arena));
    }
    JsonPerson me = person_of(&asked->me);
    me.language = asked->language;
    me.is_us_units = asked->is_us_units;
    *out = reply_json(json_me(&me, false, asked->me.is_lan, arena));
    return ERR_NONE;
}

Err api_logout_decode(const Request *request, Arena *arena, void *question)
{
    TRY(api_me_decode(request, arena, question));
    return json_empty_read(request->body, request->body_length);
}

Err api_logout_answer(const void *question, Arena *arena, Reply *out)
{
    const MeQuestion *asked = question;
    TRY(people_logout(asked->dir, asked->me.session, arena));
    *out = reply_json("{}\n");
    out->session = "";
    return ERR_NONE;
}

Err api_people_decode(const Request *request, Arena *arena, void *question)
{
    return api_me_decode(request, arena, question);
}

Err api_people_answer(const void *question, Arena *arena, Reply *out)
{
    const MeQuestion *asked = question;
    People people;
    TRY(people_read(asked->dir, arena, &people));
    JsonPerson *rows = ARENA_ARRAY(arena, JsonPerson, people.count);
    for (int32_t i = 0; i < people.count; i++) {
        const Person *person = &people.items[i];
        rows[i] = (JsonPerson){.name = person->name,
                               .id = person->hand,
                               .role = people_role_word(person->role),
                               .language = person->language,
                               .is_us_units = person->is_us_units,
                               .is_gone = person->is_gone};
    }
    *out = reply_json(json_people(rows, people.count, arena));
    return ERR_NONE;
}
