/* Small helpers on text. */
#include "base/text.h"

#include <ctype.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

Err text_to_f64(const char *text, double *out)
{
    for (const char *c = text; *c; c++) {
        if (!isdigit((unsigned char)*c) && !strchr("+-.eE", *c)) {
            return err_make(ERR_INPUT, "\"%.60s\" is not a number", text);
        }
    }
    char *end = NULL;
    double value = strtod(text, &end);
    if (end == text || *end != '\0') {
        return err_make(ERR_INPUT, "\"%.60s\" is not a number", text);
    }
    if (!isfinite(value)) {
        return err_make(ERR_INPUT, "%.60s is too large a number", text);
    }
    *out = value;
    return ERR_NONE;
}

enum { WORD_MAX = 64 };

static int least(int a, int b)
{
    return a < b ? a : b;
}

int text_distance(const char *a, const char *b)
{
    int length_a = (int)strnlen(a, WORD_MAX);
    int length_b = (int)strnlen(b, WORD_MAX);
    if (length_a == WORD_MAX || length_b == WORD_MAX) {
        return WORD_MAX;
    }
    int rows[3][WORD_MAX + 1];
    for (int j = 0; j <= length_b; j++) {
        rows[0][j] = j;
    }
    for (int i = 1; i <= length_a; i++) {
        int *row = rows[i % 3];
        const int *above = rows[(i - 1) % 3];
        row[0] = i;
        for (int j = 1; j <= length_b; j++) {
            int change = above[j - 1] + (a[i - 1] != b[j - 1]);
            row[j] = least(change, least(above[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
                a[i - 2] == b[j - 1]) {
                row[j] = least(row[j], rows[(i - 2) % 3][j - 2] + 1);
            }
        }
    }
    return rows[length_a % 3][length_b];
}

const char *text_nearest(const char *word, const char *const *words,
                         size_t count)
{
    int limit = (int)strnlen(word, WORD_MAX) / 3;
    int best = limit < 1 ? 2 : limit + 1;
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        int distance = words[i] ? text_distance(word, words[i]) : WORD_MAX;
        if (distance < best) {
            best = distance;
            nearest = words[i];
        }
    }
    return nearest;
}

/* Bytes of the sequence at s (0 where it is not valid), and its character. */
static size_t utf8_read(const unsigned char *s, size_t left, uint32_t *out_code)
{
    static const uint32_t LEAST[5] = {0, 0, 0x80, 0x800, 0x10000};
    *out_code = s[0];
    if (s[0] < 0x80) {
        return 1;
    }
    size_t size = s[0] >= 0xf0 ? 4 : s[0] >= 0xe0 ? 3 : 2;
    if (s[0] < 0xc2 || s[0] > 0xf4 || left < size) {
        return 0;
    }
    uint32_t code = s[0] & (0xffu >> (size + 1));
    for (size_t i = 1; i < size; i++) {
        if ((s[i] & 0xc0) != 0x80) {
            return 0;
        }
        code = code << 6 | (s[i] & 0x3fu);
    }
    bool is_surrogate = code >= 0xd800 && code <= 0xdfff;
    *out_code = code;
    return code < LEAST[size] || code > 0x10ffff || is_surrogate ? 0 : size;
}

size_t text_utf8_valid(const char *bytes, size_t length)
{
    const unsigned char *s = (const unsigned char *)bytes;
    size_t at = 0;
    while (at < length) {
        uint32_t code = 0;
        size_t step = utf8_read(s + at, length - at, &code);
        if (step == 0) {
            break;
        }
        at += step;
    }
    return at;
}

/* Source: [UNICODE] The Unicode Standard, chapter 23: control codes, line and
 * paragraph separators, bidirectional embeddings, overrides and isolates. */
static bool is_plain(uint32_t code)
{
    bool is_control = code < 0x20 || (code >= 0x7f && code < 0xa0);
    bool is_separator = code == 0x2028 || code == 0x2029;
    bool is_turn = (code >= 0x202a && code <= 0x202e) ||
                   (code >= 0x2066 && code <= 0x2069);
    return !is_control && !is_separator && !is_turn;
}

size_t text_plain(const char *bytes, size_t length)
{
    const unsigned char *s = (const unsigned char *)bytes;
    size_t at = 0;
    while (at < length) {
        uint32_t code = 0;
        size_t step = utf8_read(s + at, length - at, &code);
        if (step == 0 || !is_plain(code)) {
            break;
        }
        at += step;
    }
    return at;
}

size_t text_escape(const char *bytes, size_t length, char *out, size_t size)
{
    const unsigned char *s = (const unsigned char *)bytes;
    size_t used = 0;
    for (size_t at = 0; at < length;) {
        uint32_t code = 0;
        size_t step = utf8_read(s + at, length - at, &code);
        char shown[TEXT_ESCAPE_SIZE] = "";
        size_t more = step;
        if (step == 0 || !is_plain(code)) {
            bool is_byte = step <= 1;
            more = (size_t)snprintf(shown, sizeof shown,
                                    is_byte ? "\\x%02x" : "\\u%04x",
                                    is_byte ? s[at] : (unsigned)code);
        }
        if (used + more >= size) {
            break;
        }
        memcpy(out + used, *shown ? shown : bytes + at, more);
        used += more;
        at += step == 0 ? 1 : step;
    }
    out[used] = '\0';
    return used;
}

const char *text_escaped(const char *text, Arena *arena)
{
    size_t length = strlen(text);
    if (text_plain(text, length) == length) {
        return text;
    }
    /* A byte becomes four at most. */
    size_t size = 4 * length + 1;
    char *out = ARENA_ARRAY(arena, char, size);
    text_escape(text, length, out, size);
    return out;
}
