/* The names of time zones, a line each. */
#include "farm/zones.h"

#include <string.h>

#include "base/embed.h"
#include "base/text.h"

/* Made at build from data/zones.txt. */
extern const EmbeddedFile ZONE_FILES[];
extern const size_t ZONE_FILES_COUNT;

enum { NAMES_MAX = 1000 };

/* The line at *at without its end; *at moves to the next. NULL at the end. */
static const char *next_line(const char **at, size_t *out_length)
{
    const char *line = *at;
    if (!*line) {
        return NULL;
    }
    *out_length = strcspn(line, "\n");
    *at = line + *out_length + (line[*out_length] == '\n');
    return line;
}

bool zone_is_known(const char *name)
{
    const char *at = ZONE_FILES[0].bytes;
    size_t length = 0;
    for (const char *line = next_line(&at, &length); line;
         line = next_line(&at, &length)) {
        if (*line != '#' && strlen(name) == length &&
            strncmp(line, name, length) == 0) {
            return true;
        }
    }
    return false;
}

const char *zone_nearest(const char *name, Arena *arena)
{
    const char **names = ARENA_ARRAY(arena, const char *, NAMES_MAX);
    size_t count = 0;
    const char *at = ZONE_FILES[0].bytes;
    size_t length = 0;
    for (const char *line = next_line(&at, &length); line && count < NAMES_MAX;
         line = next_line(&at, &length)) {
        if (*line != '#') {
            names[count++] = arena_copy_bytes(arena, line, length);
        }
    }
    return text_nearest(name, names, count);
}
