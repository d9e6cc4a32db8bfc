/* What was typed after a command's name. */
#include "cli/arguments.h"

#include <assert.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"

enum { NAMES_MAX = 64 };

static const ArgumentSpec *spec_find(const ArgumentSpec *specs,
                                     const char *name)
{
    for (; specs && specs->name; specs++) {
        if (strcmp(specs->name, name) == 0) {
            return specs;
        }
    }
    return NULL;
}

/* "unknown option --wek; did you mean --week?" what: "option --" or "key ". */
static Err unknown(const char *what, const char *mark,
                   const ArgumentSpec *specs, const char *name)
{
    const char *names[NAMES_MAX];
    size_t count = 0;
    for (; specs && specs->name && count < NAMES_MAX; specs++) {
        names[count++] = specs->name;
    }
    const char *nearest = text_nearest(name, names, count);
    if (nearest) {
        return err_make(ERR_USAGE, "unknown %s %s%.60s; did you mean %s%s?",
                        what, mark, name, mark, nearest);
    }
    return err_make(ERR_USAGE, "unknown %s %s%.60s", what, mark, name);
}

/* Length of the key of "key=value", 0 where text is no fact: a key is made of
 * a-z, 0-9, _ and -, so a path with a slash or a dot is a word. */
static size_t key_length(const char *text)
{
    size_t length = strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789_-");
    return text[length] == '=' ? length : 0;
}

static const char *pair_find(const ArgumentFact *pairs, size_t count,
                             const char *key)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(pairs[i].key, key) == 0) {
            return pairs[i].value;
        }
    }
    return NULL;
}

static Err add_fact(Arguments *to, const char *text, size_t length)
{
    const char *key = arena_copy_bytes(to->arena, text, length);
    if (!to->specs->takes_any_fact && !spec_find(to->specs->facts, key)) {
        return unknown("key", "", to->specs->facts, key);
    }
    if (pair_find(to->facts, to->fact_count, key)) {
        return err_make(ERR_USAGE, "%.60s= is given twice", key);
    }
    to->facts[to->fact_count++] = (ArgumentFact){key, text + length + 1};
    return ERR_NONE;
}

/* texts[0] is the option; *used tells whether the next text was its value. */
static Err add_option(Arguments *to, size_t count, char *const *texts,
                      size_t *used)
{
    if (texts[0][1] != '-') {
        return err_make(ERR_USAGE, "%.60s: options begin with two dashes",
                        texts[0]);
    }
    const char *text = texts[0] + 2;
    const char *equals = strchr(text, '=');
    size_t length = equals ? (size_t)(equals - text) : strlen(text);
    const char *name = arena_copy_bytes(to->arena, text, length);
    const ArgumentSpec *spec = spec_find(to->specs->options, name);
    if (!spec) {
        return unknown("option", "--", to->specs->options, name);
    }
    if (pair_find(to->options, to->option_count, name)) {
        return err_make(ERR_USAGE, "--%s is given twice", name);
    }
    const char *value = "";
    if (equals && !spec->value) {
        return err_make(ERR_USAGE, "--%s takes no value", name);
    }
    if (equals) {
        value = equals + 1;
    } else if (spec->value) {
        if (count < 2 || strncmp(texts[1], "--", 2) == 0) {
            return err_make(ERR_USAGE, "--%s wants a value: --%s %s", name,
                            name, spec->value);
        }
        value = texts[1];
        *used = 1;
    }
    to->options[to->option_count++] = (ArgumentFact){spec->name, value};
    return ERR_NONE;
}

static Err add_word(Arguments *to, const char *text)
{
    const ArgumentSpec *specs = to->specs->words;
    for (size_t i = 0; i < to->word_count; i++) {
        specs++;
    }
    if (!specs || !specs->name) {
        return err_make(ERR_USAGE, "\"%.60s\" is one word too many", text);
    }
    to->words[to->word_count++] = text;
    return ERR_NONE;
}

static Err nothing_is_missing(const Arguments *arguments)
{
    const ArgumentSpecs *specs = arguments->specs;
    size_t place = 0;
    for (const ArgumentSpec *s = specs->words; s && s->name; s++, place++) {
        if (s->is_required && place >= arguments->word_count) {
            return err_make(ERR_USAGE, "%s is missing: %s", s->name,
                            s->meaning);
        }
    }
    for (const ArgumentSpec *s = specs->facts; s && s->name; s++) {
        if (s->is_required && !arguments_fact(arguments, s->name)) {
            return err_make(ERR_USAGE, "%s= is missing: %s", s->name,
                            s->meaning);
        }
    }
    return ERR_NONE;
}

