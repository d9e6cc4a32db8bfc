/* A calendar file (iCalendar) from plain entries.
 *
 * Each entry becomes an event of a whole day that leaves the day free: work has
 * an order, not an hour. The same entries give the same bytes.
 * Source: [RFC5545] Internet Calendaring and Scheduling; [RFC7986] NAME. */
#ifndef LEAT_OUT_CALENDAR_H
#define LEAT_OUT_CALENDAR_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/err.h"

typedef struct CalendarEntry {
    const char *uid;         /* unique in the world, the same over replans */
    int32_t day;             /* days since 1970-01-01 */
    const char *summary;     /* one line */
    const char *description; /* may have lines; "" for none */
    const char *location;    /* "" for none */
    double minutes;          /* told in the summary where over 0 */
} CalendarEntry;

typedef struct CalendarFile {
    const char *bytes; /* Borrowed from the arena; ends with NUL. */
    size_t length;
} CalendarFile;

/* name: of the calendar. stamp_day: the day on which its entries were decided;
 * an entry that changes comes with a later one. All texts are valid UTF-8.
 * ERR_INPUT where two entries have one uid or a uid is empty. */
NODISCARD Err calendar_write(const char *name, int32_t stamp_day,
                             const CalendarEntry *entries, size_t count,
                             Arena *arena, CalendarFile *out);

#endif
