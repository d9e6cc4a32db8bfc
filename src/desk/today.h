/* What every page of a day stands on: the farm, its typical year, the weeks to
 * come, the jobs of a week, what was told. */
#ifndef LEAT_DESK_TODAY_H
#define LEAT_DESK_TODAY_H

#include "store/store.h"
#include "work/foresight.h"
#include "work/outlook.h"

enum { TODAY_NOTICES_MAX = 6 };

typedef struct Today {
    const char *dir; /* Borrowed from the caller, as the arena. */
    Arena *arena;
    const Farm *farm;    /* as it stands on the day, by what was told and the
                            plan. In the arena, as all below */
    const Farm *opening; /* its tables as they are */
    const Book *book;    /* with the farm's own figures in it */
    const ClimateYear *climate;
    OutlookClimate outlook;
    int32_t day;
    const char *title; /* "Mon 1 Mar 2027, 2027-W09" */
    bool is_planned;   /* a plan is accepted that holds the day's week */
    const char *notices[TODAY_NOTICES_MAX];
    int notice_count;
    Workings *workings; /* that are asked for along with the rest; NULL */
} Today;

/* today: DATE_ALWAYS by the clock. ERR_INPUT for a farm with faults. */
NODISCARD Err today_open(const char *dir, int32_t today, Arena *arena,
                         Today *out);

/* As today_open, and fails where the day lies outside the accepted plan:
 * ERR_NOT_FOUND, ERR_RANGE. */
NODISCARD Err today_open_planned(const char *dir, int32_t today, Arena *arena,
                                 Today *out);

/* As today_open_planned, as the day begins: what was told for the day itself is
 * not yet in the farm. */
NODISCARD Err today_open_morning(const char *dir, int32_t today, Arena *arena,
                                 Today *out);

void today_tell(Today *today, const char *text);

/* So many weeks from the day's on. sale_g: NAN for the lightest that is sold.
 */
NODISCARD Err today_foresee(const Today *today, int weeks, double sale_g,
                            Foresight *out);

/* How many of the weeks from the day's on, up to those wanted, the accepted
 * plan holds. */
int today_weeks(const Today *today, int wanted);

/* The jobs of so many planned weeks from one on, and what they were made with;
 * both by week. */
NODISCARD Err today_jobs(const Today *today, int32_t week, int weeks,
                         JobOutlook *out_outlooks, JobsWeek *out);

/* Entries told of the days from one to another, both counted, those struck out
 * left out, by day and time; kinds: bit i is kind i, 0 all. None where the
 * folder has no store. */
NODISCARD Err today_told(const Today *today, int32_t from, int32_t until,
                         uint64_t kinds, Tolds *out);

#endif
