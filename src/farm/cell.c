/* One cell of a table: what is expected in it, what a blank one means, and its
 * text from the member of a record. */
#include "farm/cell.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/read.h"

enum { MONTHS = 12, WEEKDAYS = 7, TOKEN_SIZE = 32, PRICE_E4 = 10000 };

static const char *const WEEKDAY_WORDS[WEEKDAYS] = {"mon", "tue", "wed", "thu",
                                                    "fri", "sat", "sun"};
const WordList CELL_WEEKDAYS = {WEEKDAY_WORDS, WEEKDAYS};

bool cell_is_decimal(const Field *field)
{
    return field->kind == FIELD_NUMBER || field->kind == FIELD_PRICE ||
           field->kind == FIELD_MONTHLY;
}

/* ---- What is expected, in words ------------------------------------------ */

static void describe_limits(const Field *field, const char *what,
                            char out[CELL_TEXT_SIZE])
{
    snprintf(out, CELL_TEXT_SIZE, "%s from %.12g to %.12g", what, field->least,
             field->most);
}

static void describe_words(const Field *field, const char *start,
                           const char *between, char out[CELL_TEXT_SIZE])
{
    const WordList *list = &FARM_WORDS[field->extra];
    size_t used = (size_t)snprintf(out, CELL_TEXT_SIZE, "%s", start);
    for (int i = 0; i < list->count && used < CELL_TEXT_SIZE; i++) {
        used += (size_t)snprintf(out + used, CELL_TEXT_SIZE - used, "%s%s",
                                 i ? between : "", list->words[i]);
    }
}

void cell_describe(const Field *field, char out[CELL_TEXT_SIZE])
{
    switch (field->kind) {
    case FIELD_ID:
        snprintf(out, CELL_TEXT_SIZE,
                 "a word of at most 60 letters, digits, - _ or .");
        return;
    case FIELD_REF:
        snprintf(out, CELL_TEXT_SIZE, "an id of the table %s",
                 FARM_TABLES[field->extra].name);
        return;
    case FIELD_TEXT:
        snprintf(out, CELL_TEXT_SIZE, "text");
        return;
    case FIELD_NUMBER:
        describe_limits(field, "a number", out);
        return;
    case FIELD_COUNT:
        describe_limits(field, "a whole number", out);
        return;
    case FIELD_DATE:
        snprintf(out, CELL_TEXT_SIZE, "a date as 2027-03-01");
        return;
    case FIELD_INSTANT:
        snprintf(out, CELL_TEXT_SIZE,
                 "a time with its offset as 2027-03-01T06:10+01:00");
        return;
    case FIELD_FLAG:
        snprintf(out, CELL_TEXT_SIZE, "yes or no");
        return;
    case FIELD_PRICE:
        describe_limits(field, "an amount, at most four decimals,", out);
        return;
    case FIELD_WORD:
        describe_words(field, "one of: ", ", ", out);
        return;
    case FIELD_WORDS:
        describe_words(field, "words of these, spaces between: ", " ", out);
        return;
    case FIELD_MONTHS:
        snprintf(out, CELL_TEXT_SIZE,
                 "all, or months and spans of them as 5-10 or 11-3 7");
        return;
    case FIELD_MONTHLY:
        describe_limits(field, "one number, or twelve with spaces,", out);
        return;
    case FIELD_WEEKDAYS:
        snprintf(out, CELL_TEXT_SIZE, "all, or days as mon thu");
        return;
    }
}

/* ---- Blank cells ----------------------------------------------------------
 */

