/* One cell of a table, from its text to the member of a record. */
#include "farm/cell.h"

#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"

enum { MONTHS = 12, TOKEN_SIZE = 32, PRICE_E4 = 10000, ID_MAX_BYTES = 60 };

static void *member(const Field *field, void *row)
{
    return (char *)row + field->offset;
}

static Err expect(const Field *field)
{
    char text[CELL_TEXT_SIZE];
    cell_describe(field, text);
    return err_make(ERR_INPUT, "%.240s", text);
}

/* ---- From text ------------------------------------------------------------
 */

/* Copies the next word of text, "" at its end; returns where to go on. A word
 * too long for out is cut, which no list holds. */
static const char *next_token(const char *text, char out[TOKEN_SIZE])
{
    text += strspn(text, " ");
    size_t length = strcspn(text, " ");
    size_t kept = length < TOKEN_SIZE - 1 ? length : TOKEN_SIZE - 1;
    memcpy(out, text, kept);
    out[kept] = '\0';
    return text + length;
}

static Err parse_id(const Field *field, const char *text, void *row)
{
    size_t length = strlen(text);
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        bool is_letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                         (c >= '0' && c <= '9') || c >= 0x80;
        if (!is_letter && !strchr("-_.", c)) {
            return expect(field);
        }
    }
    if (length > ID_MAX_BYTES) {
        return expect(field);
    }
    *(const char **)member(field, row) = text;
    return ERR_NONE;
}

static bool number_in_limits(const Field *field, const char *text, double *out)
{
    Err err = text_to_f64(text, out);
    return err.kind == ERR_OK && *out >= field->least && *out <= field->most;
}

static Err parse_number(const Field *field, const char *text, void *row)
{
    double value = 0.0;
    if (!number_in_limits(field, text, &value)) {
        return expect(field);
    }
    *(double *)member(field, row) = value;
    return ERR_NONE;
}

static Err parse_count(const Field *field, const char *text, void *row)
{
    double value = 0.0;
    const char *digits = text + (*text == '-');
    bool is_whole = strspn(digits, "0123456789") == strlen(digits);
    if (!is_whole || !number_in_limits(field, text, &value)) {
        return expect(field);
    }
    *(int32_t *)member(field, row) = (int32_t)value;
    return ERR_NONE;
}

static Err parse_monthly(const Field *field, const char *text, void *row)
{
    double values[MONTHS];
    int count = 0;
    char token[TOKEN_SIZE];
    const char *rest = next_token(text, token);
    for (; *token; rest = next_token(rest, token)) {
        if (count == MONTHS ||
            !number_in_limits(field, token, &values[count])) {
            return expect(field);
        }
        count++;
    }
    if (count != 1 && count != MONTHS) {
        return expect(field);
    }
    double *out = member(field, row);
    for (int i = 0; i < MONTHS; i++) {
        out[i] = values[count == 1 ? 0 : i];
    }
    return ERR_NONE;
}

/* Digits, then a point and one to four digits at most; in 1/10000. */
static bool price_e4(const char *text, int64_t *out)
{
    bool is_negative = *text == '-';
    const char *whole = text + is_negative;
    size_t whole_length = strspn(whole, "0123456789");
    const char *part = whole + whole_length;
    size_t part_length = 0;
    if (*part == '.') {
        part++;
        part_length = strspn(part, "0123456789");
        if (part_length == 0 || part_length > 4) {
            return false;
        }
    }
    if (whole_length == 0 || whole_length > 12 || part[part_length]) {
        return false;
    }
    int64_t value = 0;
    for (size_t i = 0; i < whole_length; i++) {
        value = value * 10 + (whole[i] - '0');
    }
    for (size_t i = 0; i < 4; i++) {
        value = value * 10 + (i < part_length ? part[i] - '0' : 0);
    }
    *out = is_negative ? -value : value;
    return true;
}

static Err parse_price(const Field *field, const char *text, void *row)
{
    int64_t value = 0;
    if (!price_e4(text, &value) || (double)value < field->least * PRICE_E4 ||
        (double)value > field->most * PRICE_E4) {
        return expect(field);
    }
    *(int64_t *)member(field, row) = value;
    return ERR_NONE;
}

static int word_find(const WordList *list, const char *word)
{
    for (int i = 0; i < list->count; i++) {
        if (strcmp(list->words[i], word) == 0) {
            return i;
        }
    }
    return -1;
}

static Err expect_word(const Field *field, const char *word)
{
    const WordList *list = &FARM_WORDS[field->extra];
    const char *near = text_nearest(word, list->words, (size_t)list->count);
    char text[CELL_TEXT_SIZE];
    cell_describe(field, text);
    return err_make(ERR_INPUT, "%.200s%s%s%s", text, near ? " (near: " : "",
                    near ? near : "", near ? ")" : "");
}

static Err parse_word(const Field *field, const char *text, void *row)
{
    int found = word_find(&FARM_WORDS[field->extra], text);
    if (found < 0) {
        return expect_word(field, text);
    }
    *(int32_t *)member(field, row) = found;
    return ERR_NONE;
}

static Err parse_words(const Field *field, const char *text, void *row)
{
    uint32_t bits = 0;
    char token[TOKEN_SIZE];
    const char *rest = next_token(text, token);
    for (; *token; rest = next_token(rest, token)) {
        int found = word_find(&FARM_WORDS[field->extra], token);
        if (found < 0) {
            return expect_word(field, token);
        }
        bits |= 1u << found;
    }
    *(uint32_t *)member(field, row) = bits;
    return ERR_NONE;
}

