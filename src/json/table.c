/* One table of a farm as a form has it. */
#include "json/table.h"

#include <math.h>
#include <string.h>

#include <jansson.h>

#include "base/text.h"
#include "base/tongue.h"
#include "farm/cell.h"
#include "farm/read.h"
#include "json/text.h"

static const char *const KINDS[] = {
    [FIELD_ID] = "id",           [FIELD_REF] = "ref",
    [FIELD_TEXT] = "text",       [FIELD_NUMBER] = "number",
    [FIELD_COUNT] = "count",     [FIELD_DATE] = "date",
    [FIELD_INSTANT] = "instant", [FIELD_FLAG] = "flag",
    [FIELD_PRICE] = "price",     [FIELD_WORD] = "word",
    [FIELD_WORDS] = "words",     [FIELD_MONTHS] = "months",
    [FIELD_MONTHLY] = "monthly", [FIELD_WEEKDAYS] = "weekdays"};

static json_t *number_or_null(bool is_there, double number)
{
    return is_there && isfinite(number) ? json_real(number) : json_null();
}

static bool has_bounds(FieldKind kind)
{
    return kind == FIELD_NUMBER || kind == FIELD_COUNT || kind == FIELD_PRICE ||
           kind == FIELD_MONTHLY;
}

static json_t *field_of(const Field *field, const Arena *arena)
{
    json_t *item = json_object();
    char expects[CELL_TEXT_SIZE];
    cell_describe(field, expects);
    bool is_bound = has_bounds(field->kind);
    json_put(item, "name", json_string(field->name));
    json_put(item, "kind", json_string(KINDS[field->kind]));
    json_put(item, "needed", json_boolean(field->is_needed));
    json_put(item, "least", number_or_null(is_bound, field->least));
    json_put(item, "most", number_or_null(is_bound, field->most));
    json_put(item, "usual",
             number_or_null(is_bound && !field->is_needed, field->fallback));
    json_put(item, "expects", json_string(expects));
    json_put(item, "meaning", json_string(say(arena, field->meaning)));
    if (field->kind == FIELD_REF) {
        json_put(item, "table", json_string(FARM_TABLES[field->extra].name));
    }
    if (field->kind == FIELD_WORD || field->kind == FIELD_WORDS) {
        json_t *words = json_array();
        const WordList *list = &FARM_WORDS[field->extra];
        for (int i = 0; i < list->count; i++) {
            json_array_append_new(words, json_string(list->words[i]));
        }
        json_put(item, "words", words);
    }
    return item;
}

static json_t *rows_of(const TableSheet *sheet)
{
    const Table *table = &FARM_TABLES[sheet->table];
    json_t *rows = json_array();
    for (int32_t r = 0; r < sheet->row_count; r++) {
        const char *const *cells = sheet->cells + r * table->field_count;
        json_t *row = json_object();
        for (int f = 0; f < table->field_count; f++) {
            if (*cells[f]) {
                json_put(row, table->fields[f].name, json_string(cells[f]));
            }
        }
        json_array_append_new(rows, row);
    }
    return rows;
}

static json_t *head_of(TableId id, const Arena *arena)
{
    const Table *table = &FARM_TABLES[id];
    json_t *object = json_object();
    json_put(object, "name", json_string(table->name));
    json_put(object, "meaning", json_string(say(arena, table->meaning)));
    json_put(object, "needed", json_boolean(table->is_needed));
    json_put(object, "single", json_boolean(table->is_single));
    return object;
}

const char *json_table_list(const TableLine *lines, int count, Arena *arena)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_t *item = head_of(lines[i].table, arena);
        json_put(item, "there", json_boolean(lines[i].is_there));
        json_put(item, "rows", json_integer(lines[i].row_count));
        json_put(item, "faults", json_integer(lines[i].fault_count));
        json_array_append_new(list, item);
    }
    json_t *object = json_object();
    json_put(object, "tables", list);
    return json_text_take(object, arena);
}

static json_t *sheet_of(const TableSheet *sheet, const Arena *arena)
{
    const Table *table = &FARM_TABLES[sheet->table];
    json_t *object = head_of(sheet->table, arena);
    json_t *fields = json_array();
    for (int i = 0; i < table->field_count; i++) {
        json_array_append_new(fields, field_of(&table->fields[i], arena));
    }
    json_put(object, "hash", json_string(sheet->mark));
    json_put(object, "fields", fields);
    json_put(object, "rows", rows_of(sheet));
    return object;
}

const char *json_table_sheet(const TableSheet *sheet, Arena *arena)
{
    return json_text_take(sheet_of(sheet, arena), arena);
}

/* ---- In -------------------------------------------------------------------
 */

/* A cell as the file would hold it; NULL: of no kind that a cell can be. */
static const char *cell_text(const json_t *value, Arena *arena)
{
    if (json_is_null(value)) {
        return "";
    }
    if (json_is_boolean(value)) {
        return json_is_true(value) ? "yes" : "no";
    }
    if (json_is_number(value)) {
        return arena_text(arena, "%.15g", json_number_value(value));
    }
    if (!json_is_string(value)) {
        return NULL;
    }
    const char *text = json_string_value(value);
    size_t length = json_string_length(value);
    return text_plain(text, length) == length ? arena_copy_text(arena, text)
                                              : NULL;
}

