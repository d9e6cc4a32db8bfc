/* The languages that sentences are made in.
 *
 * Code holds its sentences in English; the English text is the key under which
 * a catalogue (data/tongues/pt.po) has the same in another language. Who wants
 * a sentence asks for it by the arena that it will be made in: an arena belongs
 * to one request, and so does the language (docs/decisions/005-tongues.md).
 *
 * A format is translated before it is filled: its conversions are those of the
 * English one, in any order ("%2$s"); tools/tongues.py checks that. A text
 * that a catalogue has not got stays English. */
#ifndef LEAT_BASE_TONGUE_H
#define LEAT_BASE_TONGUE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

enum { TONGUE_FORMS_MOST = 6 };

/* One text of a catalogue. */
typedef struct TongueText {
    const char *english; /* of several forms that of one */
    const char *said;    /* NULL where there are forms */
    const char *const *forms;
} TongueText;

/* How many forms a number asks for, and which: CLDR's, in gettext's order. */
typedef int TongueForm(int64_t count);

/* What data/tongues/ has of a language. */
typedef struct TongueCatalogue {
    bool is_draft;           /* not read by a native speaker yet */
    const TongueText *texts; /* by english, in the order of strcmp */
    size_t count;
} TongueCatalogue;

typedef struct Tongue {
    const char *code; /* "pt" */
    const char *name; /* "Português", in itself */
    bool is_rtl;
    TongueForm *form_of;
    const TongueCatalogue *catalogue; /* NULL: English */
} Tongue;

/* English first. */
const Tongue *tongues_all(size_t *out_count);

/* By its code; NULL: there is none of that. */
const Tongue *tongue_named(const char *code);

/* The first that can be spoken of a list as browsers send it, "pt-BR,en;q=0.8",
 * the best wanted first; NULL: none of them, or NULL. */
const Tongue *tongue_wanted(const char *accept_language);

/* Sentences made in this arena are in that language; NULL: English. */
void arena_speak(Arena *arena, const Tongue *tongue);

/* That of the arena; never NULL. */
const Tongue *arena_tongue(const Arena *arena);

/* Marks a text that stands in a table and is said later, by say(). */
#define SAY(text) text

/* The same of the forms for one and for several, which are two texts. */
#define SAY_N(one, other) one, other

/* The text, or the format, in the arena's language. */
const char *say(const Arena *arena, const char *english)
    __attribute__((format_arg(2)));

/* That of the forms which so many ask for: "%d tray", "%d trays". */
const char *say_n(const Arena *arena, int64_t count, const char *one,
                  const char *other)
    __attribute__((format_arg(3), format_arg(4)));

/* As arena_text, the format in the arena's language. */
char *arena_say(Arena *arena, const char *english, ...) PRINTF_LIKE(2, 3);

/* A name, a date or a cell that stands within a sentence without being filled
 * in: isolated where the language is written from the right. */
const char *say_apart(Arena *arena, const char *text);

#endif
