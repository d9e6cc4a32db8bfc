/* GET and POST /api/journal, GET /api/settle, GET and POST /api/blob: what was
 * told. */
#include <string.h>

#include "desk/blob.h"
#include "desk/journal.h"
#include "desk/note.h"
#include "http/guard.h"
#include "http/routes.h"
#include "json/blob.h"
#include "json/journal.h"

enum { PAGE_ENTRIES = 100, PAGE_MOST = 5000, CREATED = 201 };

typedef struct JournalQuestion {
    const char *dir;
    StoreFilter filter;
} JournalQuestion;
ROUTE_QUESTION(JournalQuestion);

/* Whom entries of this person name: the one of hands.csv where that is known.
 */
static const char *teller(const Requester *by)
{
    return *by->hand ? by->hand : by->who;
}

/* A hand sees the own entries, everybody else all. */
static void keep_to_own(const Requester *by, StoreFilter *filter)
{
    if (by->is_lan && by->role == ROLE_HAND) {
        filter->who = teller(by);
    }
}

Err api_journal_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    JournalQuestion asked = {.dir = request->dir, .filter = store_all()};
    StoreFilter *filter = &asked.filter;
    int64_t limit = PAGE_ENTRIES;
    const char *kind = request_text(request, "kind");
    TRY(request_day(request, "from", &filter->from));
    TRY(request_day(request, "until", &filter->until));
    TRY(request_integer(request, "limit", 1, PAGE_MOST, &limit));
    TRY(request_integer(request, "before", 1, INT64_C(1) << 52,
                        &filter->before));
    TRY(request_flag(request, "without_struck", &filter->without_struck));
    if (kind) {
        ToldKind found = TOLD_SEEN;
        TRY(told_kind_find(kind, &found));
        filter->kinds = UINT64_C(1) << found;
    }
    filter->limit = (int32_t)limit;
    filter->place = request_text(request, "place");
    filter->who = request_text(request, "who");
    filter->batch = request_text(request, "batch");
    filter->job = request_text(request, "job");
    filter->uid = request_text(request, "uid");
    keep_to_own(&request->requester, filter);
    *(JournalQuestion *)question = asked;
    return ERR_NONE;
}

Err api_journal_answer(const void *question, Arena *arena, Reply *out)
{
    const JournalQuestion *asked = question;
    JournalPage page;
    TRY(journal_page(asked->dir, &asked->filter, arena, &page));
    *out = reply_json(
        journal_page_to_json(&page.tolds, page.newest, page.has_more, arena));
    return ERR_NONE;
}

/* ---- Telling --------------------------------------------------------------
 */

typedef struct TellQuestion {
    NoteQuestion note;
    Requester by;
} TellQuestion;
ROUTE_QUESTION(TellQuestion);

Err api_post_journal_decode(const Request *request, Arena *arena,
                            void *question)
{
    Tolds tolds;
    const Requester *by = &request->requester;
    TRY(tolds_from_json(request->body, request->body_length, DATE_ALWAYS, arena,
                        &tolds));
    if (tolds.count == 0) {
        return err_make(ERR_INPUT, "entries: none came");
    }
    for (int32_t i = 0; i < tolds.count && by->is_lan; i++) {
        tolds.items[i].who = teller(by); /* nobody tells in another's name */
    }
    *(TellQuestion *)question =
        (TellQuestion){.note = {.dir = request->dir,
                                .tolds = tolds.items,
                                .count = tolds.count,
                                .today = request->today,
                                .device = request->device},
                       .by = *by};
    return ERR_NONE;
}

