/* GET /api/beds, /api/bed, /api/fish, /api/orders, /api/sheets and /print/..:
 * the farm of a day. */
#include <math.h>
#include <string.h>

#include "desk/beds.h"
#include "desk/fish.h"
#include "desk/lots.h"
#include "desk/orders.h"
#include "desk/sheets.h"
#include "http/routes.h"

ROUTE_QUESTION(BedsQuestion);
ROUTE_QUESTION(FishQuestion);
ROUTE_QUESTION(LotsQuestion);
ROUTE_QUESTION(OrdersQuestion);
ROUTE_QUESTION(SheetsQuestion);

/* ---- Beds -----------------------------------------------------------------
 */

Err api_beds_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    BedsQuestion asked = {.dir = request->dir,
                          .bed = request_text(request, "id")};
    TRY(request_today(request, &asked.today));
    *(BedsQuestion *)question = asked;
    return ERR_NONE;
}

Err api_beds_answer(const void *question, Arena *arena, Reply *out)
{
    BedsAnswer answer;
    TRY(beds_answer(question, arena, &answer));
    *out = reply_json(beds_answer_json(&answer, arena));
    return ERR_NONE;
}

Err api_bed_decode(const Request *request, Arena *arena, void *question)
{
    return api_beds_decode(request, arena, question);
}

Err api_bed_answer(const void *question, Arena *arena, Reply *out)
{
    return api_beds_answer(question, arena, out);
}

/* ---- Fish -----------------------------------------------------------------
 */

static Err read_weight(const Request *request, const char *key, double *out)
{
    const double most_g = 20000.0;
    TRY(request_number(request, key, out));
    bool is_good = isnan(*out) || (*out > 0.0 && *out <= most_g);
    return is_good ? ERR_NONE
                   : err_make(ERR_USAGE, "%s: a weight in g, up to 20000", key);
}

Err api_fish_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    FishQuestion asked = {.dir = request->dir,
                          .tank = request_text(request, "tank"),
                          .to = request_text(request, "to")};
    TRY(request_today(request, &asked.today));
    TRY(read_weight(request, "sale_g", &asked.sale_g));
    TRY(read_weight(request, "cut_g", &asked.cut_g));
    *(FishQuestion *)question = asked;
    return ERR_NONE;
}

Err api_fish_answer(const void *question, Arena *arena, Reply *out)
{
    FishAnswer answer;
    TRY(fish_answer(question, arena, &answer));
    *out = reply_json(fish_answer_json(&answer, arena));
    return ERR_NONE;
}

/* ---- Orders ---------------------------------------------------------------
 */

Err api_orders_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    const double most = 1e6;
    OrdersQuestion asked = {.dir = request->dir,
                            .product = request_text(request, "product")};
    int64_t weeks = ORDERS_WEEKS_USUAL;
    TRY(request_today(request, &asked.today));
    TRY(request_integer(request, "weeks", 1, ORDERS_WEEKS_MOST, &weeks));
    TRY(request_number(request, "have", &asked.have));
    if (!isnan(asked.have) && !(asked.have >= 0.0 && asked.have <= most)) {
        return err_make(ERR_USAGE, "have: units, 0 or more");
    }
    asked.weeks = (int)weeks;
    *(OrdersQuestion *)question = asked;
    return ERR_NONE;
}

Err api_orders_answer(const void *question, Arena *arena, Reply *out)
{
    OrdersAnswer answer;
    TRY(orders_answer(question, arena, &answer));
    *out = reply_json(orders_answer_json(&answer, arena));
    return ERR_NONE;
}

/* ---- Lots -----------------------------------------------------------------
 */

Err api_lots_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    LotsQuestion asked = {.dir = request->dir,
                          .lot = request_text(request, "lot"),
                          .way = request_text(request, "way"),
                          .place = request_text(request, "place"),
                          .buyer = request_text(request, "buyer"),
                          .from = DATE_ALWAYS,
                          .until = DATE_NEVER};
    TRY(request_today(request, &asked.today));
    TRY(request_day(request, "from", &asked.from));
    TRY(request_day(request, "until", &asked.until));
    *(LotsQuestion *)question = asked;
    return ERR_NONE;
}

Err api_lots_answer(const void *question, Arena *arena, Reply *out)
{
    LotsAnswer answer;
    TRY(lots_answer(question, arena, &answer));
    *out = reply_json(lots_answer_json(&answer, arena));
    return ERR_NONE;
}

/* ---- Sheets ---------------------------------------------------------------
 */

#define PRINT_PATH "/print/"

Err api_sheets_decode(const Request *request, Arena *arena, void *question)
{
    (void)arena;
    SheetsQuestion asked = {.dir = request->dir,
                            .today = request->today,
                            .kinds = request_text(request, "kinds")};
    TRY(request_day(request, "day", &asked.today));
    *(SheetsQuestion *)question = asked;
    return ERR_NONE;
}

Err api_sheets_answer(const void *question, Arena *arena, Reply *out)
{
    SheetsAnswer answer;
    TRY(sheets_answer(question, arena, &answer));
    *out = reply_json(sheets_answer_json(&answer, arena));
    return ERR_NONE;
}

/* /print/round and so on: the kind is the path's end; /print/all all. */
Err api_print_decode(const Request *request, Arena *arena, void *question)
{
    const char *kind = request->path + strlen(PRINT_PATH);
    TRY(api_sheets_decode(request, arena, question));
    ((SheetsQuestion *)question)->kinds =
        strcmp(kind, "all") == 0 ? NULL : kind;
    return ERR_NONE;
}

Err api_print_answer(const void *question, Arena *arena, Reply *out)
{
    SheetsAnswer answer;
    TRY(sheets_answer(question, arena, &answer));
    *out = (Reply){.status = 200,
                   .type = "text/html; charset=utf-8",
                   .body = answer.page,
                   .length = strlen(answer.page)};
    return ERR_NONE;
}
