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
    json_put(object, "floor_degc", number_json(floor->floor_degc));
    json_put(object, "coldest_degc", number_json(floor->coldest_degc));
    json_put(object, "under_d", json_integer(floor->under_d));
    json_put(object, "heater_kwh", number_json(floor->heater_kwh));
    json_put(object, "heater_cost", number_json(floor->heater_cost));
    json_put(object, "feed_kg", number_json(floor->feed_kg));
    json_put(object, "feed_cost", number_json(floor->feed_cost));
    json_put(object, "gained_kg", number_json(floor->gained_kg));
    json_put(object, "fish_value", number_json(floor->fish_value));
    json_put(object, "margin", number_json(floor->margin));
    return object;
}

static json_t *batches_json(const HeatPage *page)
{
    json_t *list = json_array();
    for (int i = 0; i < page->plants->batch_count; i++) {
        const HeatBatch *batch = &page->plants->batches[i];
        json_t *object = json_object();
        json_put(object, "id", json_string(batch->id));
        json_put(object, "way", json_string(page->farm->ways[batch->way].id));
        json_put(object, "bed", json_string(page->farm->beds[batch->bed].id));
        json_put(object, "set_on", day_json(batch->set_day));
        json_put(object, "usual_trouble", json_string(batch->usual));
        json_put(object, "trouble", json_string(batch->trouble));
        json_put(object, "bolts_on", day_json(batch->bolts_on));
        json_put(object, "usual_units", number_json(batch->usual_units));
        json_put(object, "units", number_json(batch->units));
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
            json_put(object, "tunnel", json_string(page->farm->tunnels[t].id));
            json_put(object, "hot_weeks", json_integer(side->hot_weeks));
            json_put(object, "cool_weeks",
                     side->cool_weeks < 0 ? json_null()
                                          : json_integer(side->cool_weeks));
            json_array_append_new(sides, object);
        }
        json_t *way = json_object();
        json_put(way, "way", json_string(page->farm->ways[w].id));
        json_put(way, "place",
                 json_string(heat_place_name(page->plants->places[w])));
        json_put(way, "tunnels", sides);
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
        json_put(object, "tunnel", json_string(page->farm->tunnels[t].id));
        json_put(object, "way",
                 shade->way < 0 ? json_null()
                                : json_string(page->farm->ways[shade->way].id));
        json_put(object, "from", day_json(shade->from));
        json_put(object, "until", day_json(shade->until));
        json_put(object, "most_degc", number_json(shade->most_degc));
        json_put(object, "light_mol", number_json(shade->light_mol));
        json_put(object, "is_shaded", json_boolean(shade->is_shaded));
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
        json_put(object, "way", json_string(page->farm->ways[seed->way].id));
        json_put(object, "most_degc", number_json(seed->most_degc));
        json_put(object, "hot_months", months_json(seed->hot_months));
        json_put(object, "noon_months", months_json(seed->noon_months));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *pressure_json(const HeatPage *page)
{
    json_t *list = json_array();
    const PressureWeeks *pressure = &page->plants->pressure;
    for (int i = 0; i < pressure->run_count; i++) {
        const PressureRun *run = &pressure->runs[i];
        json_t *object = json_object();
        json_put(object, "tunnel",
                 json_string(page->farm->tunnels[run->tunnel].id));
        json_put(object, "way", json_string(page->farm->ways[run->way].id));
        json_put(object, "mould", json_string(mould_name(run->mould)));
        json_put(object, "rule", json_string(mould_rule(run->mould)));
        json_put(object, "high_weeks", json_integer(run->high_weeks));
        json_put(object, "standing_weeks", json_integer(run->standing_weeks));
        json_put(object, "from",
                 day_json(page->first_week + 7 * run->first_week));
        json_put(object, "until",
                 day_json(page->first_week + 7 * run->last_week + 6));
        json_array_append_new(list, object);
    }
    return list;
}

const char *heat_to_json(const HeatPage *page, Arena *arena)
{
    json_t *root = json_object();
    json_put(root, "from", day_json(page->first_week));
    json_put(root, "weeks", json_integer(page->weeks));
    json_t *notices = json_array();
    for (int i = 0; i < page->notice_count; i++) {
        json_array_append_new(notices, json_string(page->notices[i]));
    }
    json_put(root, "notices", notices);
    json_t *floors = json_array();
    for (int i = 0; i < page->floor_count; i++) {
        json_array_append_new(floors, floor_json(&page->floors[i]));
    }
    json_put(root, "floors", floors);
    json_t *spell = json_object();
    json_put(spell, "from", day_json(page->plants->spell.from_day));
    json_put(spell, "days", json_integer(page->plants->spell.days));
    json_put(spell, "warmer_k", number_json(page->plants->spell.warmer_k));
    json_put(spell, "is_forecast",
             json_boolean(page->plants->spell.is_forecast));
    json_put(root, "spell", spell);
    json_put(root, "pressure", pressure_json(page));
    json_put(root, "batches", batches_json(page));
    json_put(root, "ways", ways_json(page));
    json_put(root, "shades", shades_json(page));
    json_put(root, "seeds", seeds_json(page));
    return json_text_take(root, arena);
}
