/* The table of sums, and answering one of them. */
#include "sums/table.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "sums/rows.h"

/* One farm's daily arithmetic: subjects in the order of the list. */
static const SumSubject SUBJECTS[] = {
    {"Water", SUMS_WATER},
    {"Doses and top-up", SUMS_DOSE},
    {"Fish", SUMS_FISH},
    {"Sizes and grading", SUMS_GRADE},
    {"Plants", SUMS_PLANTS},
    {"Beds", SUMS_BEDS},
    {"Flow", SUMS_FLOW},
    {"Air and light", SUMS_CLIMATE},
    {"Money and hands", SUMS_MONEY},
};

enum {
    SUBJECT_COUNT = sizeof SUBJECTS / sizeof *SUBJECTS,
    NAMES_MAX = 128,
};

const SumSubject *sum_subjects(size_t *out_count)
{
    *out_count = SUBJECT_COUNT;
    return SUBJECTS;
}

Err sum_find(const char *name, const Sum **out)
{
    const char *names[NAMES_MAX];
    size_t count = 0;
    for (size_t i = 0; i < SUBJECT_COUNT; i++) {
        for (const Sum *s = SUBJECTS[i].sums; s->name; s++) {
            if (strcmp(s->name, name) == 0) {
                *out = s;
                return ERR_NONE;
            }
            assert(count < NAMES_MAX);
            names[count++] = s->name;
        }
    }
    const char *nearest = text_nearest(name, names, count);
    if (nearest) {
        return err_make(ERR_USAGE, "no sum \"%.60s\"; did you mean %s?", name,
                        nearest);
    }
    return err_make(ERR_USAGE, "no sum \"%.60s\"; leat sum lists them", name);
}

const char *sum_key_expects(const SumKey *key, Arena *arena)
{
    switch (key->kind) {
    case SUM_NUMBER:
        return arena_text(arena, "%.10g to %.10g%s%s", key->least, key->most,
                          *key->unit ? " " : "", key->unit);
    case SUM_COUNT:
        return arena_text(arena, "a whole number, %.10g to %.10g", key->least,
                          key->most);
    case SUM_FLAG:
        return "0 or 1";
    case SUM_WORD:
        return arena_text(arena, "such as %s", key->unit);
    case SUM_DATE:
        return "a date such as 2027-03-01";
    case SUM_INSTANT:
        return "a time such as 2027-03-01T06:10+01:00";
    }
    return "";
}

const char *sum_example_line(const Sum *sum, Arena *arena)
{
    return arena_text(arena, "leat sum %s %s", sum->name, sum->example);
}

/* "12" as 0..most, or -1. */
static int two_digits(const char *text, int most)
{
    for (int i = 0; i < 2; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return -1;
        }
    }
    int value = 10 * (text[0] - '0') + text[1] - '0';
    return value <= most ? value : -1;
}

/* "Z" or "+01:00" to the end of the text. */
static bool parse_offset(const char *text, int *out_s)
{
    if (strcmp(text, "Z") == 0) {
        *out_s = 0;
        return true;
    }
    if (strlen(text) != 6 || (text[0] != '+' && text[0] != '-') ||
        text[3] != ':') {
        return false;
    }
    int hours = two_digits(text + 1, 14);
    int minutes = two_digits(text + 4, 59);
    *out_s = (text[0] == '-' ? -1 : 1) * (hours * 60 + minutes) * 60;
    return hours >= 0 && minutes >= 0;
}

/* 2027-03-01T06:10 with seconds or not, then the offset. */
static bool parse_instant(const char *text, SumInput *out)
{
    enum { DATE_LENGTH = 10, SHORTEST = 17 };
    if (strlen(text) < SHORTEST || text[DATE_LENGTH] != 'T' ||
        text[13] != ':') {
        return false;
    }
    char date[DATE_TEXT_SIZE] = {0};
    memcpy(date, text, DATE_LENGTH);
    Err err = date_parse(date, &out->day);
    int hour = two_digits(text + 11, 23);
    int minute = two_digits(text + 14, 59);
    int second = 0;
    const char *offset = text + 16;
    if (*offset == ':') {
        second = two_digits(offset + 1, 59);
        offset += second < 0 ? 0 : 3;
    }
    if (err.kind != ERR_OK || hour < 0 || minute < 0 || second < 0 ||
        !parse_offset(offset, &out->offset_s)) {
        return false;
    }
    int64_t local_s =
        (((int64_t)out->day * 24 + hour) * 60 + minute) * 60 + second;
    out->utc_s = local_s - out->offset_s;
    return true;
}

