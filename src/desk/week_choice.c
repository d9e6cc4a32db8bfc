/* Which week is meant by a day, or by the clock. */
#include "desk/week_choice.h"

#include "base/date.h"
#include "base/tongue.h"
#include "desk/clock.h"

enum { WEEK_D = 7 };

WeekChoice week_choose(const Farm *farm, int32_t day, int32_t first, int weeks,
                       const char *reach, Arena *arena)
{
    if (day != DATE_ALWAYS) {
        return (WeekChoice){.week = week_of(day), .day = day};
    }
    int32_t today = clock_today(farm->farm->timezone);
    if (today >= first && today < first + WEEK_D * weeks) {
        return (WeekChoice){.week = week_of(today), .day = today};
    }
    char text[DATE_TEXT_SIZE];
    date_format(today, text);
    return (WeekChoice){
        .week = first,
        .day = first,
        .notice = arena_say(arena,
                            "Today (%s) lies outside %s: this begins in its "
                            "first week.",
                            text, reach)};
}

const char *week_untold(const Farm *farm, int32_t week, Arena *arena)
{
    int32_t from = farm->farm->records_from;
    if (farm->plan_count < 1 || week <= week_of(from)) {
        return NULL;
    }
    char text[DATE_TEXT_SIZE];
    date_format(from, text);
    return arena_say(arena,
                     "Nothing was told since %s: until then the plan is taken "
                     "as done.",
                     text);
}
