/* Where figures come from, in full. An entry begins with "- **[KEY]** ". */
#include "farm/references.h"

#include <string.h>

#include "base/embed.h"

extern const EmbeddedFile SOURCE_FILES[];

/* One line out of several, without the spaces that they begin with. */
static const char *joined(const char *from, const char *until, Arena *arena)
{
    char *text = arena_copy_bytes(arena, from, (size_t)(until - from));
    char *to = text;
    bool is_after_space = true;
    for (const char *at = text; *at; at++) {
        bool is_space = *at == ' ' || *at == '\n' || *at == '\r';
        if (!is_space || !is_after_space) {
            *to++ = is_space ? ' ' : *at;
        }
        is_after_space = is_space;
    }
    while (to > text && to[-1] == ' ') {
        to--;
    }
    *to = '\0';
    return text;
}

const char *reference_of(const char *key, Arena *arena)
{
    const char *head = arena_text(arena, "- **[%s]** ", key);
    const char *bytes = SOURCE_FILES[0].bytes;
    const char *found = strstr(bytes, head);
    if (!found) {
        return NULL;
    }
    const char *from = found + strlen(head);
    const char *next = strstr(from, "\n- **[");
    const char *blank = strstr(from, "\n\n");
    const char *end = bytes + SOURCE_FILES[0].length;
    if (next && next < end) {
        end = next;
    }
    if (blank && blank < end) {
        end = blank;
    }
    return joined(from, end, arena);
}
