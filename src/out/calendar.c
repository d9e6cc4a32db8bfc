/* A calendar file from plain entries, by libical. */
#include "out/calendar.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <libical/ical.h>

#include "base/date.h"

static icaltimetype day_time(int32_t day)
{
    CivilDate civil = date_to_civil(day);
    icaltimetype time = icaltime_null_date();
    time.year = civil.year;
    time.month = civil.month;
    time.day = civil.day;
    return time;
}

/* Midnight of the day in UTC. */
static icaltimetype stamp_time(int32_t day)
{
    icaltimetype time = day_time(day);
    time.is_date = 0;
    time.hour = 0;
    time.minute = 0;
    time.second = 0;
    time.zone = icaltimezone_get_utc_timezone();
    return time;
}

static icalcomponent *make_event(const CalendarEntry *entry, int32_t stamp_day,
                                 Arena *arena)
{
    icalcomponent *event = icalcomponent_new_vevent();
    const char *summary = entry->summary;
    if (entry->minutes > 0.0) {
        summary =
            arena_text(arena, "%s (%.0f min)", summary, ceil(entry->minutes));
    }
    icalcomponent_add_property(event, icalproperty_new_uid(entry->uid));
    icalcomponent_add_property(event,
                               icalproperty_new_dtstamp(stamp_time(stamp_day)));
    icalcomponent_add_property(event,
                               icalproperty_new_dtstart(day_time(entry->day)));
    icalcomponent_add_property(
        event, icalproperty_new_dtend(day_time(entry->day + 1)));
    icalcomponent_add_property(event, icalproperty_new_summary(summary));
    if (*entry->description) {
        icalcomponent_add_property(
            event, icalproperty_new_description(entry->description));
    }
    if (*entry->location) {
        icalcomponent_add_property(event,
                                   icalproperty_new_location(entry->location));
    }
    icalcomponent_add_property(
        event, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
    return event;
}

static int by_text(const void *left, const void *right)
{
    const char *const *a = left;
    const char *const *b = right;
    return strcmp(*a, *b);
}

static Err uids_are_unique(const CalendarEntry *entries, size_t count,
                           Arena *arena)
{
    const char **uids = ARENA_ARRAY(arena, const char *, count);
    for (size_t i = 0; i < count; i++) {
        if (!*entries[i].uid) {
            return err_make(ERR_INPUT, "a calendar entry has no id");
        }
        uids[i] = entries[i].uid;
    }
    if (count > 1) {
        qsort(uids, count, sizeof *uids, by_text);
    }
    for (size_t i = 1; i < count; i++) {
        if (strcmp(uids[i - 1], uids[i]) == 0) {
            return err_make(ERR_INPUT,
                            "two calendar entries have the id %.100s", uids[i]);
        }
    }
    return ERR_NONE;
}

Err calendar_write(const char *name, int32_t stamp_day,
                   const CalendarEntry *entries, size_t count, Arena *arena,
                   CalendarFile *out)
{
    TRY(uids_are_unique(entries, count, arena));
    icalcomponent *calendar = icalcomponent_new_vcalendar();
    icalcomponent_add_property(calendar, icalproperty_new_version("2.0"));
    icalcomponent_add_property(calendar,
                               icalproperty_new_prodid("-//Leat//Leat//EN"));
    icalcomponent_add_property(calendar,
                               icalproperty_new_method(ICAL_METHOD_PUBLISH));
    icalcomponent_add_property(calendar, icalproperty_new_name(name));
    for (size_t i = 0; i < count; i++) {
        icalcomponent_add_component(calendar,
                                    make_event(&entries[i], stamp_day, arena));
    }
    char *text = icalcomponent_as_ical_string_r(calendar);
    assert(text);
    size_t length = strlen(text);
    *out = (CalendarFile){.bytes = arena_copy_bytes(arena, text, length),
                          .length = length};
    icalmemory_free_buffer(text);
    icalcomponent_free(calendar);
    return ERR_NONE;
}
