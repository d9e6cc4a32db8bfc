/* Pages for paper: HTML text that grows, with what comes from tables escaped.
 */
#ifndef LEAT_OUT_HTML_H
#define LEAT_OUT_HTML_H

#include <stddef.h>

#include "base/arena.h"

typedef struct Html {
    Arena *arena; /* Borrowed. */
    char *bytes;  /* In the arena, ends with NUL; NULL while empty. */
    size_t length;
    size_t room;
} Html;

/* How a page begins: its language and direction are the arena's. */
const char *html_opening(Arena *arena);

/* Markup as it stands. */
void html_raw(Html *html, const char *markup);

/* Text: & < > " are escaped. */
void html_text(Html *html, const char *text);

/* The same text by itself. */
const char *html_escaped(const char *text, Arena *arena);

#endif