static Err parse_number(const SumKey *key, const char *text, double *out)
{
    double value = 0.0;
    if (text_to_f64(text, &value).kind != ERR_OK) {
        return err_make(ERR_INPUT, "%s=%.40s is not a number", key->name, text);
    }
    bool is_whole = !(value < floor(value)) && !(value > floor(value));
    if (key->kind != SUM_NUMBER && !is_whole) {
        return err_make(ERR_INPUT, "%s=%.40s is not a whole number", key->name,
                        text);
    }
    if (value < key->least || value > key->most) {
        return err_make(ERR_RANGE,
                        "%s=%.40s is out of range: %.10g to %.10g%s%s",
                        key->name, text, key->least, key->most,
                        *key->unit ? " " : "", key->unit);
    }
    *out = value;
    return ERR_NONE;
}

static Err parse_input(const SumKey *key, const char *text, SumInput *out)
{
    SumInput input = {.text = text, .is_given = true};
    if (!*text) {
        return err_make(ERR_INPUT, "%s= has no value", key->name);
    }
    switch (key->kind) {
    case SUM_NUMBER:
    case SUM_COUNT:
    case SUM_FLAG:
        TRY(parse_number(key, text, &input.number));
        break;
    case SUM_WORD:
        break;
    case SUM_DATE:
        if (date_parse(text, &input.day).kind != ERR_OK) {
            return err_make(ERR_INPUT,
                            "%s=%.40s is not a date such as 2027-03-01",
                            key->name, text);
        }
        break;
    case SUM_INSTANT:
        if (!parse_instant(text, &input)) {
            return err_make(ERR_INPUT,
                            "%s=%.40s is not a time with its offset, such as "
                            "2027-03-01T06:10+01:00",
                            key->name, text);
        }
        break;
    }
    *out = input;
    return ERR_NONE;
}

static Err unknown_key(const Sum *sum, const char *key)
{
    const char *names[SUM_KEYS_MAX];
    size_t count = 0;
    for (const SumKey *k = sum->keys; k->name; k++) {
        names[count++] = k->name;
    }
    const char *nearest = text_nearest(key, names, count);
    if (nearest) {
        return err_make(ERR_USAGE, "%s has no key %.60s; did you mean %s?",
                        sum->name, key, nearest);
    }
    return err_make(ERR_USAGE, "%s has no key %.60s", sum->name, key);
}

static Err take_fact(const Sum *sum, const SumFact *fact, SumInputs *out)
{
    for (int i = 0; sum->keys[i].name; i++) {
        if (strcmp(sum->keys[i].name, fact->key) != 0) {
            continue;
        }
        if (out->of[i].is_given) {
            return err_make(ERR_USAGE, "%s= is given twice", fact->key);
        }
        return parse_input(&sum->keys[i], fact->value, &out->of[i]);
    }
    return unknown_key(sum, fact->key);
}

static Err fill_missing(const Sum *sum, SumInputs *out)
{
    for (int i = 0; sum->keys[i].name; i++) {
        const SumKey *key = &sum->keys[i];
        if (out->of[i].is_given || key->need == SUM_MAY) {
            continue;
        }
        if (key->need == SUM_REQUIRED) {
            return err_make(ERR_USAGE, "%s= is missing: %s", key->name,
                            key->meaning);
        }
        out->of[i] = (SumInput){
            .is_given = true,
            .number = key->usual,
            .text = key->kind == SUM_WORD ? key->unit : NULL,
        };
    }
    return ERR_NONE;
}

/* Days that the calendar here does not reach. */
static Err dates_are_told(const SumAnswer *answer)
{
    static const CivilDate FIRST = {1900, 1, 1};
    static const CivilDate LAST = {2199, 12, 31};
    if (strcmp(answer->main.unit, "date") != 0) {
        return ERR_NONE;
    }
    double day = answer->main.value;
    if (day < date_from_civil(FIRST) || day > date_from_civil(LAST)) {
        return err_make(ERR_RANGE, "that day is not between 1900 and 2199");
    }
    return ERR_NONE;
}

Err sum_answer(const Sum *sum, const SumFact *facts, size_t count, Arena *arena,
               SumAnswer *out)
{
    SumAnswer answer = {.arena = arena, .inputs.sum = sum};
    for (size_t i = 0; i < count; i++) {
        TRY(take_fact(sum, &facts[i], &answer.inputs));
    }
    TRY(fill_missing(sum, &answer.inputs));
    sum_source(&answer, sum->source);
    TRY(sum->run(&answer.inputs, &answer));
    TRY(dates_are_told(&answer));
    if (!isfinite(answer.main.value) || !isfinite(answer.main.low) ||
        !isfinite(answer.main.high)) {
        return err_make(ERR_RANGE, "%s has no finite answer for these numbers",
                        sum->name);
    }
    *out = answer;
    return ERR_NONE;
}
