/* Entries of the journal as JSON. */
#include "json/told.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "json/text.h"

/* ---- Out ------------------------------------------------------------------
 */

static json_t *field_json(const Told *told, const ToldField *field)
{
    const void *member = (const char *)told + field->offset;
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        return json_string(*(const char *const *)member);
    case TOLD_TYPE_WHOLE:
        return json_integer(*(const int64_t *)member);
    case TOLD_TYPE_REAL:
        return json_real(*(const double *)member);
    case TOLD_TYPE_DAY: {
        char day[DATE_TEXT_SIZE];
        date_format(*(const int32_t *)member, day);
        return json_string(day);
    }
    case TOLD_TYPE_FLAG:
        return json_boolean(*(const bool *)member);
    case TOLD_TYPE_KIND:
        return json_string(told_kind_word(*(const int32_t *)member));
    }
    return NULL;
}

json_t *told_json(const Told *told)
{
    json_t *object = json_object();
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        const ToldField *field = &TOLD_FIELD_TABLE[i];
        if (told_has(told, (ToldFieldId)i)) {
            json_put(object, field->name, field_json(told, field));
        }
    }
    if (told_is_late(told)) {
        json_put(object, "is_late", json_true());
    }
    if (told->struck_by > 0) {
        json_put(object, "struck_by", json_integer(told->struck_by));
        json_put(object, "struck_why",
                 json_string(told->struck_why ? told->struck_why : ""));
        json_put(object, "struck_who",
                 json_string(told->struck_who ? told->struck_who : ""));
    }
    return object;
}

const char *tolds_to_json(const Tolds *tolds, Arena *arena)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < tolds->count; i++) {
        json_array_append_new(list, told_json(&tolds->items[i]));
    }
    json_t *object = json_object();
    json_put(object, "entries", list);
    return json_text_take(object, arena);
}

/* ---- In -------------------------------------------------------------------
 */

static Err expected(const ToldField *field, const char *what)
{
    return err_make(ERR_INPUT, "%s: expected %s", field->name, what);
}

static Err read_whole(const ToldField *field, const json_t *value, int64_t *out)
{
    if (!json_is_integer(value)) {
        return expected(field, "a whole number");
    }
    int64_t whole = json_integer_value(value);
    if ((double)whole < field->least || (double)whole > field->most) {
        return err_make(
            ERR_INPUT, "%s: %lld; expected a whole number from %.0f to %.0f",
            field->name, (long long)whole, field->least, field->most);
    }
    *out = whole;
    return ERR_NONE;
}

static Err read_text(const ToldField *field, const json_t *value, Arena *arena,
                     const char **out)
{
    if (!json_is_string(value)) {
        return expected(field, "text");
    }
    size_t length = json_string_length(value);
    if ((double)length > field->most ||
        strlen(json_string_value(value)) != length) {
        return err_make(ERR_INPUT, "%s: expected at most %.0f bytes of text",
                        field->name, field->most);
    }
    *out = arena_copy_text(arena, json_string_value(value));
    return ERR_NONE;
}

static Err read_field(ToldFieldId id, const json_t *value, Arena *arena,
                      Told *told)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    void *member = (char *)told + field->offset;
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        return read_text(field, value, arena, member);
    case TOLD_TYPE_WHOLE:
        return read_whole(field, value, member);
    case TOLD_TYPE_REAL:
        if (!json_is_number(value)) {
            return expected(field, "a number");
        }
        *(double *)member = json_number_value(value);
        return ERR_NONE;
    case TOLD_TYPE_FLAG:
        if (!json_is_boolean(value)) {
            return expected(field, "true or false");
        }
        *(bool *)member = json_is_true(value);
        return ERR_NONE;
    case TOLD_TYPE_DAY:
    case TOLD_TYPE_KIND:
        if (!json_is_string(value)) {
            return expected(field, "text");
        }
        return told_put_text(id, json_string_value(value), told);
    }
    return ERR_NONE;
}

/* Keys that the receiver writes. */
static bool is_ours(const char *key)
{
    static const char *const OURS[] = {"number",    "told_at",    "told_on",
                                       "struck_by", "struck_why", "struck_who",
                                       "is_late"};
    for (size_t i = 0; i < sizeof OURS / sizeof *OURS; i++) {
        if (strcmp(key, OURS[i]) == 0) {
            return true;
        }
    }
    return false;
}

static Err read_keys(const json_t *object, Arena *arena, Told *told)
{
    const char *key = NULL;
    const json_t *value = NULL;
    /* jansson iterates objects that are not const. */
    json_object_foreach((json_t *)object, key, value)
    {
        ToldFieldId id = TOLD_AT_number;
        if (is_ours(key) || json_is_null(value)) {
            continue;
        }
        TRY(told_field_find(key, &id));
        TRY(read_field(id, value, arena, told));
    }
    return ERR_NONE;
}

static Err read_entry(const json_t *object, int32_t day, Arena *arena,
                      Told *out)
{
    if (!json_is_object(object)) {
        return err_make(ERR_INPUT, "expected an object with its kind");
    }
    Told told = told_blank(TOLD_SEEN, day);
    if (!json_object_get(object, "kind")) {
        return err_make(ERR_INPUT, "kind: is missing");
    }
    TRY(read_keys(object, arena, &told));
    if (told_has(&told, TOLD_AT_happened_on)) {
        TRY(told_check_alone(&told));
    }
    *out = told;
    return ERR_NONE;
}

static Err read_list(const json_t *list, int32_t day, Arena *arena, Tolds *out)
{
    size_t count = json_array_size(list);
    if (count > TOLD_JSON_MAX_ENTRIES) {
        return err_make(ERR_LIMIT, "%zu entries; at most %d at one time", count,
                        (int)TOLD_JSON_MAX_ENTRIES);
    }
    Tolds tolds = {ARENA_ARRAY(arena, Told, count), 0};
    for (size_t i = 0; i < count; i++) {
        Err err =
            read_entry(json_array_get(list, i), day, arena, &tolds.items[i]);
        if (err.kind != ERR_OK) {
            return err_make(ERR_INPUT, "entry %zu: %s", i + 1, err.text);
        }
        tolds.count++;
    }
    *out = tolds;
    return ERR_NONE;
}

static void release(json_t *const *value)
{
    json_decref(*value);
}

Err tolds_from_json(const char *text, size_t length, int32_t day, Arena *arena,
                    Tolds *out)
{
    if (length > TOLD_JSON_MAX_BYTES) {
        return err_make(ERR_LIMIT, "entries of %zu bytes; at most %d", length,
                        (int)TOLD_JSON_MAX_BYTES);
    }
    json_error_t fault;
    CLEANUP(release)
    json_t *root = json_loadb(text, length, JSON_REJECT_DUPLICATES, &fault);
    if (!root) {
        return err_make(ERR_INPUT, "no JSON: line %d: %.120s", fault.line,
                        fault.text);
    }
    const json_t *list = json_object_get(root, "entries");
    if (list && !json_is_array(list)) {
        return err_make(ERR_INPUT, "entries: expected a list");
    }
    if (!list && json_is_array(root)) {
        list = root;
    }
    if (list) {
        return read_list(list, day, arena, out);
    }
    Tolds one = {ARENA_NEW(arena, Told), 1};
    TRY(read_entry(root, day, arena, &one.items[0]));
    *out = one;
    return ERR_NONE;
}
