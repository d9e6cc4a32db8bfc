/* The jobs of a week: read the farm, foresee the week, make its jobs. */
#ifndef LEAT_DESK_JOBS_H
#define LEAT_DESK_JOBS_H

#include "base/csv.h"
#include "out/calendar.h"
#include "work/jobs.h"

typedef struct JobsQuestion {
    const char *dir;
    /* A day of the week that is asked for; DATE_ALWAYS: this week by the
     * clock, or the plan's first where the plan is yet to begin. */
    int32_t day;
} JobsQuestion;

enum { JOBS_NOTICES_MAX = 4 };

typedef struct JobsAnswer {
    const Farm *farm; /* Borrowed from the arena, as all of this. */
    JobsWeek week;
    const char *notices[JOBS_NOTICES_MAX];
    int notice_count;
} JobsAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND without an accepted plan;
 * ERR_RANGE for a week outside it. */
NODISCARD Err jobs_answer(const JobsQuestion *question, Arena *arena,
                          JobsAnswer *out);

/* The week as a calendar; the id of a job is its UID. */
NODISCARD Err jobs_calendar(const JobsAnswer *answer, Arena *arena,
                            CalendarFile *out);

/* The same, written to a file. */
NODISCARD Err jobs_save_calendar(const JobsAnswer *answer, const char *path,
                                 Arena *arena);

#endif
