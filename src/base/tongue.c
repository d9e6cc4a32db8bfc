/* The languages that sentences are made in; their texts are made from
 * data/tongues/ at build time. */
#include "base/tongue.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

/* ---- forms of a number ----------------------------------------------------
 * Source: [CLDR] Language Plural Rules, cardinals of whole numbers. */

static int one_or_other(int64_t count)
{
    return count == 1 ? 0 : 1;
}

/* French: none counts as one. */
static int none_or_one(int64_t count)
{
    return count == 0 || count == 1 ? 0 : 1;
}

/* None, one, two, few (to ten of each hundred), many, and the rest. */
static int arabic(int64_t count)
{
    enum { HUNDRED = 100, FEW = 3, MANY = 11 };
    int64_t rest = count % HUNDRED;
    if (count >= 0 && count < FEW) {
        return (int)count;
    }
    return rest < FEW ? 5 : rest < MANY ? 3 : 4;
}

/* ---- the catalogues --------------------------------------------------------
 */

/* Made by tools/tongues.py of data/tongues/. */
extern const TongueCatalogue TONGUE_ar;
extern const TongueCatalogue TONGUE_es;
extern const TongueCatalogue TONGUE_fr;
extern const TongueCatalogue TONGUE_pt;

static const Tongue TONGUES[] = {
    {"en", "English", false, one_or_other, NULL},
    {"es", "Español", false, one_or_other, &TONGUE_es},
    {"fr", "Français", false, none_or_one, &TONGUE_fr},
    {"pt", "Português", false, one_or_other, &TONGUE_pt},
    {"ar", "العربية", true, arabic, &TONGUE_ar},
};
enum { TONGUE_COUNT = sizeof TONGUES / sizeof *TONGUES };

const Tongue *tongues_all(size_t *out_count)
{
    *out_count = TONGUE_COUNT;
    return TONGUES;
}

static const Tongue *named(const char *code, size_t length)
{
    for (size_t i = 0; i < TONGUE_COUNT; i++) {
        const Tongue *tongue = &TONGUES[i];
        if (strlen(tongue->code) == length &&
            strncmp(tongue->code, code, length) == 0) {
            return tongue;
        }
    }
    return NULL;
}

const Tongue *tongue_named(const char *code)
{
    return named(code, strlen(code));
}

/* How much a part is wanted: its "q=0.8", 1 where it has none. */
static double wanted_frac(const char *part, size_t length)
{
    const char *end = part + length;
    for (const char *at = part; at + 2 < end; at++) {
        if (at[0] == 'q' && at[1] == '=') {
            return strtod(at + 2, NULL);
        }
    }
    return 1.0;
}

const Tongue *tongue_wanted(const char *accept_language)
{
    const Tongue *found = NULL;
    double most = 0.0;
    const char *part = accept_language ? accept_language : "";
    while (*part) {
        part += strspn(part, ", ");
        size_t length = strcspn(part, ",");
        const Tongue *tongue = named(part, strcspn(part, "-;, "));
        double wanted = wanted_frac(part, length);
        if (tongue && wanted > most) {
            found = tongue;
            most = wanted;
        }
        part += length;
    }
    return found;
}

/* ---- saying ----------------------------------------------------------------
 */

void arena_speak(Arena *arena, const Tongue *tongue)
{
    arena->tongue = tongue;
}

const Tongue *arena_tongue(const Arena *arena)
{
    return arena->tongue ? arena->tongue : &TONGUES[0];
}

static int by_english(const void *english, const void *text)
{
    return strcmp(english, ((const TongueText *)text)->english);
}

static const TongueText *text_of(const Arena *arena, const char *english)
{
    const TongueCatalogue *in = arena_tongue(arena)->catalogue;
    return in ? bsearch(english, in->texts, in->count, sizeof *in->texts,
                        by_english)
              : NULL;
}

const char *say(const Arena *arena, const char *english)
{
    const TongueText *text = text_of(arena, english);
    return text && text->said ? text->said : english;
}

const char *say_n(const Arena *arena, int64_t count, const char *one,
                  const char *other)
{
    const TongueText *text = text_of(arena, one);
    return text && text->forms ? text->forms[arena->tongue->form_of(count)]
           : count == 1        ? one
                               : other;
}

char *arena_say(Arena *arena, const char *english, ...)
{
    va_list args;
    va_start(args, english);
    char *text = arena_text_list(arena, say(arena, english), args);
    va_end(args);
    return text;
}

/* Unicode's first strong isolate, and its end. */
#define FIRST_STRONG "\xe2\x81\xa8"
#define POP "\xe2\x81\xa9"

const char *say_apart(Arena *arena, const char *text)
{
    return *text && arena_tongue(arena)->is_rtl
               ? arena_text(arena, FIRST_STRONG "%s" POP, text)
               : text;
}
