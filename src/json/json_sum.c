/* Sums as JSON. */
#include "json/json_sum.h"

#include <math.h>
#include <string.h>

#include <jansson.h>

#include "base/date.h"
#include "base/text.h"
#include "json/text.h"

static json_t *number(double value)
{
    /* A whole number is written without a point. */
    bool is_whole = !(fabs(value) > 9e15) && !(value < floor(value)) &&
                    !(value > floor(value));
    return is_whole ? json_integer((json_int_t)value) : json_real(value);
}

/* What was typed may not be UTF-8; the rest of such a text is left out. */
static json_t *text(const char *typed)
{
    return json_stringn(typed, text_utf8_valid(typed, strlen(typed)));
}

static json_t *value_of(double value, const char *unit)
{
    if (strcmp(unit, "date") == 0) {
        char date[DATE_TEXT_SIZE];
        date_format((int32_t)value, date);
        return json_string(date);
    }
    return number(value);
}

static void put_value(json_t *object, const SumValue *value)
{
    json_object_set_new(object, "value", value_of(value->value, value->unit));
    json_object_set_new(object, "low", value_of(value->low, value->unit));
    json_object_set_new(object, "high", value_of(value->high, value->unit));
    json_object_set_new(object, "unit", json_string(value->unit));
}

static json_t *inputs_of(const SumInputs *inputs)
{
    json_t *object = json_object();
    const SumKey *keys = inputs->sum->keys;
    for (int i = 0; keys[i].name; i++) {
        const SumInput *input = &inputs->of[i];
        if (!input->is_given) {
            continue;
        }
        bool is_text = keys[i].kind == SUM_WORD || keys[i].kind == SUM_DATE ||
                       keys[i].kind == SUM_INSTANT;
        json_object_set_new(object, keys[i].name,
                            is_text ? text(input->text)
                                    : number(input->number));
    }
    return object;
}

static void put_lines(json_t *list, const char *const *lines, int count)
{
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, text(lines[i]));
    }
}

const char *json_sum(const SumAnswer *answer)
{
    json_t *object = json_object();
    json_object_set_new(object, "name", json_string(answer->inputs.sum->name));
    json_object_set_new(object, "inputs", inputs_of(&answer->inputs));
    put_value(object, &answer->main);
    json_t *also = json_array();
    for (int i = 0; i < answer->also_count; i++) {
        json_t *item = json_object();
        json_object_set_new(item, "name", json_string(answer->also[i].name));
        put_value(item, &answer->also[i]);
        json_array_append_new(also, item);
    }
    json_object_set_new(object, "also", also);
    json_t *working = json_array();
    put_lines(working, answer->cautions, answer->caution_count);
    put_lines(working, answer->working, answer->working_count);
    json_object_set_new(object, "working", working);
    json_t *source = json_array();
    put_lines(source, answer->source, answer->source_count);
    json_object_set_new(object, "source", source);
    return json_text_take(object, answer->arena);
}

const char *json_sum_error(const Err *err, Arena *arena)
{
    json_t *inner = json_object();
    json_object_set_new(inner, "kind", json_string(err_kind_word(err->kind)));
    json_object_set_new(inner, "text", text(err->text));
    json_t *object = json_object();
    json_object_set_new(object, "error", inner);
    return json_text_take(object, arena);
}
