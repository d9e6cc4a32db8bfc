/* The datapackage.json of a farm's folder. */
#include "json/datapackage.h"

#include <math.h>
#include <string.h>

#include <jansson.h>

#include "farm/read.h"
#include "json/text.h"

static const char *type_of(const Field *field)
{
    switch (field->kind) {
    case FIELD_NUMBER:
    case FIELD_PRICE:
        return "number";
    case FIELD_COUNT:
        return "integer";
    case FIELD_DATE:
        return "date";
    case FIELD_INSTANT:
        return "datetime";
    case FIELD_FLAG:
        return "boolean";
    case FIELD_ID:
    case FIELD_REF:
    case FIELD_TEXT:
    case FIELD_WORD:
    case FIELD_WORDS:
    case FIELD_MONTHS:
    case FIELD_MONTHLY:
    case FIELD_WEEKDAYS:
        return "string";
    }
    return "string";
}

static bool has_limits(const Field *field)
{
    return field->kind == FIELD_NUMBER || field->kind == FIELD_PRICE ||
           field->kind == FIELD_COUNT;
}

static json_t *number(double value)
{
    /* Whole limits are written without a point. */
    bool is_whole = !(fabs(value) > 9e15) && !(value < floor(value)) &&
                    !(value > floor(value));
    return is_whole ? json_integer((json_int_t)value) : json_real(value);
}

static json_t *constraints_of(const Field *field)
{
    json_t *constraints = json_object();
    if (field->is_needed) {
        json_object_set_new(constraints, "required", json_true());
    }
    if (field->kind == FIELD_ID) {
        json_object_set_new(constraints, "unique", json_true());
    }
    if (has_limits(field)) {
        json_object_set_new(constraints, "minimum", number(field->least));
        json_object_set_new(constraints, "maximum", number(field->most));
    }
    if (field->kind == FIELD_WORD) {
        const WordList *list = &FARM_WORDS[field->extra];
        json_t *words = json_array();
        for (int i = 0; i < list->count; i++) {
            json_array_append_new(words, json_string(list->words[i]));
        }
        json_object_set_new(constraints, "enum", words);
    }
    return constraints;
}

static json_t *field_of(const Field *field)
{
    json_t *object = json_object();
    json_object_set_new(object, "name", json_string(field->name));
    json_object_set_new(object, "type", json_string(type_of(field)));
    json_object_set_new(object, "description", json_string(field->meaning));
    if (field->kind == FIELD_FLAG) {
        json_object_set_new(object, "trueValues", json_pack("[s]", "yes"));
        json_object_set_new(object, "falseValues", json_pack("[s]", "no"));
    }
    json_t *constraints = constraints_of(field);
    if (json_object_size(constraints) > 0) {
        json_object_set_new(object, "constraints", constraints);
    } else {
        json_decref(constraints);
    }
    return object;
}

static json_t *schema_of(const Table *table, const bool *has_table)
{
    json_t *schema = json_object();
    json_t *fields = json_array();
    json_t *keys = json_array();
    for (int i = 0; i < table->field_count; i++) {
        const Field *field = &table->fields[i];
        json_array_append_new(fields, field_of(field));
        if (field->kind == FIELD_REF && has_table[field->extra]) {
            json_array_append_new(
                keys,
                json_pack("{s:s, s:{s:s, s:s}}", "fields", field->name,
                          "reference", "resource",
                          FARM_TABLES[field->extra].name, "fields", "id"));
        }
    }
    json_object_set_new(schema, "fields", fields);
    if (table->fields[0].kind == FIELD_ID) {
        json_object_set_new(schema, "primaryKey",
                            json_string(table->fields[0].name));
    }
    if (json_array_size(keys) > 0) {
        json_object_set_new(schema, "foreignKeys", keys);
    } else {
        json_decref(keys);
    }
    return schema;
}

FarmBytes datapackage_write(const char *name, const bool has_table[TABLE_COUNT],
                            Arena *arena)
{
    json_t *package = json_object();
    json_object_set_new(package, "profile",
                        json_string("tabular-data-package"));
    json_object_set_new(package, "name", json_string(name));
    json_object_set_new(package, "leat_format",
                        json_integer(DATAPACKAGE_FORMAT));
    json_t *resources = json_array();
    for (int i = 0; i < TABLE_COUNT; i++) {
        if (!has_table[i]) {
            continue;
        }
        const Table *table = &FARM_TABLES[i];
        json_array_append_new(
            resources,
            json_pack("{s:s, s:s, s:s, s:s, s:o}", "name", table->name, "path",
                      farm_table_file((TableId)i), "profile",
                      "tabular-data-resource", "description", table->meaning,
                      "schema", schema_of(table, has_table)));
    }
    json_object_set_new(package, "resources", resources);
    const char *text = json_text_take(package, arena);
    return (FarmBytes){text, strlen(text)};
}

Err datapackage_read_format(const char *bytes, size_t length, int *out)
{
    json_error_t where;
    json_t *package = json_loadb(bytes, length, JSON_REJECT_DUPLICATES, &where);
    if (!package) {
        return err_make(ERR_INPUT, "JSON; line %d: %.160s", where.line,
                        where.text);
    }
    const json_t *format = json_object_get(package, "leat_format");
    json_int_t value = json_integer_value(format);
    json_decref(package);
    if (value < 1 || value > 1000000) {
        return err_make(ERR_INPUT, "an object with leat_format, a whole number "
                                   "from 1");
    }
    *out = (int)value;
    return ERR_NONE;
}
