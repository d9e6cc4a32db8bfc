/* The jobs of a week as a calendar: by person and day, by stop and day, or each
 * by itself. */
#include "desk/jobs.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "work/jobs_table.h"

enum { NOBODY = -1 };

typedef struct Entries {
    const JobsAnswer *answer;
    Arena *arena;
    CalendarEntry *items;
    size_t count;
} Entries;

/* What goes to that buyer on that day, a line each; "" for nothing. */
static const char *load_lines(const Entries *entries, const Job *job)
{
    const JobsAnswer *answer = entries->answer;
    const char *text = "";
    for (int32_t i = 0; i < answer->loads.count && job->buyer >= 0; i++) {
        const Load *load = &answer->loads.loads[i];
        int32_t buyer = answer->farm->orders[load->order].buyer;
        if (load->day == job->day && buyer == job->buyer) {
            text = arena_text(entries->arena, "%s\n  - %s", text,
                              load_text(answer->farm, load, entries->arena));
        }
    }
    return text;
}

static const char *location_of(const Job *job, Arena *arena)
{
    const char *where = "";
    for (int32_t i = 0; i < job->place_count; i++) {
        where = arena_text(arena, "%s%s%s", where, i ? ", " : "",
                           job->places[i].id);
    }
    return where;
}

static void add_job(Entries *entries, const Job *job)
{
    Arena *arena = entries->arena;
    const char *caution = job_caution_text(job, arena);
    const char *gap = *job->note && *caution ? "\n" : "";
    entries->items[entries->count++] = (CalendarEntry){
        .uid = job->id,
        .day = job->day,
        .summary = job_text(job, arena),
        .description = arena_text(arena, "%s%s%s%s", caution, gap, job->note,
                                  load_lines(entries, job)),
        .location = location_of(job, arena),
        .minutes = job->minutes};
}

/* ---- many jobs in one event ---------------------------------------------- */

typedef struct Bundle {
    int32_t day;
    int hand;         /* NOBODY: jobs that nobody does; only where no stop */
    const char *stop; /* NULL: by person */
} Bundle;

static bool is_hand_of(const Job *job, int hand)
{
    bool is_its = hand == NOBODY && job->hand_count == 0;
    for (int i = 0; i < job->hand_count; i++) {
        is_its |= job->hands[i] == hand;
    }
    return is_its;
}

static bool holds(const Bundle *bundle, const Job *job)
{
    return job->day == bundle->day &&
           (bundle->stop ? strcmp(job->stop, bundle->stop) == 0
                         : is_hand_of(job, bundle->hand));
}

static const char *job_line(const Entries *entries, const Job *job,
                            bool has_names)
{
    Arena *arena = entries->arena;
    const char *names =
        has_names ? jobs_names(entries->answer->farm, job, false, arena) : "";
    const char *minutes = job->minutes >= 0.5 ? arena_text(arena, ", %.0f min",
                                                           ceil(job->minutes))
                                              : "";
    return arena_text(arena, "[ ] %s%s%s%s%s%s%s%s", job_text(job, arena),
                      *job->brief ? "; " : "", job->brief, minutes,
                      *names ? ", " : "", names, *job->warning ? " " : "",
                      job->warning);
}

/* The cautions of its jobs, each once, below the list. */
static const char *caution_lines(const Entries *entries, const bool *is_meant)
{
    const char *text = "";
    for (int caution = 1; caution < CAUTION_COUNT; caution++) {
        if (is_meant[caution]) {
            text = arena_text(entries->arena, "%s\n! %s", text,
                              caution_text((Caution)caution));
        }
    }
    return text;
}

