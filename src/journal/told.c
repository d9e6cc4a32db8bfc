/* Entries as they were told: their fields and kinds as data, and what can be
 * checked without a farm. */
#include "journal/told.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"

enum { MINUTES_PER_HOUR = 60, HOURS_PER_DAY = 24, CLOCK_LENGTH = 5 };

#define FIELD_ROW(type, name, absent, least, most, meaning)                    \
    {TOLD_TYPE_##type,     #name,  absent, least, most,                        \
     offsetof(Told, name), meaning},
const ToldField TOLD_FIELD_TABLE[TOLD_FIELD_COUNT] = {TOLD_FIELDS(FIELD_ROW)};

#define B(name) (UINT64_C(1) << TOLD_AT_##name)
#define KIND_ROW(name, word, needs, one, may, meaning)                         \
    {word, needs, one, may, meaning},
const ToldKindInfo TOLD_KIND_TABLE[TOLD_KIND_COUNT] = {TOLD_KINDS(KIND_ROW)};

const uint64_t TOLD_ALWAYS = B(number) | B(uid) | B(kind) | B(happened_on) |
                             B(happened_at) | B(told_at) | B(told_on) | B(who) |
                             B(device) | B(job) | B(stop) | B(minutes) |
                             B(text) | B(blob);

#define QUANTITY_ROW(key, unit, least, most) {key, unit, least, most},
static const ToldQuantity QUANTITY_TABLE[] = {TOLD_QUANTITIES(QUANTITY_ROW)};

const ToldQuantity *told_quantities(int *out_count)
{
    *out_count = (int)(sizeof QUANTITY_TABLE / sizeof *QUANTITY_TABLE);
    return QUANTITY_TABLE;
}

/* ---- Members by their description -----------------------------------------
 */

static const void *at(const Told *told, const ToldField *field)
{
    return (const char *)told + field->offset;
}

static void *at_mutable(Told *told, const ToldField *field)
{
    return (char *)told + field->offset;
}

Told told_blank(ToldKind kind, int32_t day)
{
    Told told = {0};
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        const ToldField *field = &TOLD_FIELD_TABLE[i];
        void *member = at_mutable(&told, field);
        switch (field->type) {
        case TOLD_TYPE_TEXT:
            *(const char **)member = "";
            break;
        case TOLD_TYPE_WHOLE:
            *(int64_t *)member = field->absent;
            break;
        case TOLD_TYPE_REAL:
            *(double *)member = NAN;
            break;
        case TOLD_TYPE_DAY:
            *(int32_t *)member = DATE_ALWAYS;
            break;
        case TOLD_TYPE_FLAG:
        case TOLD_TYPE_KIND:
            break;
        }
    }
    told.kind = (int32_t)kind;
    told.happened_on = day;
    return told;
}

bool told_has(const Told *told, ToldFieldId id)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    const void *member = at(told, field);
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        return **(const char *const *)member != '\0';
    case TOLD_TYPE_WHOLE:
        return *(const int64_t *)member != field->absent;
    case TOLD_TYPE_REAL:
        return !isnan(*(const double *)member);
    case TOLD_TYPE_DAY:
        return *(const int32_t *)member != DATE_ALWAYS;
    case TOLD_TYPE_FLAG:
        return *(const bool *)member;
    case TOLD_TYPE_KIND:
        return true;
    }
    return false;
}

bool told_is_late(const Told *told)
{
    return told->told_on != DATE_ALWAYS && told->told_on > told->happened_on;
}

/* ---- Words ----------------------------------------------------------------
 */

const char *told_kind_word(int32_t kind)
{
    return kind >= 0 && kind < TOLD_KIND_COUNT ? TOLD_KIND_TABLE[kind].word
                                               : "?";
}

Err told_kind_find(const char *word, ToldKind *out)
{
    const char *words[TOLD_KIND_COUNT];
    for (int i = 0; i < TOLD_KIND_COUNT; i++) {
        words[i] = TOLD_KIND_TABLE[i].word;
        if (strcmp(word, words[i]) == 0) {
            *out = (ToldKind)i;
            return ERR_NONE;
        }
    }
    const char *nearest = text_nearest(word, words, TOLD_KIND_COUNT);
    return nearest ? err_make(ERR_USAGE,
                              "no entry is of kind \"%.40s\"; did you mean %s?",
                              word, nearest)
                   : err_make(ERR_USAGE,
                              "no entry is of kind \"%.40s\" (leat note lists "
                              "the kinds)",
                              word);
}