void cell_fill(const Field *field, bool is_faulty, void *row)
{
    void *at = (char *)row + field->offset;
    double fallback = field->fallback;
    switch (field->kind) {
    case FIELD_ID:
    case FIELD_TEXT:
        *(const char **)at = "";
        return;
    case FIELD_REF:
        *(int32_t *)at = -1;
        return;
    case FIELD_NUMBER:
        *(double *)at = is_faulty ? (double)NAN : fallback;
        return;
    case FIELD_MONTHLY:
        for (int i = 0; i < MONTHS; i++) {
            ((double *)at)[i] = is_faulty ? (double)NAN : fallback;
        }
        return;
    case FIELD_COUNT:
        *(int32_t *)at = is_faulty ? COUNT_WRONG : (int32_t)fallback;
        return;
    case FIELD_DATE:
        *(int32_t *)at = is_faulty ? DATE_ALWAYS : (int32_t)fallback;
        return;
    case FIELD_WORD:
        *(int32_t *)at = (int32_t)fallback;
        return;
    case FIELD_INSTANT:
        *(int64_t *)at = (int64_t)fallback;
        return;
    case FIELD_PRICE:
        *(int64_t *)at = (int64_t)(fallback * PRICE_E4);
        return;
    case FIELD_FLAG:
        *(bool *)at = fallback > 0.0;
        return;
    case FIELD_WORDS:
    case FIELD_MONTHS:
    case FIELD_WEEKDAYS:
        *(uint32_t *)at = (uint32_t)fallback;
        return;
    }
}

/* ---- To text --------------------------------------------------------------
 */

static const char *format_number(double value, Arena *arena)
{
    char text[TOKEN_SIZE];
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, value);
        double back = strtod(text, NULL);
        if (!(back < value) && !(back > value)) {
            break;
        }
    }
    return arena_copy_text(arena, text);
}

static const char *format_price(int64_t value_e4, Arena *arena)
{
    int64_t size = value_e4 < 0 ? -value_e4 : value_e4;
    char part[8];
    snprintf(part, sizeof part, "%04d", (int)(size % PRICE_E4));
    /* Two decimals at least, as prices are written. */
    for (int last = 3; last > 1 && part[last] == '0'; last--) {
        part[last] = '\0';
    }
    return arena_text(arena, "%s%lld.%s", value_e4 < 0 ? "-" : "",
                      (long long)(size / PRICE_E4), part);
}

static const char *format_bits(uint32_t bits, const char *const *words,
                               int count, Arena *arena)
{
    const char *text = "";
    for (int i = 0; i < count; i++) {
        if (bits >> i & 1u) {
            text =
                arena_text(arena, "%s%s%s", text, *text ? " " : "", words[i]);
        }
    }
    return text;
}

/* Spans of months in the order of the year; one over its end comes first. */
static const char *format_months(uint32_t bits, Arena *arena)
{
    if (bits == MONTHS_ALL) {
        return "all";
    }
    const char *text = "";
    for (int first = 0; first < MONTHS; first++) {
        bool is_start = (bits >> first & 1u) &&
                        !(bits >> ((first + MONTHS - 1) % MONTHS) & 1u);
        if (!is_start) {
            continue;
        }
        int last = first;
        while (bits >> ((last + 1) % MONTHS) & 1u) {
            last = (last + 1) % MONTHS;
        }
        const char *gap = *text ? " " : "";
        text = last == first ? arena_text(arena, "%s%s%d", text, gap, first + 1)
                             : arena_text(arena, "%s%s%d-%d", text, gap,
                                          first + 1, last + 1);
    }
    return text;
}

static const char *format_monthly(const double *values, Arena *arena)
{
    const char *text = format_number(values[0], arena);
    bool is_same = true;
    for (int i = 1; i < MONTHS; i++) {
        is_same &= !(values[i] < values[0]) && !(values[i] > values[0]);
    }
    for (int i = 1; i < MONTHS && !is_same; i++) {
        text =
            arena_text(arena, "%s %s", text, format_number(values[i], arena));
    }
    return text;
}

static const char *format_date(int32_t day, Arena *arena)
{
    if (day == DATE_ALWAYS || day == DATE_NEVER) {
        return "";
    }
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy_text(arena, text);
}