static void add_bundle(Entries *entries, const Bundle *bundle)
{
    const JobsAnswer *answer = entries->answer;
    const JobList *list = &answer->week.list;
    Arena *arena = entries->arena;
    bool is_meant[CAUTION_COUNT] = {false};
    const char *text = "";
    double minutes = 0.0;
    int count = 0;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (!holds(bundle, job)) {
            continue;
        }
        is_meant[job->caution] = true;
        bool is_shared = !bundle->stop && job->hand_count > 1;
        minutes += is_shared ? job->minutes / job->hand_count : job->minutes;
        count++;
        text = arena_text(arena, "%s%s%s%s", text, *text ? "\n" : "",
                          job_line(entries, job, bundle->stop || is_shared),
                          load_lines(entries, job));
    }
    if (count == 0) {
        return;
    }
    char day[DATE_TEXT_SIZE];
    date_format(bundle->day, day);
    const Farm *farm = answer->farm;
    const char *who =
        bundle->hand == NOBODY ? "Nobody" : jobs_hand_name(farm, bundle->hand);
    const char *id = bundle->stop             ? bundle->stop
                     : bundle->hand == NOBODY ? "nobody"
                                              : farm->hands[bundle->hand].id;
    entries->items[entries->count++] = (CalendarEntry){
        .uid = arena_text(arena, "%s.%s.%s.%s", farm->farm->id,
                          bundle->stop ? "stop" : "person", id, day),
        .day = bundle->day,
        .summary =
            arena_text(arena, "%s: %d %s", bundle->stop ? bundle->stop : who,
                       count, count == 1 ? "job" : "jobs"),
        .description =
            arena_text(arena, "%s%s", text, caution_lines(entries, is_meant)),
        .location = bundle->stop ? bundle->stop : "",
        .minutes = minutes};
}

static void add_people(Entries *entries, int32_t day)
{
    for (int h = NOBODY; h < entries->answer->farm->hands_count; h++) {
        add_bundle(entries, &(Bundle){.day = day, .hand = h});
    }
}

static bool is_first_at_stop(const JobList *list, int32_t at)
{
    for (int32_t i = 0; i < at; i++) {
        if (list->jobs[i].day == list->jobs[at].day &&
            strcmp(list->jobs[i].stop, list->jobs[at].stop) == 0) {
            return false;
        }
    }
    return true;
}

static void add_stops(Entries *entries, int32_t day)
{
    const JobList *list = &entries->answer->week.list;
    for (int32_t i = 0; i < list->count; i++) {
        if (list->jobs[i].day == day && is_first_at_stop(list, i)) {
            add_bundle(entries,
                       &(Bundle){.day = day, .stop = list->jobs[i].stop});
        }
    }
}

Err jobs_calendar(const JobsAnswer *answer, JobsEvents events, Arena *arena,
                  CalendarFile *out)
{
    const JobList *list = &answer->week.list;
    const FarmSite *site = answer->farm->farm;
    size_t most = (size_t)list->count +
                  JOBS_DAYS * ((size_t)answer->farm->hands_count + 1);
    Entries entries = {.answer = answer,
                       .arena = arena,
                       .items = ARENA_ARRAY(arena, CalendarEntry, most)};
    for (int d = 0; d < JOBS_DAYS && events != EVENTS_JOB; d++) {
        if (events == EVENTS_PERSON) {
            add_people(&entries, answer->week.week + d);
        } else {
            add_stops(&entries, answer->week.week + d);
        }
    }
    for (int32_t i = 0; i < list->count && events == EVENTS_JOB; i++) {
        add_job(&entries, &list->jobs[i]);
    }
    return calendar_write(*site->name ? site->name : site->id,
                          answer->farm->plan[0].accepted_on, entries.items,
                          entries.count, arena, out);
}

Err jobs_save_calendar(const JobsAnswer *answer, JobsEvents events,
                       const char *path, Arena *arena)
{
    CalendarFile calendar;
    TRY(jobs_calendar(answer, events, arena, &calendar));
    FILE *file = fopen(path, "wb");
    if (!file) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    size_t written = fwrite(calendar.bytes, 1, calendar.length, file);
    bool is_closed = fclose(file) == 0;
    if (written != calendar.length || !is_closed) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    return ERR_NONE;
}
