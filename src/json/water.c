/* The water of a day as JSON. */
#include "json/water.h"

#include <jansson.h>

#include "json/page.h"
#include "json/text.h"

static json_t *points_json(const WaterReading *reading)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < reading->point_count; i++) {
        const WaterPoint *point = &reading->points[i];
        json_t *object = json_object();
        json_put(object, "day", page_day(point->day));
        json_put(object, "minute",
                 point->minute < 0 ? json_null() : json_integer(point->minute));
        json_put(object, "value", page_number(point->value));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *readings_json(const WaterPlace *place)
{
    json_t *list = json_array();
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        const WaterReading *reading = &place->readings[q];
        json_t *object = json_object();
        json_put(object, "quantity",
                 json_string(FARM_WORDS[WORDS_QUANTITIES].words[q]));
        json_put(object, "value", page_number(reading->value));
        json_put(object, "age_h", page_number(reading->age_h));
        json_put(object, "foreseen", page_number(reading->foreseen));
        json_put(object, "low", page_number(reading->low));
        json_put(object, "high", page_number(reading->high));
        json_put(object, "mark", json_string(water_mark_word(reading->mark)));
        json_put(object, "points", points_json(reading));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *findings_json(const Judge *judge)
{
    json_t *list = json_array();
    for (int i = 0; i < judge->finding_count; i++) {
        const JudgeFinding *finding = &judge->findings[i];
        json_t *object = json_object();
        json_put(object, "rule", json_string(finding->rule->id));
        json_put(object, "class",
                 json_string(judge_class_word(finding->rule->class)));
        json_put(object, "means", page_text(finding->means));
        json_put(object, "act", page_text(finding->act));
        json_put(object, "again", page_text(finding->again));
        json_put(object, "next", page_text(finding->next));
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *fish_json(const Judge *judge)
{
    json_t *list = json_array();
    for (int i = 0; i < judge->fish_count; i++) {
        const JudgeFish *fish = &judge->fish[i];
        const struct {
            const char *key;
            double value;
        } numbers[] = {{"least_g", fish->least_g},
                       {"most_g", fish->most_g},
                       {"ammonia_caution_mg_l", fish->ammonia_caution_mg_l},
                       {"ammonia_half_mg_l", fish->ammonia_half_mg_l},
                       {"ammonia_deadly_mg_l", fish->ammonia_deadly_mg_l},
                       {"full_feed_mg_l", fish->full_feed_mg_l},
                       {"eats_low_frac", fish->eats_low_frac},
                       {"eats_high_frac", fish->eats_high_frac}};
        json_t *object = json_object();
        json_put(object, "tank", json_string(fish->tank));
        json_put(object, "batch", json_string(fish->batch));
        for (size_t n = 0; n < sizeof numbers / sizeof *numbers; n++) {
            json_put(object, numbers[n].key, page_number(numbers[n].value));
        }
        json_array_append_new(list, object);
    }
    return list;
}

static json_t *place_json(const Farm *farm, const WaterPlace *place)
{
    const Judge *judge = &place->judge;
    json_t *object = json_object();
    json_put(object, "id",
             json_string(place->tank >= 0 ? farm->tanks[place->tank].id
                                          : farm->loops[place->loop].id));
    json_put(object, "is_tank", json_boolean(place->tank >= 0));
    json_put(object, "loop",
             page_text(place->loop >= 0 ? farm->loops[place->loop].id : NULL));
    json_put(object, "readings", readings_json(place));
    json_put(object, "feed", json_string(judge_feed_word(judge->feed)));
    json_put(object, "findings", findings_json(judge));
    json_put(object, "needs", page_texts(judge->needs, judge->need_count));
    json_put(object, "wants_base", json_boolean(place->wants_base));
    json_put(object, "change_today_frac",
             page_number(judge->change_today_frac));
    json_put(object, "fish", fish_json(judge));
    return object;
}

const char *water_to_json(const WaterJson *page, Arena *arena)
{
    json_t *places = json_array();
    for (int32_t i = 0; i < page->water->count; i++) {
        const WaterPlace *place = &page->water->places[i];
        if (page->only < 0 || page->only == place->tank) {
            json_array_append_new(places, place_json(page->farm, place));
        }
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(page->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "when", json_string(page->when));
    json_put(object, "notices", page_texts(page->notices, page->notice_count));
    json_put(object, "places", places);
    return json_text_take(object, arena);
}
