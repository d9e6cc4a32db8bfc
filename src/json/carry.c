/* Whether the fish carry the beds, as JSON. */
#include "json/carry.h"

#include <jansson.h>

#include "base/date.h"
#include "json/text.h"

static json_t *week_json(const Carry *carry, int week)
{
    char text[DATE_TEXT_SIZE];
    if (week < 0) {
        return json_null();
    }
    week_format(carry->first_week + CARRY_WEEK_D * week, text);
    return json_string(text);
}

static json_t *series_json(const Carry *carry, const double *values)
{
    json_t *list = json_array();
    for (int week = 0; week < carry->weeks; week++) {
        json_array_append_new(list, json_real(values[week]));
    }
    return list;
}

static json_t *element_json(const Carry *carry, const CarryElement *of, int e)
{
    json_t *object = json_object();
    json_put(object, "name", json_string(carry_element_name(e)));
    json_put(object, "fish_g", series_json(carry, of->fish_g));
    json_put(object, "mineral_g", series_json(carry, of->mineral_g));
    json_put(object, "source_g", series_json(carry, of->source_g));
    json_put(object, "asked_g", series_json(carry, of->asked_g));
    json_put(object, "taken_g", series_json(carry, of->taken_g));
    json_put(object, "lost_g", series_json(carry, of->lost_g));
    json_put(object, "store_g_m3", series_json(carry, of->store_g_m3));
    json_put(object, "short_from", week_json(carry, of->short_week));
    json_put(object, "short_weeks", json_integer(of->short_weeks));
    json_put(object, "missing_g_w", json_real(of->missing_g_w));
    json_put(object, "gathers", json_boolean(of->gathers));
    return object;
}

static json_t *dip_json(const Carry *carry, const CarryDip *dip)
{
    json_t *object = json_object();
    json_put(object, "week", week_json(carry, dip->week));
    json_put(object, "drop_frac", json_real(dip->drop_frac));
    json_put(object, "sold_count", json_real(dip->sold_count));
    json_put(object, "colder_k", json_real(dip->colder_k));
    json_put(object, "back_week", week_json(carry, dip->back_week));
    json_put(object, "short_element",
             dip->short_element < 0
                 ? json_null()
                 : json_string(carry_element_name(dip->short_element)));
    json_put(object, "short_week", week_json(carry, dip->short_week));
    return object;
}

static json_t *day_json(const Carry *carry, int day)
{
    char text[DATE_TEXT_SIZE];
    if (day < 0) {
        return json_null();
    }
    date_format(carry->first_week + day, text);
    return json_string(text);
}

static json_t *chain_json(const Carry *carry, const CarryChain *chain)
{
    if (!chain->is_there) {
        return json_null();
    }
    json_t *object = json_object();
    json_t *later = json_array();
    const CarrySpell *spell = &carry->spell;
    for (int i = 0; i < chain->later_count; i++) {
        json_t *row = json_object();
        json_put(row, "way",
                 json_string(carry->farm->ways[chain->later[i].way].id));
        json_put(row, "days", json_real(chain->later[i].days));
        json_array_append_new(later, row);
    }
    json_put(object, "from",
             day_json(carry, (int)(spell->from_day - carry->first_week)));
    json_put(object, "days", json_integer(spell->days));
    json_put(object, "warmer_k", json_real(spell->warmer_k));
    json_put(object, "is_forecast", json_boolean(spell->is_forecast));
    json_put(object, "water_k", json_real(chain->water_k));
    json_put(object, "heater_kwh", json_real(chain->heater_kwh));
    json_put(object, "feed_frac", json_real(chain->feed_frac));
    json_put(object, "short_element",
             chain->element < 0
                 ? json_null()
                 : json_string(carry_element_name(chain->element)));
    json_put(object, "short_on", day_json(carry, chain->short_day));
    json_put(object, "usual_short_on", day_json(carry, chain->usual_short_day));
    json_put(object, "later", later);
    json_put(object, "frozen_batches", json_integer(chain->frozen_count));
    json_put(object, "frozen_on", day_json(carry, chain->frozen_day));
    return object;
}

static json_t *loop_json(const Carry *carry, int row, Arena *arena)
{
    const CarryLoop *loop = &carry->loops[row];
    json_t *object = json_object();
    json_t *words = json_array();
    json_t *elements = json_array();
    json_t *dips = json_array();
    const char *const *lines = carry_words(carry, row, arena);
    for (int i = 0; lines[i]; i++) {
        json_array_append_new(words, json_string(lines[i]));
    }
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        json_array_append_new(elements,
                              element_json(carry, &loop->elements[e], e));
    }
    for (int i = 0; i < loop->dip_count; i++) {
        json_array_append_new(dips, dip_json(carry, &loop->dips[i]));
    }
    json_put(object, "id", json_string(carry->farm->loops[row].id));
    json_put(object, "words", words);
    json_put(object, "offered_kg", series_json(carry, loop->offered_kg));
    json_put(object, "wanted_kg", series_json(carry, loop->wanted_kg));
    json_put(object, "water_degc", series_json(carry, loop->temp_degc));
    json_put(object, "growth_frac", series_json(carry, loop->growth_frac));
    json_put(object, "fish_kg", json_real(loop->fish_kg));
    json_put(object, "elements", elements);
    json_put(object, "dips", dips);
    json_put(object, "chain", chain_json(carry, &carry->chains[row]));
    return object;
}

const char *carry_to_json(const Carry *carry, int loop,
                          const char *const *notices, int notice_count,
                          Arena *arena)
{
    json_t *object = json_object();
    json_t *weeks = json_array();
    json_t *told = json_array();
    json_t *loops = json_array();
    char day[DATE_TEXT_SIZE];
    date_format(carry->first_week, day);
    for (int week = 0; week < carry->weeks; week++) {
        json_array_append_new(weeks, week_json(carry, week));
    }
    for (int i = 0; i < notice_count; i++) {
        json_array_append_new(told, json_string(notices[i]));
    }
    for (int i = 0; i < carry->farm->loops_count; i++) {
        if (loop < 0 || loop == i) {
            json_array_append_new(loops, loop_json(carry, i, arena));
        }
    }
    json_put(object, "from", json_string(day));
    json_put(object, "weeks", weeks);
    json_put(object, "notices", told);
    json_put(object, "loops", loops);
    return json_text_take(object, arena);
}
