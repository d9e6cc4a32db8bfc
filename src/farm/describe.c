/* The documentation of the tables, made from their lists. */
#include "farm/describe.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "farm/cell.h"
#include "farm/read.h"

enum { PAGE_BYTES = 256 * 1024 };

typedef struct Page {
    char *text;
    size_t length;
} Page;

static void add(Page *page, const char *format, ...) PRINTF_LIKE(2, 3);

static void add(Page *page, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    size_t room = PAGE_BYTES - page->length;
    int length = vsnprintf(page->text + page->length, room, format, args);
    va_end(args);
    page->length += (size_t)length < room ? (size_t)length : room - 1;
}

/* What a blank cell means. */
static const char *blank_text(const Field *field, Arena *arena)
{
    if (field->is_needed) {
        return "-";
    }
    switch (field->kind) {
    case FIELD_ID:
    case FIELD_REF:
    case FIELD_TEXT:
    case FIELD_INSTANT:
        return "nothing";
    case FIELD_DATE:
        return field->fallback > 0 ? "never ends" : "always was";
    case FIELD_FLAG:
        return field->fallback > 0 ? "yes" : "no";
    case FIELD_NUMBER:
    case FIELD_COUNT:
    case FIELD_PRICE:
    case FIELD_MONTHLY:
        if (field->fallback < field->least || field->fallback > field->most) {
            return "as told";
        }
        return arena_text(arena, "%.12g", field->fallback);
    case FIELD_WORD:
        return FARM_WORDS[field->extra].words[(int)field->fallback];
    case FIELD_WORDS:
    case FIELD_MONTHS:
    case FIELD_WEEKDAYS:
        return field->fallback > 0 ? "all" : "none";
    }
    return "";
}

static void add_table(Page *page, const Table *table, Arena *arena)
{
    add(page, "\n## %s.csv\n\n%s%s%s\n\n", table->name, table->meaning,
        table->is_needed ? "; needed" : "",
        table->is_single ? ", exactly one row" : "");
    add(page, "| column | needed | what stands in it | blank | meaning |\n"
              "|---|---|---|---|---|\n");
    for (int i = 0; i < table->field_count; i++) {
        const Field *field = &table->fields[i];
        char expected[CELL_TEXT_SIZE];
        cell_describe(field, expected);
        add(page, "| `%s` | %s | %s | %s | %s |\n", field->name,
            field->is_needed ? "yes" : "", expected, blank_text(field, arena),
            field->meaning);
    }
}

const char *farm_describe(Arena *arena)
{
    Page page = {.text = arena_alloc(arena, PAGE_BYTES, 1)};
    add(&page,
        "# The tables of a farm\n\n"
        "A farm is a folder of CSV tables (UTF-8, commas, decimal points; "
        "semicolons with\ndecimal commas are read too). The first row names "
        "the columns, in any order;\ncolumns that are not needed may be left "
        "out. Units stand in the names. Dates are\nISO 8601. `leat check DIR` "
        "tells every fault with file, line and column.\n\n"
        "This page is made from the lists in `src/farm/records.h` by "
        "`leat tables`.\n\n");
    for (int i = 0; i < TABLE_COUNT; i++) {
        add(&page, "- [%s](#%scsv): %s\n", FARM_TABLES[i].name,
            FARM_TABLES[i].name, FARM_TABLES[i].meaning);
    }
    for (int i = 0; i < TABLE_COUNT; i++) {
        add_table(&page, &FARM_TABLES[i], arena);
    }
    return page.text;
}
