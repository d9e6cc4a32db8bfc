/* Warmth as a choice, as JSON. */
#include "json/heat.h"

#include <jansson.h>
#include <math.h>

#include "base/date.h"
#include "json/text.h"

const char *heat_place_name(HeatPlace place)
{
    switch (place) {
    case HEAT_ANYWHERE:
        return "anywhere";
    case HEAT_HOT_SIDE:
        return "hot side";
    case HEAT_COOL_SIDE:
        return "cool side";
    case HEAT_CHOOSE:
        return "choose";
    }
    return "";
}

static void put(json_t *object, const char *key, json_t *value)
{
    json_object_set_new(object, key, value);
}

static json_t *number_json(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *day_json(int32_t day)
{
    char text[DATE_TEXT_SIZE];
    if (day == DATE_NEVER || day == DATE_ALWAYS) {
        return json_null();
    }
    date_format(day, text);
    return json_string(text);
}

static json_t *floor_json(const HeatFloor *floor)
{
    json_t *object = json_object();
    put(object, "floor_degc", number_json(floor->floor_degc));
    put(object, "coldest_degc", number_json(floor->coldest_degc));
    put(object, "under_d", json_integer(floor->under_d));
    put(object, "heater_kwh", number_json(floor->heater_kwh));
    put(object, "heater_cost", number_json(floor->heater_cost));
    put(object, "feed_kg", number_json(floor->feed_kg));
    put(object, "feed_cost", number_json(floor->feed_cost));
    put(object, "gained_kg", number_json(floor->gained_kg));
    put(object, "fish_value", number_json(floor->fish_value));
    put(object, "margin", number_json(floor->margin));
    return object;
}

static json_t *batches_json(const HeatPage *page)
{
    json_t *list = json_array();
    for (int i = 0; i < page->plants->batch_count; i++) {
        const HeatBatch *batch = &page->plants->batches[i];
        json_t *object = json_object();
        put(object, "id", json_string(batch->id));
        put(object, "way", json_string(page->farm->ways[batch->way].id));
        put(object, "bed", json_string(page->farm->beds[batch->bed].id));
        put(object, "set_on", day_json(batch->set_day));
        put(object, "usual_trouble", json_string(batch->usual));
        put(object, "trouble", json_string(batch->trouble));
        put(object, "usual_units", number_json(batch->usual_units));
        put(object, "units", number_json(batch->units));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *ways_json(const HeatPage *page)
{
    json_t *list = json_array();
    int tunnels = page->farm->tunnels_count;
    for (int w = 0; w < page->farm->ways_count; w++) {
        json_t *sides = json_array();
        for (int t = 0; t < tunnels; t++) {
            const HeatSide *side = &page->plants->sides[w * tunnels + t];
            json_t *object = json_object();
            put(object, "tunnel", json_string(page->farm->tunnels[t].id));
            put(object, "hot_weeks", json_integer(side->hot_weeks));
            put(object, "cool_weeks",
                side->cool_weeks < 0 ? json_null()
                                     : json_integer(side->cool_weeks));
            json_array_append_new(sides, object);
        }
        json_t *way = json_object();
        put(way, "way", json_string(page->farm->ways[w].id));
        put(way, "place",
            json_string(heat_place_name(page->plants->places[w])));
        put(way, "tunnels", sides);
        json_array_append_new(list, way);
    }
    return list;
}

static json_t *shades_json(const HeatPage *page)
{
    json_t *list = json_array();
    for (int t = 0; t < page->farm->tunnels_count; t++) {
        const HeatShade *shade = &page->plants->shades[t];
        json_t *object = json_object();
        put(object, "tunnel", json_string(page->farm->tunnels[t].id));
        put(object, "way",
            shade->way < 0 ? json_null()
                           : json_string(page->farm->ways[shade->way].id));
        put(object, "from", day_json(shade->from));
        put(object, "until", day_json(shade->until));
        put(object, "most_degc", number_json(shade->most_degc));
        put(object, "light_mol", number_json(shade->light_mol));
        put(object, "is_shaded", json_boolean(shade->is_shaded));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *months_json(unsigned months)
{
    json_t *list = json_array();
    for (int month = 0; month < HEAT_MONTHS; month++) {
        if (months >> month & 1u) {
            json_array_append_new(list, json_integer(month + 1));
        }
    }
    return list;
}

static json_t *seeds_json(const HeatPage *page)
{
    json_t *list = json_array();
    for (int i = 0; i < page->plants->seed_count; i++) {
        const HeatSeed *seed = &page->plants->seeds[i];
        json_t *object = json_object();
        put(object, "way", json_string(page->farm->ways[seed->way].id));
        put(object, "most_degc", number_json(seed->most_degc));
        put(object, "hot_months", months_json(seed->hot_months));
        put(object, "noon_months", months_json(seed->noon_months));
        json_array_append_new(list, object);
    }
    return list;
}

const char *heat_to_json(const HeatPage *page, Arena *arena)
{
    json_t *root = json_object();
    put(root, "from", day_json(page->first_week));
    put(root, "weeks", json_integer(page->weeks));
    json_t *notices = json_array();
    for (int i = 0; i < page->notice_count; i++) {
        json_array_append_new(notices, json_string(page->notices[i]));
    }
    put(root, "notices", notices);
    json_t *floors = json_array();
    for (int i = 0; i < page->floor_count; i++) {
        json_array_append_new(floors, floor_json(&page->floors[i]));
    }
    put(root, "floors", floors);
    json_t *spell = json_object();
    put(spell, "from", day_json(page->plants->spell.from_day));
    put(spell, "days", json_integer(page->plants->spell.days));
    put(spell, "warmer_k", number_json(page->plants->spell.warmer_k));
    put(root, "spell", spell);
    put(root, "batches", batches_json(page));
    put(root, "ways", ways_json(page));
    put(root, "shades", shades_json(page));
    put(root, "seeds", seeds_json(page));
    return json_text_take(root, arena);
}
