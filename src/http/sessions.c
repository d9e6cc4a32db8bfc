/* Who a session's cookie belongs to, and how often one may try. */
#include "http/sessions.h"

#include <string.h>

#include "desk/people.h"

enum { TRIES_MOST = 10, TRY_BACK_MS = 15 * 1000 };

/* Takes one try of an address; false where it has none left. */
static bool take_try(Address *addresses, const unsigned char *address,
                     int64_t now_ms)
{
    Address *found = NULL;
    Address *stalest = &addresses[0];
    for (int i = 0; i < ADDRESSES_MOST && !found; i++) {
        Address *one = &addresses[i];
        bool is_it =
            one->is_used && memcmp(one->bytes, address, ADDRESS_SIZE) == 0;
        found = is_it ? one : NULL;
        stalest = !one->is_used || one->at_ms < stalest->at_ms ? one : stalest;
    }
    if (!found) {
        found = stalest;
        *found =
            (Address){.is_used = true, .tries = TRIES_MOST, .at_ms = now_ms};
        memcpy(found->bytes, address, ADDRESS_SIZE);
    }
    found->tries += (double)(now_ms - found->at_ms) / TRY_BACK_MS;
    found->tries = found->tries < TRIES_MOST ? found->tries : TRIES_MOST;
    found->at_ms = now_ms;
    if (found->tries < 1.0) {
        return false;
    }
    found->tries -= 1.0;
    return true;
}

bool sessions_may_login(Sessions *sessions, const unsigned char *address,
                        int64_t now_ms)
{
    return take_try(sessions->logins, address, now_ms);
}

static void drop(Session *session)
{
    arena_release(&session->arena);
    *session = (Session){.asked_ms = 0};
}

void sessions_forget(Sessions *sessions, const char *token)
{
    for (int i = 0; i < SESSIONS_MOST; i++) {
        if (*token && strcmp(sessions->of[i].token, token) == 0) {
            drop(&sessions->of[i]);
        }
    }
}

void sessions_release(Sessions *sessions)
{
    for (int i = 0; i < SESSIONS_MOST; i++) {
        drop(&sessions->of[i]);
    }
}

static Session *find(Sessions *sessions, const char *token)
{
    for (int i = 0; i < SESSIONS_MOST; i++) {
        if (strcmp(sessions->of[i].token, token) == 0) {
            return &sessions->of[i];
        }
    }
    return NULL;
}

static Session *stalest(Sessions *sessions)
{
    Session *found = &sessions->of[0];
    for (int i = 1; i < SESSIONS_MOST; i++) {
        if (sessions->of[i].asked_ms < found->asked_ms) {
            found = &sessions->of[i];
        }
    }
    return found;
}

/* Asks the store and keeps what it says. */
static Err ask_store(Session *session, const SessionAsk *ask)
{
    drop(session);
    Person person;
    Err err = people_session(ask->dir, ask->token, ask->now_s, &session->arena,
                             &person);
    if (err.kind != ERR_OK && err.kind != ERR_NOT_FOUND) {
        return err;
    }
    memcpy(session->token, ask->token, PEOPLE_TOKEN_SIZE);
    session->asked_ms = ask->now_ms;
    session->requester = (Requester){.who = "",
                                     .role = ROLE_ANYONE,
                                     .hand = "",
                                     .language = "",
                                     .session = session->token};
    if (err.kind == ERR_OK) {
        session->requester.who = person.name;
        session->requester.role = person.role;
        session->requester.hand = person.hand;
        session->requester.language = person.language;
        session->requester.is_us_units = person.is_us_units;
    }
    return ERR_NONE;
}

Err sessions_find(Sessions *sessions, const SessionAsk *ask, Requester *out)
{
    *out = (Requester){.who = "",
                       .role = ROLE_ANYONE,
                       .hand = "",
                       .language = "",
                       .session = ""};
    if (strlen(ask->token) != PEOPLE_TOKEN_SIZE - 1) {
        return ERR_NONE;
    }
    Session *session = find(sessions, ask->token);
    bool is_known = session && session->requester.role != ROLE_ANYONE;
    if (session && ask->now_ms - session->asked_ms < SESSION_FRESH_MS) {
        *out = session->requester;
        return ERR_NONE;
    }
    if (!is_known &&
        !take_try(sessions->strangers, ask->address, ask->now_ms)) {
        return err_make(ERR_LIMIT, "too many unknown sessions; log in");
    }
    session = session ? session : stalest(sessions);
    TRY(ask_store(session, ask));
    *out = session->requester;
    return ERR_NONE;
}
