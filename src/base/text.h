/* Small helpers on text: numbers from text, and words that look alike. */
#ifndef LEAT_BASE_TEXT_H
#define LEAT_BASE_TEXT_H

#include <stddef.h>

#include "base/arena.h"
#include "base/err.h"

/* A finite decimal number that fills the whole text: "-1.5", "2e3". No hex, no
 * "nan" or "inf", no spaces. ERR_INPUT names the text. */
NODISCARD Err text_to_f64(const char *text, double *out);

/* Number of single-letter slips (insert, drop, change, swap of neighbours)
 * between two words; words over 63 bytes count as far apart. */
int text_distance(const char *a, const char *b);

/* The one of count words nearest to word, or NULL when none is within a third
 * of its length (at least one slip). words: NULL entries are passed over. */
const char *text_nearest(const char *word, const char *const *words,
                         size_t count);

/* Length in bytes of the valid UTF-8 at the start of bytes; equal to length
 * when all of it is valid. */
size_t text_utf8_valid(const char *bytes, size_t length);

/* Length in bytes of the start of bytes that prints as it stands: up to the
 * first control character (line ends and tabs too), separator of lines, mark
 * that turns the direction of writing, or byte that is not UTF-8. Such text
 * could steer a terminal, or show a line as something else. */
size_t text_plain(const char *bytes, size_t length);

enum { TEXT_ESCAPE_SIZE = 8 };

/* Copies bytes, a NUL behind them, with each of those characters as \x1b or
 * \u202e. What does not fit into size bytes is cut, between characters.
 * Returns the length of what was written. */
size_t text_escape(const char *bytes, size_t length, char *out, size_t size);

/* The same whole, in the arena; text itself where it is plain. */
const char *text_escaped(const char *text, Arena *arena);

#endif