/* A hand strikes through only what he told himself. */
static Err check_own(const TellQuestion *asked, Arena *arena)
{
    for (int32_t i = 0; i < asked->note.count; i++) {
        const Told *told = &asked->note.tolds[i];
        if (told->kind != TOLD_STRUCK) {
            continue;
        }
        StoreFilter filter = store_all();
        JournalPage page;
        filter.before = told->strikes + 1;
        filter.after = told->strikes - 1;
        filter.who = teller(&asked->by);
        TRY(journal_page(asked->note.dir, &filter, arena, &page));
        if (page.tolds.count == 0) {
            return err_make(ERR_USAGE,
                            "entry %lld is somebody else's: ask a grower to "
                            "strike it through",
                            (long long)told->strikes);
        }
    }
    return ERR_NONE;
}

Err api_post_journal_answer(const void *question, Arena *arena, Reply *out)
{
    const TellQuestion *asked = question;
    if (asked->by.is_lan && asked->by.role == ROLE_HAND) {
        TRY(check_own(asked, arena));
    }
    NoteAnswer answer;
    TRY(note_add(&asked->note, arena, &answer));
    bool *is_new = ARENA_ARRAY(arena, bool, answer.tolds.count);
    for (int32_t i = 0; i < answer.tolds.count; i++) {
        is_new[i] = answer.added[i].is_new;
    }
    JournalAddedJson json = {&answer.tolds, is_new, answer.doubts,
                             answer.doubt_count};
    *out = reply_json(journal_added_to_json(&json, arena));
    return ERR_NONE;
}

/* ---- What is to settle ----------------------------------------------------
 */

typedef struct SettleQuestion {
    const char *dir;
    int32_t today;
} SettleQuestion;
ROUTE_QUESTION(SettleQuestion);

Err api_settle_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    SettleQuestion asked = {.dir = request->dir};
    TRY(request_today(request, &asked.today));
    *(SettleQuestion *)question = asked;
    return ERR_NONE;
}

Err api_settle_answer(const void *question, Arena *arena, Reply *out)
{
    const SettleQuestion *asked = question;
    JournalSettle answer;
    TRY(journal_settle(asked->dir, asked->today, arena, &answer));
    JournalSettleJson json = {answer.today,           answer.unsettled,
                              answer.unsettled_count, answer.doubts,
                              answer.doubt_count,     &answer.fish};
    *out = reply_json(journal_settle_to_json(&json, arena));
    return ERR_NONE;
}

/* ---- Photos and voice notes ------------------------------------------------
 */

typedef struct BlobQuestion {
    const char *dir;
    const char *sha256;
    const char *type;
    const char *bytes;
    size_t length;
} BlobQuestion;
ROUTE_QUESTION(BlobQuestion);

Err api_blob_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(BlobQuestion *)question = (BlobQuestion){
        .dir = request->dir, .sha256 = request_text(request, "sha256")};
    return ERR_NONE;
}

Err api_blob_answer(const void *question, Arena *arena, Reply *out)
{
    const BlobQuestion *asked = question;
    StoreBlob blob;
    TRY(blob_find(asked->dir, asked->sha256, arena, &blob));
    *out =
        (Reply){.status = 200,
                .type = guard_is_media(blob.type) ? blob.type
                                                  : "application/octet-stream",
                .body = blob.bytes,
                .length = blob.length};
    return ERR_NONE;
}

Err api_post_blob_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    const char *type = request->content_type;
    if (!guard_is_media(type)) {
        return err_make(ERR_USAGE, "Content-Type: a picture or a sound");
    }
    *(BlobQuestion *)question = (BlobQuestion){
        .dir = request->dir,
        .type = arena_copy_bytes(arena, type, strcspn(type, "; ")),
        .bytes = request->body,
        .length = request->body_length};
    return ERR_NONE;
}

Err api_post_blob_answer(const void *question, Arena *arena, Reply *out)
{
    const BlobQuestion *asked = question;
    const char *sha256 = NULL;
    TRY(blob_keep(asked->dir, asked->type, asked->bytes, asked->length, arena,
                  &sha256));
    *out = reply_json(json_blob(sha256, asked->type, arena));
    out->status = CREATED;
    return ERR_NONE;
}
