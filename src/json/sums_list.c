/* The list of the sums as JSON. */
#include "json/sums_list.h"

#include <string.h>

#include <jansson.h>

#include "json/text.h"
#include "sums/table.h"

static const char *const KINDS[] = {
    [SUM_NUMBER] = "number", [SUM_COUNT] = "count", [SUM_FLAG] = "flag",
    [SUM_WORD] = "word",     [SUM_DATE] = "date",   [SUM_INSTANT] = "instant"};
static const char *const NEEDS[] = {
    [SUM_REQUIRED] = "required", [SUM_USUAL] = "usual", [SUM_MAY] = "may"};

static json_t *number_if(bool is_there, double value)
{
    json_t *number = is_there ? json_real(value) : json_null();
    return number ? number : json_null(); /* not finite */
}

static json_t *key_of(const SumKey *key, Arena *arena)
{
    bool is_number = key->kind == SUM_NUMBER || key->kind == SUM_COUNT;
    json_t *item = json_object();
    json_put(item, "name", json_string(key->name));
    json_put(item, "unit", json_string(key->unit));
    json_put(item, "kind", json_string(KINDS[key->kind]));
    json_put(item, "need", json_string(NEEDS[key->need]));
    json_put(item, "usual",
             number_if(key->need == SUM_USUAL &&
                           (is_number || key->kind == SUM_FLAG),
                       key->usual));
    json_put(item, "least", number_if(is_number, key->least));
    json_put(item, "most", number_if(is_number, key->most));
    json_put(item, "meaning", json_string(key->meaning));
    json_put(item, "expects", json_string(sum_key_expects(key, arena)));
    return item;
}

static json_t *words_of(const char *text)
{
    json_t *list = json_array();
    while (*text) {
        size_t length = strcspn(text, " ");
        if (length > 0) {
            json_array_append_new(list, json_stringn(text, length));
        }
        text += length + (text[length] ? 1 : 0);
    }
    return list;
}

static json_t *sum_of(const Sum *sum, Arena *arena)
{
    json_t *item = json_object();
    json_t *keys = json_array();
    for (const SumKey *key = sum->keys; key->name; key++) {
        json_array_append_new(keys, key_of(key, arena));
    }
    json_put(item, "name", json_string(sum->name));
    json_put(item, "purpose", json_string(sum->purpose));
    json_put(item, "example", json_string(sum->example));
    json_put(item, "source", words_of(sum->source));
    json_put(item, "keys", keys);
    return item;
}

const char *json_sums_list(Arena *arena)
{
    size_t count = 0;
    const SumSubject *subjects = sum_subjects(&count);
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *sums = json_array();
        for (const Sum *sum = subjects[i].sums; sum->name; sum++) {
            json_array_append_new(sums, sum_of(sum, arena));
        }
        json_t *item = json_object();
        json_put(item, "title", json_string(subjects[i].title));
        json_put(item, "sums", sums);
        json_array_append_new(list, item);
    }
    json_t *page = json_object();
    json_put(page, "subjects", list);
    return json_text_take(page, arena);
}
