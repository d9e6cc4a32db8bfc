/* Text in lines, cut at spaces. */
#include "cli/wrap.h"

#include <stdbool.h>
#include <string.h>

/* Columns of a word: its characters, not the bytes of UTF-8. */
static int columns_of(const char *word, size_t length)
{
    int columns = 0;
    for (size_t i = 0; i < length; i++) {
        columns += ((unsigned char)word[i] & 0xc0) != 0x80 ? 1 : 0;
    }
    return columns;
}

void wrap_print(const char *text, const Wrap *wrap, FILE *out)
{
    if (!*text) {
        return;
    }
    int column = fprintf(out, "%*s", wrap->first, "");
    bool is_first = true;
    while (*text) {
        size_t length = strcspn(text, " ");
        int columns = columns_of(text, length);
        if (!is_first && column + 1 + columns > wrap->columns) {
            fputc('\n', out);
            column = fprintf(out, "%*s", wrap->further, "");
            is_first = true;
        }
        fprintf(out, "%s%.*s", is_first ? "" : " ", (int)length, text);
        column += (is_first ? 0 : 1) + columns;
        is_first = false;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', out);
}
