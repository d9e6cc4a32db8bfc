/* GET /api/tables, GET and PUT /api/table: the farm's description by forms. */
#include "desk/table_edit.h"
#include "farm/read.h"
#include "http/routes.h"

typedef struct TableQuestion {
    const char *dir;
    TableId table;
    TableSheet sheet; /* of a write */
    int32_t today;
    Requester by;
    const char *device;
} TableQuestion;
ROUTE_QUESTION(TableQuestion);

Err api_tables_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    *(TableQuestion *)question = (TableQuestion){.dir = request->dir};
    return ERR_NONE;
}

Err api_tables_answer(const void *question, Arena *arena, Reply *out)
{
    const TableQuestion *asked = question;
    TableLine lines[TABLE_COUNT];
    TRY(table_list(asked->dir, arena, lines));
    *out = reply_json(json_table_list(lines, TABLE_COUNT, arena));
    return ERR_NONE;
}

Err api_table_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    const char *name = request_text(request, "name");
    TableQuestion asked = {.dir = request->dir,
                           .table = farm_table_find(name),
                           .today = request->today,
                           .by = request->requester,
                           .device = request->device};
    if (asked.table == TABLE_COUNT) {
        return err_make(ERR_NOT_FOUND, "there is no table \"%.60s\"", name);
    }
    *(TableQuestion *)question = asked;
    return ERR_NONE;
}

Err api_table_answer(const void *question, Arena *arena, Reply *out)
{
    const TableQuestion *asked = question;
    TableSheet sheet;
    TRY(table_read(asked->dir, asked->table, arena, &sheet));
    *out = reply_json(json_table_sheet(&sheet, arena));
    return ERR_NONE;
}

Err api_put_table_decode(const Request *request, Arena *arena, void *question)
{
    TableQuestion *asked = question;
    TRY(api_table_decode(request, arena, question));
    if (farm_is_plan_table(asked->table)) {
        return err_make(ERR_USAGE, "the plan's tables are written by accepting "
                                   "a plan");
    }
    return json_table_read(request->body, request->body_length, asked->table,
                           arena, &asked->sheet);
}

Err api_put_table_answer(const void *question, Arena *arena, Reply *out)
{
    enum { CONFLICT = 409, BAD = 400 };
    const TableQuestion *asked = question;
    TableOutcome outcome;
    TableWrite write = {.dir = asked->dir,
                        .wanted = &asked->sheet,
                        .today = asked->today,
                        .who = *asked->by.hand ? asked->by.hand : asked->by.who,
                        .device = asked->device};
    TRY(table_write(&write, arena, &outcome));
    switch (outcome.fate) {
    case TABLE_WRITTEN:
        *out = reply_json(
            json_table_written(&outcome.sheet, &outcome.faults, arena));
        break;
    case TABLE_REFUSED:
        *out = reply_json(
            json_table_refused(&outcome.sheet, &outcome.faults, arena));
        out->status = BAD;
        break;
    case TABLE_CONFLICT:
        *out = reply_json(
            json_table_conflict(&outcome.sheet, &asked->sheet, arena));
        out->status = CONFLICT;
        break;
    }
    return ERR_NONE;
}
