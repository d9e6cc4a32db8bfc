/* Small helpers on text. */
#include "base/text.h"

#include <ctype.h>
#include <math.h>
#include <stdint.h>
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

/* Bytes of the sequence at s (0 where it is not valid). */
static size_t utf8_step(const unsigned char *s, size_t left)
{
    static const uint32_t LEAST[5] = {0, 0, 0x80, 0x800, 0x10000};
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
    return code < LEAST[size] || code > 0x10ffff || is_surrogate ? 0 : size;
}

size_t text_utf8_valid(const char *bytes, size_t length)
{
    const unsigned char *s = (const unsigned char *)bytes;
    size_t at = 0;
    while (at < length) {
        size_t step = utf8_step(s + at, length - at);
        if (step == 0) {
            break;
        }
        at += step;
    }
    return at;
}
