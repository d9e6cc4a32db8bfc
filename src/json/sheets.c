/* The day's sheets as JSON. */
#include "json/sheets.h"

#include <jansson.h>

#include "base/tongue.h"
#include "json/page.h"
#include "json/text.h"
#include "json/told.h"

static const char *picture_word(SheetPicture picture)
{
    static const char *const WORDS[] = {
        [PICTURE_NONE] = "",         [PICTURE_EYE] = "eye",
        [PICTURE_FISH] = "fish",     [PICTURE_DROP] = "drop",
        [PICTURE_LEAF] = "leaf",     [PICTURE_FRUIT] = "fruit",
        [PICTURE_FLOWER] = "flower", [PICTURE_SEED] = "seed"};
    return WORDS[picture];
}

static json_t *field_json(const SheetField *field)
{
    json_t *object = json_object();
    json_put(object, "label", json_string(field->label));
    json_put(object, "fill", page_text(field->fill));
    json_put(object, "usual", json_string(field->usual));
    json_put(object, "entry",
             field->entry.kind < 0 ? json_null() : told_json(&field->entry));
    return object;
}

static json_t *row_json(const SheetRow *row)
{
    json_t *fields = json_array();
    for (int f = 0; f < row->field_count; f++) {
        json_array_append_new(fields, field_json(&row->fields[f]));
    }
    json_t *object = json_object();
    json_put(object, "number", json_integer(row->number));
    json_put(object, "stop", json_string(row->stop));
    json_put(object, "plate", json_string(row->plate));
    json_put(object, "picture", json_string(picture_word(row->picture)));
    json_put(object, "text", json_string(row->text));
    json_put(object, "note", json_string(row->note));
    json_put(object, "fields", fields);
    return object;
}

const char *sheets_to_json(const SheetsJson *page, Arena *arena)
{
    json_t *sheets = json_array();
    for (int32_t i = 0; i < page->count; i++) {
        const Sheet *sheet = &page->sheets[i];
        json_t *rows = json_array();
        for (int32_t r = 0; r < sheet->count; r++) {
            json_array_append_new(rows, row_json(&sheet->rows[r]));
        }
        json_t *object = json_object();
        json_put(object, "kind", json_string(sheet_kind_word(sheet->kind)));
        json_put(object, "title",
                 json_string(say(arena, sheet_kind_title(sheet->kind))));
        json_put(object, "rows", rows);
        json_array_append_new(sheets, object);
    }
    json_t *object = json_object();
    json_put(object, "day", page_day(page->day));
    json_put(object, "title", json_string(page->title));
    json_put(object, "sheets", sheets);
    return json_text_take(object, arena);
}
