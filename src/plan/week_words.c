/* Weeks of a plan as people write them. */
#include "plan/week_words.h"

#include <stdlib.h>
#include <string.h>

#include "base/date.h"

enum { FAR_WEEKS = 1000, DAYS_A_WEEK = 7 };

static bool starts(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

/* Length of what stands between a week's word and its number, or between two
 * numbers of weeks; 0 where no number of a week follows. */
static size_t lead_length(const char *text, bool is_after_week)
{
    static const char *const LEADS[] = {"week ", "weeks ", " to ", " and "};
    for (int i = is_after_week ? 2 : 0; i < (is_after_week ? 4 : 2); i++) {
        size_t length = strlen(LEADS[i]);
        const char *number = text + length;
        if (starts(text, LEADS[i]) &&
            ((*number >= '0' && *number <= '9') ||
             (*number == '-' && number[1] >= '0' && number[1] <= '9'))) {
            return length;
        }
    }
    return 0;
}

const char *week_words(const char *text, int32_t from, Arena *arena)
{
    size_t room = strlen(text) * (DATE_TEXT_SIZE + 1) + 1;
    char *out = ARENA_ARRAY(arena, char, room);
    size_t used = 0;
    bool is_after_week = false;
    while (*text) {
        size_t lead = lead_length(text, is_after_week);
        is_after_week = lead > 0;
        if (lead == 0) {
            out[used++] = *text++;
            continue;
        }
        memcpy(out + used, text, lead);
        used += lead;
        char *end = NULL;
        long week = strtol(text + lead, &end, 10);
        if (labs(week) < FAR_WEEKS) {
            char name[DATE_TEXT_SIZE];
            week_format(from + DAYS_A_WEEK * (int32_t)week, name);
            memcpy(out + used, name, strlen(name));
            used += strlen(name);
        } else {
            memcpy(out + used, text + lead, (size_t)(end - text) - lead);
            used += (size_t)(end - text) - lead;
        }
        text = end;
    }
    out[used] = '\0';
    return out;
}