Err told_field_find(const char *name, ToldFieldId *out)
{
    const char *names[TOLD_FIELD_COUNT];
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        names[i] = TOLD_FIELD_TABLE[i].name;
        if (strcmp(name, names[i]) == 0) {
            *out = (ToldFieldId)i;
            return ERR_NONE;
        }
    }
    const char *nearest = text_nearest(name, names, TOLD_FIELD_COUNT);
    return nearest ? err_make(ERR_USAGE,
                              "an entry has no \"%.40s\"; did you mean %s?",
                              name, nearest)
                   : err_make(ERR_USAGE, "an entry has no \"%.40s\"", name);
}

/* ---- Text to a field and back ---------------------------------------------
 */

static Err put_whole(const ToldField *field, const char *text, int64_t *out)
{
    double value = 0.0;
    Err err = text_to_f64(text, &value);
    if (err.kind != ERR_OK || value < field->least || value > field->most ||
        floor(value) < value) {
        return err_make(ERR_INPUT,
                        "%s=%.40s: expected a whole number from %.0f to %.0f",
                        field->name, text, field->least, field->most);
    }
    *out = (int64_t)value;
    return ERR_NONE;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* "07:30" as minutes of the day, or a number of them. */
static Err put_minute(const ToldField *field, const char *text, int64_t *out)
{
    if (strlen(text) == CLOCK_LENGTH && text[2] == ':' && is_digit(text[0]) &&
        is_digit(text[1]) && is_digit(text[3]) && is_digit(text[4])) {
        int hour = (text[0] - '0') * 10 + (text[1] - '0');
        int minute = (text[3] - '0') * 10 + (text[4] - '0');
        if (hour < HOURS_PER_DAY && minute < MINUTES_PER_HOUR) {
            *out = hour * MINUTES_PER_HOUR + minute;
            return ERR_NONE;
        }
    }
    Err err = put_whole(field, text, out);
    return err.kind == ERR_OK
               ? err
               : err_make(ERR_INPUT,
                          "%s=%.40s: expected a time of day as 07:30",
                          field->name, text);
}

static Err put_flag(const ToldField *field, const char *text, bool *out)
{
    bool is_yes = strcmp(text, "yes") == 0;
    if (!is_yes && strcmp(text, "no") != 0) {
        return err_make(ERR_INPUT, "%s=%.40s: expected yes or no", field->name,
                        text);
    }
    *out = is_yes;
    return ERR_NONE;
}

static Err put_real(const ToldField *field, const char *text, double *out)
{
    double value = 0.0;
    Err err = text_to_f64(text, &value);
    if (err.kind != ERR_OK || value < field->least || value > field->most) {
        return err_make(ERR_INPUT, "%s=%.40s: expected a number from %g to %g",
                        field->name, text, field->least, field->most);
    }
    *out = value;
    return ERR_NONE;
}

Err told_put_text(ToldFieldId id, const char *text, Told *told)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    void *member = at_mutable(told, field);
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        *(const char **)member = text;
        return ERR_NONE;
    case TOLD_TYPE_WHOLE:
        return id == TOLD_AT_happened_at ? put_minute(field, text, member)
                                         : put_whole(field, text, member);
    case TOLD_TYPE_REAL:
        return put_real(field, text, member);
    case TOLD_TYPE_DAY: {
        Err err = date_parse(text, member);
        return err.kind == ERR_OK
                   ? err
                   : err_make(ERR_INPUT,
                              "%s=%.40s: expected a day as 2027-03-01",
                              field->name, text);
    }
    case TOLD_TYPE_FLAG:
        return put_flag(field, text, member);
    case TOLD_TYPE_KIND: {
        ToldKind kind = TOLD_SEEN;
        TRY(told_kind_find(text, &kind));
        *(int32_t *)member = (int32_t)kind;
        return ERR_NONE;
    }
    }
    return err_make(ERR_DEFECT, "field %d has no type", (int)id);
}

const char *told_text(const Told *told, ToldFieldId id, Arena *arena)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    const void *member = at(told, field);
    if (!told_has(told, id)) {
        return "";
    }
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        return *(const char *const *)member;
    case TOLD_TYPE_WHOLE: {
        long long value = *(const int64_t *)member;
        return id == TOLD_AT_happened_at
                   ? arena_text(arena, "%02d:%02d",
                                (int)(value / MINUTES_PER_HOUR),
                                (int)(value % MINUTES_PER_HOUR))
                   : arena_text(arena, "%lld", value);
    }
    case TOLD_TYPE_REAL:
        return arena_text(arena, "%.15g", *(const double *)member);
    case TOLD_TYPE_DAY: {
        char day[DATE_TEXT_SIZE];
        date_format(*(const int32_t *)member, day);
        return arena_copy_text(arena, day);
    }
    case TOLD_TYPE_FLAG:
        return "yes";
    case TOLD_TYPE_KIND:
        return told_kind_word(*(const int32_t *)member);
    }
    return "";
}

