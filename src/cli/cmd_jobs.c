/* leat jobs DIR: the dated jobs of a day or a week, and what goes in the van.
 */
#include <string.h>

#include "base/date.h"
#include "cli/commands.h"
#include "cli/jobs_text.h"
#include "json/jobs.h"
#include "work/jobs_table.h"

enum { DAY_NAME_LEAST = 3 };

static const char *const DAY_NAMES[JOBS_DAYS] = {
    "monday", "tuesday",  "wednesday", "thursday",
    "friday", "saturday", "sunday"};

/* "tue", "tues", "tuesday": 1; JOBS_ANY_DAY for no name of a day. */
static int weekday_named(const char *text)
{
    size_t length = strlen(text);
    for (int d = 0; d < JOBS_DAYS && length >= DAY_NAME_LEAST; d++) {
        if (length <= strlen(DAY_NAMES[d]) &&
            strncmp(text, DAY_NAMES[d], length) == 0) {
            return d;
        }
    }
    return JOBS_ANY_DAY;
}

static Err read_week(const Arguments *arguments, JobsQuestion *question)
{
    const char *week = arguments_option(arguments, "week");
    if (!week || strcmp(week, "this") == 0) {
        return ERR_NONE;
    }
    if (strcmp(week, "next") == 0) {
        question->later_d = JOBS_DAYS;
        return ERR_NONE;
    }
    Err err = week_parse(week, &question->day);
    return err.kind == ERR_OK
               ? ERR_NONE
               : err_make(ERR_USAGE, "--week: %.150s, or this, or next",
                          err.text);
}

static Err read_day(const Arguments *arguments, JobsQuestion *question)
{
    const char *day = arguments_option(arguments, "day");
    if (!day) {
        return ERR_NONE;
    }
    question->is_exact = true;
    question->weekday = weekday_named(day);
    if (question->weekday != JOBS_ANY_DAY) {
        return ERR_NONE;
    }
    if (arguments_has(arguments, "week")) {
        return err_make(ERR_USAGE,
                        "--day %.40s: with --week, a day from mon to sun", day);
    }
    if (strcmp(day, "today") == 0) {
        return ERR_NONE;
    }
    if (strcmp(day, "tomorrow") == 0) {
        question->later_d = 1;
        return ERR_NONE;
    }
    Err err = date_parse(day, &question->day);
    return err.kind == ERR_OK ? ERR_NONE
                              : err_make(ERR_USAGE,
                                         "--day: %.120s, or mon to sun, today, "
                                         "tomorrow",
                                         err.text);
}

static Err read_question(const Arguments *arguments, JobsQuestion *out)
{
    JobsQuestion question = {.dir = arguments_word(arguments, 0),
                             .day = DATE_ALWAYS,
                             .weekday = JOBS_ANY_DAY};
    TRY(arguments_day(arguments, "today", &question.day));
    TRY(read_week(arguments, &question));
    TRY(read_day(arguments, &question));
    if (arguments_has(arguments, "json") && arguments_has(arguments, "csv")) {
        return err_make(ERR_USAGE, "--json and --csv do not go together");
    }
    if (arguments_has(arguments, "loads") && arguments_has(arguments, "csv")) {
        return err_make(ERR_USAGE, "--loads comes as text or with --json");
    }
    *out = question;
    return ERR_NONE;
}

static Err read_events(const Arguments *arguments, JobsEvents *out)
{
    static const char *const NAMES[] = {[EVENTS_PERSON] = "person",
                                        [EVENTS_STOP] = "stop",
                                        [EVENTS_JOB] = "job"};
    const char *events = arguments_option(arguments, "events");
    *out = EVENTS_PERSON;
    for (size_t i = 0; events && i < sizeof NAMES / sizeof *NAMES; i++) {
        if (strcmp(events, NAMES[i]) == 0) {
            *out = (JobsEvents)i;
            events = NULL;
        }
    }
    return !events ? ERR_NONE
                   : err_make(ERR_USAGE,
                              "--events: person, stop or job, not %s", events);
}

static void print_table(const JobsAnswer *answer, Arena *arena, FILE *out)
{
    CsvWriter table;
    jobs_write_table(answer->farm, &answer->week, arena, &table);
    fwrite(table.bytes, 1, table.length, out);
}

static void print_text(const Arguments *arguments, const JobsAnswer *answer,
                       FILE *out)
{
    JobsPage page = {.answer = answer,
                     .arena = arguments->arena,
                     .out = out,
                     .columns = jobs_page_columns(out)};
    bool has_day = arguments_has(arguments, "day");
    page.is_glance = !has_day && !arguments_has(arguments, "week");
    if (arguments_has(arguments, "loads")) {
        jobs_text_loads(&page, has_day);
    } else if (arguments_has(arguments, "week") && !has_day) {
        jobs_text_week(&page);
    } else {
        jobs_text_day(&page);
    }
    if (arguments_has(arguments, "cautions")) {
        jobs_text_cautions(&page);
    }
}

Err cmd_jobs(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    JobsQuestion question;
    JobsEvents events;
    TRY(read_question(arguments, &question));
    TRY(read_events(arguments, &events));
    JobsAnswer answer;
    TRY(jobs_answer(&question, arena, &answer));
    const char *file = arguments_option(arguments, "ics");
    if (file) {
        TRY(jobs_save_calendar(&answer, events, file, arena));
    }
    if (arguments_has(arguments, "json")) {
        JobsJson page = {.farm = answer.farm,
                         .week = &answer.week,
                         .loads = &answer.loads,
                         .news = &answer.news,
                         .day = answer.day,
                         .notices = answer.notices,
                         .notice_count = answer.notice_count};
        fputs(arguments_has(arguments, "loads") ? loads_to_json(&page, arena)
                                                : jobs_to_json(&page, arena),
              out);
    } else if (arguments_has(arguments, "csv")) {
        print_table(&answer, arena, out);
    } else {
        print_text(arguments, &answer, out);
    }
    return ERR_NONE;
}
