/* Lots of produce as JSON. */
#include "json/lots.h"

#include <jansson.h>

#include "json/page.h"
#include "json/text.h"

static void put_way(const Farm *farm, int32_t way, json_t *object)
{
    const Way *row = &farm->ways[way];
    json_put(object, "way", json_string(row->id));
    json_put(object, "name", json_string(*row->name ? row->name : row->id));
    json_put(object, "unit", json_string(row->unit));
}

static json_t *left_json(const LotsJson *page)
{
    json_t *list = json_array();
    for (int32_t way = 0; way < page->farm->ways_count; way++) {
        double units = lots_left(page->lots, way, false);
        double past = lots_left(page->lots, way, true);
        if (units > 0.0 || past > 0.0) {
            json_t *object = json_object();
            put_way(page->farm, way, object);
            json_put(object, "units", page_number(units));
            json_put(object, "past", page_number(past));
            json_array_append_new(list, object);
        }
    }
    return list;
}

static json_t *lot_json(const Farm *farm, const Lot *lot)
{
    json_t *object = json_object();
    json_put(object, "lot", json_string(lot->id));
    put_way(farm, lot->way, object);
    json_put(object, "place", json_string(lot->place));
    json_put(object, "batch", json_string(lot->batch));
    json_put(object, "who", json_string(lot->who));
    json_put(object, "picked_on", page_day(lot->picked_on));
    json_put(object, "keeps_until", page_day(lot->keeps_until));
    json_put(object, "picked", page_number(lot->picked));
    json_put(object, "left", page_number(lot->left));
    json_put(object, "is_past", json_boolean(lot->is_past));
    json_put(object, "sown_on", page_day(lot->sown_on));
    json_put(object, "seed_lot", json_string(lot->seed_lot));
    json_put(object, "seed_from", json_string(lot->seed_from));
    json_put(object, "hold", page_text(lot->hold));
    json_t *list = json_array();
    for (int32_t i = 0; i < lot->to_count; i++) {
        json_t *to = json_object();
        json_put(to, "buyer", json_string(lot->to[i].buyer));
        json_put(to, "product", json_string(lot->to[i].product));
        json_put(to, "on", page_day(lot->to[i].on));
        json_put(to, "units", page_number(lot->to[i].units));
        json_put(to, "is_assumed", json_boolean(lot->to[i].is_assumed));
        json_array_append_new(list, to);
    }
    json_put(object, "to", list);
    return object;
}

static json_t *lacks_json(const LotsJson *page)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < page->lots->lack_count; i++) {
        const LotLack *lack = &page->lots->lacks[i];
        json_t *object = json_object();
        put_way(page->farm, lack->way, object);
        json_put(object, "buyer", json_string(lack->buyer));
        json_put(object, "on", page_day(lack->on));
        json_put(object, "units", page_number(lack->units));
        json_array_append_new(list, object);
    }
    return list;
}

const char *lots_to_json(const LotsJson *page, Arena *arena)
{
    json_t *lots = json_array();
    for (int32_t i = 0; i < page->shown_count; i++) {
        json_array_append_new(lots, lot_json(page->farm, &page->shown[i]));
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(page->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "notices", page_texts(page->notices, page->notice_count));
    json_put(object, "left", left_json(page));
    json_put(object, "lots", lots);
    json_put(object, "lacks", lacks_json(page));
    return json_text_take(object, arena);
}
