/* A moment at the farm: from what was typed, or from the clock. */
#ifndef LEAT_DESK_MOMENT_H
#define LEAT_DESK_MOMENT_H

#include "base/arena.h"
#include "farm/records.h"

typedef struct Moment {
    int64_t at;         /* UTC seconds */
    int32_t day;        /* civil day at the farm */
    int minute_of_day;  /* civil */
    const char *text;   /* "Tue 2 Mar 2027 02:10" */
    const char *notice; /* NULL, or why it is not now */
} Moment;

/* at: NULL, "02:10", "2027-03-02T02:10" in the farm's civil time, or the same
 * with its offset; today: a day, or DATE_ALWAYS. Without a day it is today by
 * the clock where that lies in the year after the farm's tables, else their
 * first day; without an hour it is the clock's. A farm whose zone cannot be
 * read has UTC. ERR_USAGE names what at should be. */
NODISCARD Err moment_find(const Farm *farm, const char *at, int32_t today,
                          Arena *arena, Moment *out);

/* The day that is meant before a farm is read: today where it is given, else
 * the one that at begins with, else DATE_ALWAYS. */
int32_t moment_day(const char *at, int32_t today);

/* UTC seconds of a minute of a civil day at the farm. */
int64_t moment_utc(const Farm *farm, int32_t day, int minute);

#endif
