/* How a figure was made, as JSON. */
#include "json/working.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#include "farm/references.h"
#include "json/page.h"
#include "json/text.h"

static json_t *value_json(double value, const char *unit)
{
    return strcmp(unit, "date") == 0 ? page_day((int32_t)value)
                                     : page_number(value);
}

static void put_key(json_t *object, const WorkingKey *key)
{
    json_put(object, "of", json_string(key->of));
    json_put(object, "id", json_string(key->id));
    json_put(object, "figure", json_string(key->figure));
}

static void put_values(json_t *object, const char *name, const char *unit,
                       const double values[3])
{
    json_put(object, "name", json_string(name));
    json_put(object, "value", value_json(values[0], unit));
    json_put(object, "low", value_json(values[1], unit));
    json_put(object, "high", value_json(values[2], unit));
    json_put(object, "unit", json_string(unit));
}

/* Keys between spaces, each once. */
static void put_sources(json_t *list, const char *keys, Arena *arena)
{
    while (keys && *keys) {
        size_t length = strcspn(keys, " ");
        const char *key = arena_copy_bytes(arena, keys, length);
        bool is_there = length == 0;
        for (size_t i = 0; i < json_array_size(list); i++) {
            json_t *told = json_object_get(json_array_get(list, i), "key");
            is_there |= strcmp(json_string_value(told), key) == 0;
        }
        if (!is_there) {
            json_t *source = json_object();
            json_put(source, "key", json_string(key));
            json_put(source, "text", page_text(reference_of(key, arena)));
            json_array_append_new(list, source);
        }
        keys += length + (keys[length] ? 1 : 0);
    }
}

static json_t *input_json(const WorkingInput *input, Arena *arena)
{
    json_t *object = json_object();
    json_put(object, "symbol", page_text(input->symbol));
    put_values(object, input->name, input->unit,
               (const double[]){input->value, input->low, input->high});
    json_put(object, "from", json_string(working_from_word(input->from)));
    json_put(object, "on", input->on ? page_day(input->on) : json_null());
    json_t *sources = json_array();
    /* A figure of the farm's own has a note in the place of a key. */
    if (input->from != WORKING_YOURS) {
        put_sources(sources, input->source, arena);
    }
    json_put(object, "sources", sources);
    json_put(object, "note",
             page_text(input->from == WORKING_YOURS ? input->source : NULL));
    json_t *opens = json_null();
    if (input->opens.of) {
        opens = json_object();
        put_key(opens, &input->opens);
    }
    json_put(object, "opens", opens);
    return object;
}

static json_t *head_json(const Working *working)
{
    json_t *object = json_object();
    put_key(object, &working->key);
    put_values(object, working->name, working->unit,
               (const double[]){working->value, working->low, working->high});
    return object;
}

static json_t *working_json(const Working *working, Arena *arena)
{
    json_t *object = head_json(working);
    json_t *inputs = json_array();
    json_t *sources = json_array();
    for (int i = 0; i < working->source_count; i++) {
        put_sources(sources, working->sources[i], arena);
    }
    for (int i = 0; i < working->input_count; i++) {
        const WorkingInput *input = &working->inputs[i];
        json_array_append_new(inputs, input_json(input, arena));
        if (input->from != WORKING_YOURS) {
            put_sources(sources, input->source, arena);
        }
    }
    json_put(object, "words", json_string(working->words));
    json_put(object, "symbols", json_string(working->symbols));
    json_put(object, "inputs", inputs);
    json_put(object, "notes", page_texts(working->notes, working->note_count));
    json_put(object, "sources", sources);
    return object;
}

json_t *workings_json(const Workings *all, Arena *arena)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < all->count; i++) {
        json_array_append_new(list, working_json(all->items[i], arena));
    }
    return list;
}

const char *working_to_json(const WorkingJson *page, Arena *arena)
{
    json_t *object = json_object();
    if (page->only) {
        json_decref(object);
        object = working_json(page->only, arena);
    } else {
        json_t *list = json_array();
        for (int32_t i = 0; i < page->all->count; i++) {
            const Working *working = page->all->items[i];
            json_array_append_new(list, page->is_full
                                            ? working_json(working, arena)
                                            : head_json(working));
        }
        json_put(object, "figures", list);
    }
    json_put(object, "day", page_day(page->day));
    json_put(object, "title", json_string(page->title));
    return json_text_take(object, arena);
}
