/* Lots of produce on a day. */
#include "desk/lots.h"

#include <string.h>

#include "base/date.h"
#include "desk/any_farm.h"
#include "json/lots.h"

/* Names that are in the tables; a lot's is looked for later. */
static Err check_names(const LotsQuestion *question, const Farm *farm,
                       Arena *arena)
{
    AnyIds ways, beds, buyers;
    ANY_IDS_OF(farm, arena, "way", ways, &ways);
    ANY_IDS_OF(farm, arena, "bed", beds, &beds);
    ANY_IDS_OF(farm, arena, "buyer", buyers, &buyers);
    int32_t row = 0;
    if (question->way) {
        TRY(any_farm_find(&ways, question->way, arena, &row));
    }
    if (question->place) {
        TRY(any_farm_find(&beds, question->place, arena, &row));
    }
    return question->buyer
               ? any_farm_find(&buyers, question->buyer, arena, &row)
               : ERR_NONE;
}

static bool went_to(const Lot *lot, const char *buyer)
{
    for (int32_t i = 0; i < lot->to_count; i++) {
        if (strcmp(lot->to[i].buyer, buyer) == 0) {
            return true;
        }
    }
    return false;
}

static bool is_any_asked(const LotsQuestion *question)
{
    return question->lot || question->way || question->place ||
           question->buyer || question->from != DATE_ALWAYS ||
           question->until != DATE_NEVER;
}

static bool is_asked(const LotsQuestion *question, const Farm *farm,
                     const Lot *lot)
{
    if (!is_any_asked(question)) {
        return lot->left > 0.0;
    }
    return (!question->lot || strcmp(lot->id, question->lot) == 0) &&
           (!question->way ||
            strcmp(farm->ways[lot->way].id, question->way) == 0) &&
           (!question->place || strcmp(lot->place, question->place) == 0) &&
           (!question->buyer || went_to(lot, question->buyer)) &&
           lot->picked_on >= question->from &&
           lot->picked_on <= question->until;
}

Err lots_answer(const LotsQuestion *question, Arena *arena, LotsAnswer *out)
{
    LotsAnswer answer = {.is_any_asked = is_any_asked(question)};
    TRY(today_open(question->dir, question->today, arena, &answer.today));
    const Today *today = &answer.today;
    /* The plan whole: what was done of it is no longer in the farm of today. */
    const Farm *farm = today->opening;
    TRY(check_names(question, farm, arena));
    Tolds tolds;
    TRY(today_told(today, today->day - LOTS_BACK_D, today->day, LOTS_KINDS,
                   &tolds));
    LotsAsk ask = {farm, today->book, &tolds, today->day};
    lots_make(&ask, arena, &answer.lots);
    answer.shown = ARENA_ARRAY(arena, Lot, answer.lots.count);
    for (int32_t i = 0; i < answer.lots.count; i++) {
        if (is_asked(question, farm, &answer.lots.lots[i])) {
            Lot *lot = &answer.shown[answer.shown_count++];
            *lot = answer.lots.lots[i];
            lots_trace(&ask, arena, lot);
        }
    }
    if (question->lot && answer.shown_count == 0) {
        return err_make(ERR_NOT_FOUND,
                        "no pick of the last two years has the lot \"%.60s\"",
                        question->lot);
    }
    *out = answer;
    return ERR_NONE;
}

const char *lots_answer_json(const LotsAnswer *answer, Arena *arena)
{
    LotsJson page = {.farm = answer->today.opening,
                     .lots = &answer->lots,
                     .shown = answer->shown,
                     .shown_count = answer->shown_count,
                     .day = answer->today.day,
                     .title = answer->today.title,
                     .notices = answer->today.notices,
                     .notice_count = answer->today.notice_count};
    return lots_to_json(&page, arena);
}
