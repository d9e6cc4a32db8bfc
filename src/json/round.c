/* The round as JSON. */
#include "json/round.h"

#include <jansson.h>
#include <math.h>

#include "base/date.h"
#include "base/tongue.h"
#include "json/page.h"
#include "json/text.h"
#include "json/told.h"

/* ---- entries -------------------------------------------------------------
 */

/* What one tap tells: each item that has an answer and none yet, then that the
 * stop is as usual. */
static json_t *as_usual_json(const Round *round, const RoundStop *stop)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < stop->item_count; i++) {
        const RoundItem *item = &stop->items[i];
        for (int32_t f = 0; f < item->fact_count && !item->told_count; f++) {
            Told fact = item->facts[f];
            fact.stop = stop->id;
            json_array_append_new(list, told_json(&fact));
        }
    }
    Told usual = told_blank(TOLD_AS_USUAL, round->day);
    usual.stop = stop->id;
    json_array_append_new(list, told_json(&usual));
    return list;
}

/* ---- items ---------------------------------------------------------------
 */

static json_t *value_json(const RoundValue *value)
{
    if (!value->key) {
        return json_null();
    }
    json_t *object = json_object();
    json_put(object, "key", json_string(value->key));
    json_put(object, "unit", json_string(value->unit));
    json_put(object, "amount", page_number(value->amount));
    json_put(object, "expected", page_number(value->expected));
    json_put(object, "low", page_number(value->low));
    json_put(object, "high", page_number(value->high));
    json_put(object, "yesterday", page_number(value->yesterday));
    json_put(object, "yesterday_on",
             isnan(value->yesterday) ? json_null()
                                     : page_day(value->yesterday_on));
    json_put(object, "yesterday_from",
             isnan(value->yesterday)
                 ? json_null()
                 : json_string(value->is_yesterday_told ? "told" : "plan"));
    json_put(object, "told", page_number(value->told));
    json_put(object, "odd_below", page_number(value->odd_below));
    json_put(object, "odd_above", page_number(value->odd_above));
    return object;
}

static json_t *places_json(const RoundItem *item)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < item->place_count; i++) {
        const JobPlace *place = &item->places[i];
        json_t *object = json_object();
        json_put(object, "id", json_string(place->id));
        json_put(object, "amount",
                 place->amount > 0.0 ? json_real(place->amount) : json_null());
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *troubles_json(const RoundTrouble *troubles, const Arena *arena)
{
    json_t *list = json_array();
    for (const RoundTrouble *at = troubles; at && at->cause; at++) {
        json_t *object = json_object();
        json_put(object, "cause", json_string(at->cause));
        json_put(object, "text", json_string(say(arena, at->text)));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *item_json(const RoundStop *stop, const RoundItem *item,
                         const Arena *arena)
{
    bool is_usual =
        stop->is_as_usual &&
        (!item->value.key || item->fact_count > 0 || item->kind == ROUND_LOOK);
    json_t *told = json_array();
    for (int32_t i = 0; i < item->told_count; i++) {
        json_array_append_new(told, json_integer(item->told[i]));
    }
    json_t *entries = json_array();
    for (int32_t i = 0; i < item->fact_count; i++) {
        json_array_append_new(entries, told_json(&item->facts[i]));
    }
    json_t *object = json_object();
    json_put(object, "id", json_string(item->id));
    json_put(object, "kind", json_string(round_kind_word(item->kind)));
    json_put(object, "text", json_string(item->text));
    json_put(object, "place", json_string(item->place));
    json_put(object, "places", places_json(item));
    json_put(object, "job", page_text(item->job ? item->job->id : NULL));
    json_put(object, "value", value_json(&item->value));
    json_put(object, "detail", json_string(item->detail));
    json_put(object, "caution", json_string(item->caution));
    json_put(object, "warning", json_string(item->warning));
    json_put(object, "hold", page_text(item->hold));
    json_put(object, "then_amount", page_number(item->then_amount));
    json_put(object, "batch", json_string(item->batch));
    json_put(object, "meals", json_integer(item->meals));
    json_put(object, "troubles", troubles_json(item->troubles, arena));
    json_put(object, "entries", entries);
    json_put(object, "done", json_boolean(item->told_count > 0 || is_usual));
    json_put(object, "told", told);
    return object;
}

static json_t *stop_json(const Round *round, const RoundStop *stop,
                         const Arena *arena)
{
    json_t *items = json_array();
    for (int32_t i = 0; i < stop->item_count; i++) {
        json_array_append_new(items, item_json(stop, &stop->items[i], arena));
    }
    json_t *object = json_object();
    json_put(object, "id", json_string(stop->id));
    json_put(object, "name", json_string(stop->name));
    json_put(object, "hands", json_boolean(stop->is_hands));
    json_put(object, "as_usual", json_boolean(stop->is_as_usual));
    json_put(object, "items", items);
    json_put(object, "as_usual_entries", as_usual_json(round, stop));
    return object;
}

const char *round_to_json(const RoundJson *page, Arena *arena)
{
    const Round *round = page->round;
    json_t *suspects = json_array();
    for (int32_t i = 0; i < round->suspect_count; i++) {
        json_t *suspect = json_object();
        json_put(suspect, "text", json_string(round->suspects[i].text));
        json_put(suspect, "pump", page_text(round->suspects[i].pump));
        json_array_append_new(suspects, suspect);
    }
    json_t *loops = json_array();
    for (int32_t l = 0; l < page->farm->loops_count; l++) {
        json_t *loop = json_object();
        json_put(loop, "id", json_string(page->farm->loops[l].id));
        json_put(loop, "given_g", json_real(round->loops[l].given_g));
        json_put(loop, "wanted_g", page_number(round->loops[l].wanted_g));
        json_array_append_new(loops, loop);
    }
    json_t *stops = json_array();
    for (int32_t i = 0; i < round->stop_count; i++) {
        json_array_append_new(stops, stop_json(round, &round->stops[i], arena));
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(round->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "notices", page_texts(page->notices, page->notice_count));
    json_put(object, "suspects", suspects);
    json_put(object, "taps", json_integer(round_taps(round)));
    json_put(object, "told_today", json_integer(round->told_count));
    json_put(object, "feed_g", json_real(round->feed_g));
    json_put(object, "loops", loops);
    json_put(object, "stops", stops);
    return json_text_take(object, arena);
}
