/* Faults and notices as JSON. */
#include "json/faults.h"

#include <jansson.h>

#include "json/text.h"

static json_t *place_number(int32_t number)
{
    return number > 0 ? json_integer(number) : json_null();
}

static json_t *one_of(const Fault *fault, const char *key)
{
    return json_pack("{s:s, s:o, s:o, s:s, s:s}", "file", fault->place.file,
                     "line", place_number(fault->place.line), "column",
                     place_number(fault->place.column), "value", fault->value,
                     key, fault->expected);
}

static json_t *faults_of(const Faults *faults)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < faults->kept_count; i++) {
        json_array_append_new(list, one_of(&faults->items[i], "expected"));
    }
    return list;
}

static json_t *notices_of(const Faults *faults, bool is_doubt)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < faults->notice_count; i++) {
        if (faults->notices[i].is_doubt == is_doubt) {
            json_array_append_new(list, one_of(&faults->notices[i], "text"));
        }
    }
    return list;
}

const char *faults_to_json(const Faults *faults, int32_t row_count,
                           Arena *arena)
{
    json_t *object = json_object();
    json_object_set_new(object, "rows", json_integer(row_count));
    json_object_set_new(object, "fault_count", json_integer(faults->count));
    json_object_set_new(object, "faults", faults_of(faults));
    json_object_set_new(object, "notices", notices_of(faults, false));
    json_object_set_new(object, "doubts", notices_of(faults, true));
    return json_text_take(object, arena);
}
