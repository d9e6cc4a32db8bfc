/* leat jobs DIR: the dated jobs of a week. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "cli/commands.h"
#include "desk/jobs.h"
#include "json/jobs.h"
#include "work/jobs_table.h"

enum { LINE_MAX_BYTES = 79, NOTE_INDENT = 9 };

static const double MINUTES_AN_HOUR = 60.0;

/* Prints text in lines that begin with indent spaces, cut at spaces. */
static void print_wrapped(const char *text, int indent, FILE *out)
{
    size_t room = (size_t)(LINE_MAX_BYTES - indent);
    while (*text) {
        size_t length = strlen(text);
        size_t cut = length;
        if (length > room) {
            cut = room;
            while (cut > 0 && text[cut] != ' ') {
                cut--;
            }
            cut = cut == 0 ? strcspn(text, " ") : cut;
        }
        fprintf(out, "%*s%.*s\n", indent, "", (int)cut, text);
        text += cut;
        text += strspn(text, " ");
    }
}

static const char *day_title(int32_t day, Arena *arena)
{
    CivilDate civil = date_to_civil(day);
    return arena_text(arena, "%s %d %s %d",
                      date_weekday_name(date_weekday(day)), civil.day,
                      date_month_name(civil.month), civil.year);
}

/* Each caution once, before the work. */
static void print_cautions(const JobsWeek *week, FILE *out)
{
    bool is_first = true;
    for (int32_t i = 0; i < week->list.count; i++) {
        const Job *job = &week->list.jobs[i];
        bool is_told = *job->caution == '\0';
        for (int32_t j = 0; j < i && !is_told; j++) {
            is_told = strcmp(week->list.jobs[j].caution, job->caution) == 0;
        }
        if (is_told) {
            continue;
        }
        fputs(is_first ? "\nFirst, for safety\n" : "", out);
        is_first = false;
        fprintf(out, "  %s (%s)\n", job->what, job_kind_word(job->kind));
        print_wrapped(job->caution, 4, out);
    }
}

/* A note that stood at an earlier job of the week is not said again. */
static bool is_note_new(const JobsWeek *week, const Job *job)
{
    for (const Job *at = week->list.jobs; at < job; at++) {
        if (strcmp(at->note, job->note) == 0) {
            return false;
        }
    }
    return true;
}

static void print_job(const JobsAnswer *answer, const Job *job, Arena *arena,
                      FILE *out)
{
    const char *who = jobs_names(answer->farm, job, false, arena);
    if (!*who) {
        who = *jobs_names(answer->farm, job, true, arena)
                  ? "nobody here that day"
                  : "NOBODY MAY DO THIS";
    }
    const char *text = job_text(job, arena);
    const char *line = job->minutes >= 0.5
                           ? arena_text(arena, "%s, %.0f min [%s]", text,
                                        ceil(job->minutes), who)
                           : arena_text(arena, "%s [%s]", text, who);
    fputs("  [ ] ", out);
    /* The first line begins after its box. */
    size_t room = LINE_MAX_BYTES - 6;
    size_t cut = strlen(line);
    if (cut > room) {
        cut = room;
        while (cut > 0 && line[cut] != ' ') {
            cut--;
        }
        cut = cut == 0 ? strlen(line) : cut;
    }
    fprintf(out, "%.*s\n", (int)cut, line);
    print_wrapped(line + cut + strspn(line + cut, " "), 6, out);
    if (is_note_new(&answer->week, job)) {
        print_wrapped(job->note, NOTE_INDENT, out);
    }
}

static void print_hands(const JobsAnswer *answer, FILE *out)
{
    fputs("\nHours of the week\n", out);
    for (int32_t h = 0; h < answer->farm->hands_count; h++) {
        const Hand *hand = &answer->farm->hands[h];
        const HandWeek *hours = &answer->week.hands[h];
        double had = 0.0;
        double used = 0.0;
        double over = 0.0;
        for (int d = 0; d < JOBS_DAYS; d++) {
            had += hours->minutes_had[d] / MINUTES_AN_HOUR;
            used += hours->minutes_used[d] / MINUTES_AN_HOUR;
            over += fmax(hours->minutes_used[d] - hours->minutes_had[d], 0.0) /
                    MINUTES_AN_HOUR;
        }
        fprintf(out, "  %-20s %5.1f of %.1f h",
                *hand->name ? hand->name : hand->id, used, had);
        if (over > 0.05) {
            fprintf(out, ", %.1f h over on single days", over);
        }
        fputc('\n', out);
    }
}

static void print_week(const JobsAnswer *answer, Arena *arena, FILE *out)
{
    const JobsWeek *week = &answer->week;
    char name[DATE_TEXT_SIZE];
    week_format(week->week, name);
    fprintf(out, "Jobs of week %s\n", name);
    for (int i = 0; i < answer->notice_count; i++) {
        print_wrapped(answer->notices[i], 0, out);
    }
    print_cautions(week, out);
    int32_t day = week->week - 1;
    for (int32_t i = 0; i < week->list.count; i++) {
        const Job *job = &week->list.jobs[i];
        if (job->day != day) {
            day = job->day;
            fprintf(out, "\n%s\n", day_title(day, arena));
        }
        print_job(answer, job, arena, out);
    }
    print_hands(answer, out);
}

static Err asked_day(const Arguments *arguments, int32_t *out)
{
    *out = DATE_ALWAYS;
    TRY(arguments_day(arguments, "today", out));
    const char *week = arguments_option(arguments, "week");
    if (!week) {
        return ERR_NONE;
    }
    if (*out != DATE_ALWAYS) {
        return err_make(ERR_USAGE, "--week and --today do not go together");
    }
    Err err = week_parse(week, out);
    if (err.kind != ERR_OK) {
        return err_make(ERR_USAGE, "--week: %.180s", err.text);
    }
    return ERR_NONE;
}

Err cmd_jobs(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    JobsQuestion question = {.dir = arguments_word(arguments, 0)};
    TRY(asked_day(arguments, &question.day));
    if (arguments_has(arguments, "json") && arguments_has(arguments, "csv")) {
        return err_make(ERR_USAGE, "--json and --csv do not go together");
    }
    JobsAnswer answer;
    TRY(jobs_answer(&question, arena, &answer));
    const char *file = arguments_option(arguments, "ics");
    if (file) {
        TRY(jobs_save_calendar(&answer, file, arena));
    }
    if (arguments_has(arguments, "json")) {
        fputs(jobs_to_json(answer.farm, &answer.week, answer.notices,
                           answer.notice_count, arena),
              out);
    } else if (arguments_has(arguments, "csv")) {
        CsvWriter table;
        jobs_write_table(answer.farm, &answer.week, arena, &table);
        fwrite(table.bytes, 1, table.length, out);
    } else {
        print_week(&answer, arena, out);
    }
    return ERR_NONE;
}