/* 1..12 at the start of text, 0 when there is none. */
static int month_at(const char *text, const char **out_rest)
{
    char *end = NULL;
    if (*text < '0' || *text > '9') {
        return 0;
    }
    long month = strtol(text, &end, 10);
    *out_rest = end;
    return month >= 1 && month <= MONTHS ? (int)month : 0;
}

/* "5", "5-10" or "11-3", which goes over the year's end. */
static bool month_span(const char *token, uint32_t *bits)
{
    const char *rest = token;
    int first = month_at(token, &rest);
    int last = first;
    if (first && *rest == '-') {
        last = month_at(rest + 1, &rest);
    }
    if (!first || !last || *rest) {
        return false;
    }
    for (int month = first;; month = month % MONTHS + 1) {
        *bits |= 1u << (month - 1);
        if (month == last) {
            return true;
        }
    }
}

static Err parse_months(const Field *field, const char *text, void *row)
{
    uint32_t bits = 0;
    char token[TOKEN_SIZE];
    if (strcmp(text, "all") == 0) {
        bits = MONTHS_ALL;
        text = "";
    }
    const char *rest = next_token(text, token);
    for (; *token; rest = next_token(rest, token)) {
        if (!month_span(token, &bits)) {
            return expect(field);
        }
    }
    *(uint32_t *)member(field, row) = bits;
    return ERR_NONE;
}

static Err parse_weekdays(const Field *field, const char *text, void *row)
{
    uint32_t bits = 0;
    char token[TOKEN_SIZE];
    if (strcmp(text, "all") == 0) {
        bits = WEEKDAYS_ALL;
        text = "";
    }
    const char *rest = next_token(text, token);
    for (; *token; rest = next_token(rest, token)) {
        int found = word_find(&CELL_WEEKDAYS, token);
        if (found < 0) {
            return expect(field);
        }
        bits |= 1u << found;
    }
    *(uint32_t *)member(field, row) = bits;
    return ERR_NONE;
}

static Err parse_flag(const Field *field, const char *text, void *row)
{
    bool is_yes = strcmp(text, "yes") == 0;
    if (!is_yes && strcmp(text, "no") != 0) {
        return expect(field);
    }
    *(bool *)member(field, row) = is_yes;
    return ERR_NONE;
}

static Err parse_date(const Field *field, const char *text, void *row)
{
    int32_t day = 0;
    Err err = date_parse(text, &day);
    if (err.kind != ERR_OK) {
        return expect(field);
    }
    *(int32_t *)member(field, row) = day;
    return ERR_NONE;
}

/* Two digits in 0..most at text, or -1. */
static int two_digits(const char *text, int most)
{
    if (text[0] < '0' || text[0] > '9' || text[1] < '0' || text[1] > '9') {
        return -1;
    }
    int value = (text[0] - '0') * 10 + (text[1] - '0');
    return value <= most ? value : -1;
}

/* "Z" or "+01:00", in minutes east; false when it is neither. */
static bool parse_offset(const char *text, int *out_min)
{
    if (strcmp(text, "Z") == 0) {
        *out_min = 0;
        return true;
    }
    if (strlen(text) != 6 || (text[0] != '+' && text[0] != '-') ||
        text[3] != ':') {
        return false;
    }
    int hours = two_digits(text + 1, 14);
    int minutes = two_digits(text + 4, 59);
    *out_min = (hours * 60 + minutes) * (text[0] == '-' ? -1 : 1);
    return hours >= 0 && minutes >= 0;
}

static Err parse_instant(const Field *field, const char *text, void *row)
{
    /* 2027-03-01T06:10 with seconds or not, then the offset. */
    if (strlen(text) < 17 || text[10] != 'T' || text[13] != ':') {
        return expect(field);
    }
    char date[DATE_TEXT_SIZE] = {0};
    memcpy(date, text, 10);
    int32_t day = 0;
    Err err = date_parse(date, &day);
    int hour = two_digits(text + 11, 23);
    int minute = two_digits(text + 14, 59);
    int second = 0;
    const char *offset = text + 16;
    if (*offset == ':') {
        second = two_digits(offset + 1, 59);
        offset += second < 0 ? 0 : 3;
    }
    int offset_min = 0;
    if (err.kind != ERR_OK || hour < 0 || minute < 0 || second < 0 ||
        !parse_offset(offset, &offset_min)) {
        return expect(field);
    }
    *(int64_t *)member(field, row) =
        (((int64_t)day * 24 + hour) * 60 + minute - offset_min) * 60 + second;
    return ERR_NONE;
}

Err cell_parse(const Field *field, const char *text, void *row)
{
    switch (field->kind) {
    case FIELD_ID:
        return parse_id(field, text, row);
    case FIELD_REF:
        break;
    case FIELD_TEXT:
        *(const char **)member(field, row) = text;
        return ERR_NONE;
    case FIELD_NUMBER:
        return parse_number(field, text, row);
    case FIELD_COUNT:
        return parse_count(field, text, row);
    case FIELD_DATE:
        return parse_date(field, text, row);
    case FIELD_INSTANT:
        return parse_instant(field, text, row);
    case FIELD_FLAG:
        return parse_flag(field, text, row);
    case FIELD_PRICE:
        return parse_price(field, text, row);
    case FIELD_WORD:
        return parse_word(field, text, row);
    case FIELD_WORDS:
        return parse_words(field, text, row);
    case FIELD_MONTHS:
        return parse_months(field, text, row);
    case FIELD_MONTHLY:
        return parse_monthly(field, text, row);
    case FIELD_WEEKDAYS:
        return parse_weekdays(field, text, row);
    }
    return err_make(ERR_DEFECT, "%s is not read as a cell", field->name);
}