static const char *format_instant(int64_t at_s, Arena *arena)
{
    int64_t days = at_s / 86400 - (at_s % 86400 < 0);
    int rest_s = (int)(at_s - days * 86400);
    char date[DATE_TEXT_SIZE];
    date_format((int32_t)days, date);
    if (rest_s % 60) {
        return arena_text(arena, "%sT%02d:%02d:%02dZ", date, rest_s / 3600,
                          rest_s / 60 % 60, rest_s % 60);
    }
    return arena_text(arena, "%sT%02d:%02dZ", date, rest_s / 3600,
                      rest_s / 60 % 60);
}

/* Where the id of the first row stands, and how many rows there are. */
static const char *first_id(const Farm *farm, const Table *table,
                            int32_t *out_count)
{
    const char *bytes = (const char *)farm;
    *out_count = *(const int32_t *)(bytes + table->count_offset);
    const char *rows = *(char *const *)(bytes + table->rows_offset);
    return *out_count > 0 ? rows + table->fields[0].offset : NULL;
}

const char *cell_row_id(const Farm *farm, int table, int32_t index)
{
    const Table *described = &FARM_TABLES[table];
    int32_t count = 0;
    const char *at = first_id(farm, described, &count);
    if (described->fields[0].kind != FIELD_ID || index < 0 || index >= count) {
        return NULL;
    }
    return *(const char *const *)(at + (size_t)index * described->row_size);
}

int32_t cell_row_of(const Farm *farm, int table, const char *id)
{
    const Table *described = &FARM_TABLES[table];
    assert(described->fields[0].kind == FIELD_ID);
    int32_t count = 0;
    const char *at = first_id(farm, described, &count);
    for (int32_t i = 0; *id && i < count; i++, at += described->row_size) {
        if (strcmp(*(const char *const *)at, id) == 0) {
            return i;
        }
    }
    return -1;
}

const char *cell_format(const Field *field, const void *row, const Farm *farm,
                        Arena *arena)
{
    const void *at = (const char *)row + field->offset;
    const WordList *list = NULL;
    switch (field->kind) {
    case FIELD_ID:
    case FIELD_TEXT:
        return *(const char *const *)at ? *(const char *const *)at : "";
    case FIELD_REF: {
        const char *id = cell_row_id(farm, field->extra, *(const int32_t *)at);
        return id ? id : "";
    }
    case FIELD_NUMBER: {
        /* A fallback beyond the limits can only be said by a blank. */
        double value = *(const double *)at;
        bool is_blank =
            !field->is_needed && (value < field->least || value > field->most);
        return is_blank ? "" : format_number(value, arena);
    }
    case FIELD_COUNT:
        return arena_text(arena, "%d", (int)*(const int32_t *)at);
    case FIELD_DATE:
        return format_date(*(const int32_t *)at, arena);
    case FIELD_INSTANT:
        return format_instant(*(const int64_t *)at, arena);
    case FIELD_FLAG:
        return *(const bool *)at ? "yes" : "no";
    case FIELD_PRICE:
        return format_price(*(const int64_t *)at, arena);
    case FIELD_WORD:
        list = &FARM_WORDS[field->extra];
        assert(*(const int32_t *)at >= 0 && *(const int32_t *)at < list->count);
        return list->words[*(const int32_t *)at];
    case FIELD_WORDS:
        list = &FARM_WORDS[field->extra];
        return format_bits(*(const uint32_t *)at, list->words, list->count,
                           arena);
    case FIELD_MONTHS:
        return format_months(*(const uint32_t *)at, arena);
    case FIELD_MONTHLY: {
        double first = *(const double *)at;
        return !field->is_needed && first < field->least
                   ? ""
                   : format_monthly(at, arena);
    }
    case FIELD_WEEKDAYS:
        if (*(const uint32_t *)at == WEEKDAYS_ALL) {
            return "all";
        }
        return format_bits(*(const uint32_t *)at, WEEKDAY_WORDS, WEEKDAYS,
                           arena);
    }
    return "";
}
