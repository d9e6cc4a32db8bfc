/* Faults and notices as JSON. */
#include "json/faults.h"

#include <jansson.h>

#include "json/text.h"

static json_t *place_number(int32_t number)
{
    return number > 0 ? json_integer(number) : json_null();
}

static json_t *list_of(const Fault *items, int32_t count, const char *key)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < count; i++) {
        const Fault *fault = &items[i];
        json_array_append_new(
            list,
            json_pack("{s:s, s:o, s:o, s:s, s:s}", "file", fault->place.file,
                      "line", place_number(fault->place.line), "column",
                      place_number(fault->place.column), "value", fault->value,
                      key, fault->expected));
    }
    return list;
}

const char *faults_to_json(const Faults *faults, int32_t row_count,
                           Arena *arena)
{
    json_t *object = json_object();
    json_object_set_new(object, "rows", json_integer(row_count));
    json_object_set_new(object, "fault_count", json_integer(faults->count));
    json_object_set_new(object, "faults",
                        list_of(faults->items, faults->kept_count, "expected"));
    json_object_set_new(object, "notices",
                        list_of(faults->notices, faults->notice_count, "text"));
    return json_text_take(object, arena);
}
