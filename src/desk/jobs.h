/* The jobs of a week: read the farm, foresee the week, make its jobs. */
#ifndef LEAT_DESK_JOBS_H
#define LEAT_DESK_JOBS_H

#include "out/calendar.h"
#include "work/news.h"

enum { JOBS_ANY_DAY = -1 };

typedef struct JobsQuestion {
    const char *dir;
    /* A day of the week that is asked for; DATE_ALWAYS: this week by the
     * clock, or the plan's first where the plan is yet to begin. */
    int32_t day;
    int32_t later_d; /* so many days after it */
    int weekday;     /* of the week that this leads to; JOBS_ANY_DAY */
    bool is_exact;   /* that very day, though nobody may be there to work */
} JobsQuestion;

enum { JOBS_NOTICES_MAX = 8 };

typedef struct JobsAnswer {
    const Farm *farm; /* Borrowed from the arena, as all of this. */
    JobsWeek week;
    JobLoads loads;
    JobNews news;
    int32_t day; /* in the week: the one asked for, else the first from today
                    on with work that somebody is there to do */
    const char *notices[JOBS_NOTICES_MAX];
    int notice_count;
} JobsAnswer;

/* ERR_INPUT for a farm with faults; ERR_NOT_FOUND without an accepted plan;
 * ERR_RANGE for a week outside it. */
NODISCARD Err jobs_answer(const JobsQuestion *question, Arena *arena,
                          JobsAnswer *out);

/* What becomes one event. */
typedef enum JobsEvents {
    EVENTS_PERSON, /* all that one person does on a day */
    EVENTS_STOP,   /* all that is done at one stop on a day */
    EVENTS_JOB,    /* each job by itself */
} JobsEvents;

/* The week as a calendar; what goes in the van is told with the delivery. The
 * UID is the job's id, or made of the person or stop and the day: the same over
 * replans. */
NODISCARD Err jobs_calendar(const JobsAnswer *answer, JobsEvents events,
                            Arena *arena, CalendarFile *out);

/* The same, written to a file. */
NODISCARD Err jobs_save_calendar(const JobsAnswer *answer, JobsEvents events,
                                 const char *path, Arena *arena);

#endif
