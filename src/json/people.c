/* Who uses the pages, as JSON. */
#include "json/people.h"

#include <string.h>

#include <jansson.h>

#include "base/text.h"
#include "json/text.h"

static void put_text(json_t *object, const char *key, const char *text)
{
    if (text && *text) {
        json_put(object, key, json_string(text));
    }
}

static json_t *person_of(const JsonPerson *person)
{
    json_t *object = json_object();
    json_put(object, "name", json_string(person->name));
    json_put(object, "role", json_string(person->role));
    put_text(object, "id", person->id);
    put_text(object, "language", person->language);
    json_put(object, "units",
             json_string(person->is_us_units ? "us" : "metric"));
    return object;
}

const char *json_me(const JsonPerson *me, bool needs_login, bool is_lan,
                    Arena *arena)
{
    json_t *object = person_of(me);
    json_put(object, "needs_login", json_boolean(needs_login));
    json_put(object, "lan", json_boolean(is_lan));
    return json_text_take(object, arena);
}

const char *json_people(const JsonPerson *people, int32_t count, Arena *arena)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < count; i++) {
        json_t *item = person_of(&people[i]);
        json_put(item, "gone", json_boolean(people[i].is_gone));
        json_array_append_new(list, item);
    }
    json_t *object = json_object();
    json_put(object, "people", list);
    return json_text_take(object, arena);
}

static Err load(const char *text, size_t length, json_t **out)
{
    json_error_t fault;
    json_t *object = json_loadb(text, length, JSON_REJECT_DUPLICATES, &fault);
    if (!object) {
        return err_make(ERR_INPUT, "no JSON: line %d: %.120s", fault.line,
                        fault.text);
    }
    if (!json_is_object(object)) {
        json_decref(object);
        return err_make(ERR_INPUT, "expected an object");
    }
    *out = object;
    return ERR_NONE;
}

/* A line of text; NULL: it is something else. */
static const char *line_of(const json_t *object, const char *key, Arena *arena)
{
    const json_t *value = json_object_get(object, key);
    if (!json_is_string(value)) {
        return NULL;
    }
    const char *text = json_string_value(value);
    size_t length = json_string_length(value);
    return text_plain(text, length) == length ? arena_copy_text(arena, text)
                                              : NULL;
}

Err json_login_read(const char *text, size_t length, Arena *arena,
                    const char **out_name, const char **out_passphrase)
{
    json_t *object = NULL;
    TRY(load(text, length, &object));
    const char *name = line_of(object, "name", arena);
    const char *passphrase = line_of(object, "passphrase", arena);
    json_decref(object);
    if (!name || !passphrase) {
        return err_make(ERR_INPUT, "expected {\"name\",\"passphrase\"}");
    }
    *out_name = name;
    *out_passphrase = passphrase;
    return ERR_NONE;
}

Err json_prefer_read(const char *text, size_t length, Arena *arena,
                     const char **out_language, bool *out_is_us)
{
    json_t *object = NULL;
    TRY(load(text, length, &object));
    const char *language = line_of(object, "language", arena);
    const char *units = line_of(object, "units", arena);
    json_decref(object);
    bool is_us = units && strcmp(units, "us") == 0;
    bool is_metric = units && strcmp(units, "metric") == 0;
    if (!language || strlen(language) > 16 || (!is_us && !is_metric)) {
        return err_make(ERR_INPUT, "expected {\"language\":\"pt\","
                                   "\"units\":\"metric\" or \"us\"}");
    }
    *out_language = language;
    *out_is_us = is_us;
    return ERR_NONE;
}

Err json_empty_read(const char *text, size_t length)
{
    json_t *object = NULL;
    TRY(load(text, length, &object));
    bool is_empty = json_object_size(object) == 0;
    json_decref(object);
    return is_empty ? ERR_NONE : err_make(ERR_INPUT, "expected {}");
}