static int field_named(const Table *table, const char *name)
{
    for (int i = 0; i < table->field_count; i++) {
        if (strcmp(table->fields[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

static Err read_row(json_t *row, const Table *table, size_t number,
                    Arena *arena, const char **cells)
{
    for (int f = 0; f < table->field_count; f++) {
        cells[f] = "";
    }
    if (!json_is_object(row)) {
        return err_make(ERR_INPUT, "rows[%zu]: expected an object", number);
    }
    const char *key = NULL;
    json_t *value = NULL;
    json_object_foreach(row, key, value)
    {
        int field = field_named(table, key);
        const char *text = cell_text(value, arena);
        if (field < 0) {
            return err_make(ERR_INPUT,
                            "rows[%zu]: the table %s has no \"%.60s"
                            "\"",
                            number, table->name, key);
        }
        if (!text) {
            return err_make(ERR_INPUT,
                            "rows[%zu].%s: expected a line of text, a number, "
                            "true, false or null",
                            number, table->fields[field].name);
        }
        cells[field] = text;
    }
    return ERR_NONE;
}

static Err read_rows(json_t *object, TableId id, Arena *arena, TableSheet *out)
{
    const Table *table = &FARM_TABLES[id];
    const json_t *mark = json_object_get(object, "hash");
    const json_t *rows = json_object_get(object, "rows");
    if (!json_is_string(mark) || json_string_length(mark) >= TABLE_MARK_SIZE) {
        return err_make(ERR_INPUT, "hash: expected that of GET /api/table");
    }
    if (!json_is_array(rows) || json_array_size(rows) > FARM_ROWS_MAX) {
        return err_make(ERR_INPUT, "rows: expected a list of objects");
    }
    TableSheet sheet = {.table = id,
                        .row_count = (int32_t)json_array_size(rows),
                        .may_lack =
                            json_is_true(json_object_get(object, "may_lack"))};
    const char **cells =
        ARENA_ARRAY(arena, const char *,
                    (size_t)sheet.row_count *(size_t)table->field_count);
    memcpy(sheet.mark, json_string_value(mark), json_string_length(mark));
    for (size_t i = 0; i < json_array_size(rows); i++) {
        TRY(read_row(json_array_get(rows, i), table, i, arena,
                     cells + i * (size_t)table->field_count));
    }
    sheet.cells = cells;
    *out = sheet;
    return ERR_NONE;
}

Err json_table_read(const char *text, size_t length, TableId table,
                    Arena *arena, TableSheet *out)
{
    json_error_t fault;
    json_t *object = json_loadb(text, length, JSON_REJECT_DUPLICATES, &fault);
    if (!object) {
        return err_make(ERR_INPUT, "no JSON: line %d: %.120s", fault.line,
                        fault.text);
    }
    Err err = json_is_object(object)
                  ? read_rows(object, table, arena, out)
                  : err_make(ERR_INPUT, "expected {\"hash\",\"rows\"}");
    json_decref(object);
    return err;
}

/* ---- Outcomes -------------------------------------------------------------
 */

static json_t *fault_of(const TableSheet *sheet, const Fault *fault,
                        const char *key)
{
    const Table *table = &FARM_TABLES[sheet->table];
    bool is_here =
        strcmp(fault->place.file, farm_table_file(sheet->table)) == 0;
    int32_t column = fault->place.column;
    json_t *item = json_object();
    json_put(item, "file", json_string(fault->place.file));
    json_put(item, "line", json_integer(fault->place.line));
    if (is_here && fault->place.line > 1) {
        json_put(item, "row", json_integer(fault->place.line - 2));
    }
    if (is_here && column > 0 && column <= table->field_count) {
        json_put(item, "column", json_string(table->fields[column - 1].name));
    }
    json_put(item, "value", json_string(fault->value));
    json_put(item, key, json_string(fault->expected));
    return item;
}

static json_t *notices_of(const TableSheet *sheet, const Faults *faults,
                          bool is_doubt)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < faults->notice_count; i++) {
        const Fault *notice = &faults->notices[i];
        bool is_here =
            strcmp(notice->place.file, farm_table_file(sheet->table)) == 0;
        if (notice->is_doubt == is_doubt && is_here) {
            json_array_append_new(list, fault_of(sheet, notice, "text"));
        }
    }
    return list;
}

static json_t *faults_of(const TableSheet *sheet, const Faults *faults)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < faults->kept_count; i++) {
        json_array_append_new(list,
                              fault_of(sheet, &faults->items[i], "expected"));
    }
    return list;
}

const char *json_table_written(const TableSheet *sheet, const Faults *faults,
                               Arena *arena)
{
    json_t *object = json_object();
    json_put(object, "hash", json_string(sheet->mark));
    json_put(object, "rows", json_integer(sheet->row_count));
    json_put(object, "faults", faults_of(sheet, faults));
    json_put(object, "notices", notices_of(sheet, faults, false));
    json_put(object, "doubts", notices_of(sheet, faults, true));
    return json_text_take(object, arena);
}

static json_t *error_of(ErrKind kind, const char *text)
{
    json_t *error = json_object();
    json_put(error, "kind", json_string(err_kind_word(kind)));
    json_put(error, "text", json_string(text));
    return error;
}

const char *json_table_refused(const TableSheet *sheet, const Faults *faults,
                               Arena *arena)
{
    json_t *object = json_object();
    json_put(object, "error",
             error_of(ERR_INPUT, arena_text(arena,
                                            "%s would have faults; nothing was "
                                            "written",
                                            farm_table_file(sheet->table))));
    json_put(object, "faults", faults_of(sheet, faults));
    return json_text_take(object, arena);
}

const char *json_table_conflict(const TableSheet *theirs,
                                const TableSheet *yours, Arena *arena)
{
    json_t *own = json_object();
    json_put(own, "rows", rows_of(yours));
    json_t *object = json_object();
    json_put(object, "error",
             error_of(ERR_CONFLICT,
                      arena_text(arena,
                                 "%s was changed by somebody else meanwhile; "
                                 "nothing was written",
                                 farm_table_file(theirs->table))));
    json_put(object, "theirs", sheet_of(theirs, arena));
    json_put(object, "yours", own);
    return json_text_take(object, arena);
}