/* ---- What can be known without the farm -----------------------------------
 */

static Err check_text(const ToldField *field, const char *text)
{
    size_t length = strlen(text);
    if ((double)length > field->most) {
        return err_make(ERR_INPUT, "%s: %zu bytes; at most %.0f can be kept",
                        field->name, length, field->most);
    }
    if (text_utf8_valid(text, length) != length) {
        return err_make(ERR_INPUT, "%s: is not UTF-8", field->name);
    }
    bool is_long = field->offset == offsetof(Told, text);
    if (!is_long && text_plain(text, length) != length) {
        return err_make(ERR_INPUT,
                        "%s: holds a line end or another character that does "
                        "not print",
                        field->name);
    }
    return ERR_NONE;
}

static Err check_range(const ToldField *field, double value)
{
    if (!(value >= field->least && value <= field->most)) {
        return err_make(ERR_INPUT, "%s: %g; expected a number from %g to %g",
                        field->name, value, field->least, field->most);
    }
    return ERR_NONE;
}

static Err check_field(const Told *told, ToldFieldId id)
{
    const ToldField *field = &TOLD_FIELD_TABLE[id];
    const void *member = at(told, field);
    switch (field->type) {
    case TOLD_TYPE_TEXT:
        return check_text(field, *(const char *const *)member);
    case TOLD_TYPE_WHOLE:
        return check_range(field, (double)*(const int64_t *)member);
    case TOLD_TYPE_REAL:
        return check_range(field, *(const double *)member);
    case TOLD_TYPE_DAY: {
        char text[DATE_TEXT_SIZE];
        int32_t day = *(const int32_t *)member;
        date_format(day, text);
        int32_t again = 0;
        Err err = date_parse(text, &again);
        return err.kind == ERR_OK && again == day
                   ? ERR_NONE
                   : err_make(ERR_INPUT, "%s: is no day", field->name);
    }
    case TOLD_TYPE_FLAG:
    case TOLD_TYPE_KIND:
        return ERR_NONE;
    }
    return ERR_NONE;
}

/* "place, batch" of the bits. */
static void name_fields(uint64_t bits, char *out, size_t size)
{
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        const char *name = TOLD_FIELD_TABLE[i].name;
        size_t need = strlen(name) + 2;
        if (!(bits >> i & 1) || used + need >= size) {
            continue;
        }
        if (used > 0) {
            memcpy(out + used, ", ", 2);
            used += 2;
        }
        memcpy(out + used, name, strlen(name) + 1);
        used += strlen(name);
    }
}

static Err check_fields_of_kind(const Told *told)
{
    const ToldKindInfo *kind = &TOLD_KIND_TABLE[told->kind];
    uint64_t has = 0;
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        has |= (uint64_t)told_has(told, (ToldFieldId)i) << i;
    }
    char names[160];
    if ((has & kind->needs) != kind->needs) {
        name_fields(kind->needs & ~has, names, sizeof names);
        return err_make(ERR_INPUT, "%s: needs %s", kind->word, names);
    }
    if (kind->needs_one && !(has & kind->needs_one)) {
        name_fields(kind->needs_one, names, sizeof names);
        return err_make(ERR_INPUT, "%s: needs one of %s", kind->word, names);
    }
    uint64_t extra =
        has & ~(kind->needs | kind->needs_one | kind->may | TOLD_ALWAYS);
    if (extra) {
        name_fields(extra, names, sizeof names);
        return err_make(ERR_INPUT, "%s: has no %s", kind->word, names);
    }
    return ERR_NONE;
}

Err told_check_alone(const Told *told)
{
    if (told->kind < 0 || told->kind >= TOLD_KIND_COUNT) {
        return err_make(ERR_INPUT, "kind %d: there is none", (int)told->kind);
    }
    if (!told_has(told, TOLD_AT_happened_on)) {
        return err_make(ERR_INPUT,
                        "%s: needs the day, as "
                        "happened_on=2027-03-01",
                        told_kind_word(told->kind));
    }
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        if (told_has(told, (ToldFieldId)i)) {
            TRY(check_field(told, (ToldFieldId)i));
        }
    }
    if (told_has(told, TOLD_AT_strikes) != (told->kind == TOLD_STRUCK)) {
        return err_make(ERR_INPUT, "strikes: belongs to an entry of kind "
                                   "struck, and only there");
    }
    return check_fields_of_kind(told);
}