static bool asks_for_help(size_t count, char *const *texts)
{
    for (size_t i = 0; i < count && strcmp(texts[i], "--") != 0; i++) {
        if (strcmp(texts[i], "--help") == 0 || strcmp(texts[i], "-h") == 0) {
            return true;
        }
    }
    return false;
}

Err arguments_parse(const ArgumentSpecs *specs, size_t count,
                    char *const *texts, Arena *arena, Arguments *out)
{
    Arguments made = {.specs = specs, .arena = arena};
    made.words = ARENA_ARRAY(arena, const char *, count);
    made.facts = ARENA_ARRAY(arena, ArgumentFact, count);
    made.options = ARENA_ARRAY(arena, ArgumentFact, count);
    made.is_help = asks_for_help(count, texts);
    bool only_words = false;
    for (size_t i = 0; i < count && !made.is_help; i++) {
        const char *text = texts[i];
        size_t used = 0;
        if (only_words) {
            TRY(add_word(&made, text));
        } else if (strcmp(text, "--") == 0) {
            only_words = true;
        } else if (text[0] == '-' && text[1] != '\0') {
            TRY(add_option(&made, count - i, texts + i, &used));
        } else if (key_length(text) > 0) {
            TRY(add_fact(&made, text, key_length(text)));
        } else {
            TRY(add_word(&made, text));
        }
        i += used;
    }
    if (!made.is_help) {
        TRY(nothing_is_missing(&made));
    }
    *out = made;
    return ERR_NONE;
}

const char *arguments_word(const Arguments *arguments, size_t place)
{
    return place < arguments->word_count ? arguments->words[place] : NULL;
}

const char *arguments_fact(const Arguments *arguments, const char *key)
{
    return pair_find(arguments->facts, arguments->fact_count, key);
}

const char *arguments_option(const Arguments *arguments, const char *name)
{
    assert(spec_find(arguments->specs->options, name));
    return pair_find(arguments->options, arguments->option_count, name);
}

bool arguments_takes(const Arguments *arguments, const char *name)
{
    return spec_find(arguments->specs->options, name) != NULL;
}

bool arguments_has(const Arguments *arguments, const char *name)
{
    return arguments_option(arguments, name) != NULL;
}

/* Digits with an optional sign; false where text is anything else or too large
 * for the type. */
static bool integer_parse(const char *text, int64_t *out)
{
    bool is_negative = text[0] == '-';
    const char *digits = text + is_negative;
    size_t length = strlen(digits);
    if (length < 1 || strspn(digits, "0123456789") != length) {
        return false;
    }
    int64_t value = 0;
    for (const char *c = digits; *c; c++) {
        int digit = *c - '0';
        if (value > (INT64_MAX - digit) / 10) {
            return false;
        }
        value = 10 * value + digit;
    }
    *out = is_negative ? -value : value;
    return true;
}

Err arguments_integer(const Arguments *arguments, const char *name, int64_t min,
                      int64_t max, int64_t *out)
{
    const char *text = arguments_option(arguments, name);
    if (!text) {
        return ERR_NONE;
    }
    int64_t value = 0;
    if (!integer_parse(text, &value) || value < min || value > max) {
        return err_make(ERR_USAGE,
                        "--%s wants a whole number from %lld to %lld, not "
                        "\"%.60s\"",
                        name, (long long)min, (long long)max, text);
    }
    *out = value;
    return ERR_NONE;
}

Err arguments_day(const Arguments *arguments, const char *name, int32_t *out)
{
    const char *text = arguments_option(arguments, name);
    if (!text) {
        return ERR_NONE;
    }
    int32_t day = 0;
    Err err = date_parse(text, &day);
    if (err.kind != ERR_OK) {
        return err_make(ERR_USAGE, "--%s: %.180s", name, err.text);
    }
    *out = day;
    return ERR_NONE;
}

static Err named(const char *key, Err err)
{
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(ERR_USAGE, "%s=: %.160s", key, err.text);
}

Err arguments_fact_day(const Arguments *arguments, const char *key,
                       int32_t *out)
{
    const char *text = arguments_fact(arguments, key);
    return text ? named(key, date_parse(text, out)) : ERR_NONE;
}

Err arguments_fact_number(const Arguments *arguments, const char *key,
                          double *out)
{
    const char *text = arguments_fact(arguments, key);
    return text ? named(key, text_to_f64(text, out)) : ERR_NONE;
}
