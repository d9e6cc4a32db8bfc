/* One piece of work on one day, and the list of a week. */
#include "work/job.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/tongue.h"

enum { FIRST_ROOM = 64, WHOLE_FROM = 20 };

typedef struct KindRow {
    const char *word;
    int skill;
    JobPhase phase;
    int people;
} KindRow;

static const KindRow KINDS[JOB_KIND_COUNT] = {
#define JOB_ROW(kind, ...) [kind] = {__VA_ARGS__},
    JOB_KINDS(JOB_ROW)
#undef JOB_ROW
};

const char *job_kind_word(JobKind kind)
{
    return KINDS[kind].word;
}

Job job_of(JobKind kind, int32_t earliest, int32_t latest)
{
    const KindRow *row = &KINDS[kind];
    return (Job){.kind = kind,
                 .earliest = earliest,
                 .latest = latest,
                 .day = earliest,
                 .way = -1,
                 .buyer = -1,
                 .skill = row->skill,
                 .phase = row->phase,
                 .people = row->people,
                 .what = "",
                 .stop = "",
                 .unit = "",
                 .brief = "",
                 .note = "",
                 .warning = ""};
}

static Job *find(const JobList *list, const char *id)
{
    for (int32_t i = 0; i < list->count; i++) {
        if (strcmp(list->jobs[i].id, id) == 0) {
            return &list->jobs[i];
        }
    }
    return NULL;
}

static void add_place(JobList *list, Job *job, const JobPlace *place)
{
    for (int32_t i = 0; i < job->place_count; i++) {
        if (strcmp(job->places[i].id, place->id) == 0) {
            job->places[i].amount += place->amount;
            return;
        }
    }
    JobPlace *places =
        arena_grow(list->arena, job->places, (size_t)job->place_count,
                   (size_t)job->place_count + 1, sizeof *places);
    places[job->place_count] = *place;
    job->places = places;
    job->place_count++;
}

/* Both texts, each said once. */
static const char *joined(const char *text, const char *more, Arena *arena)
{
    if (!*more || strstr(text, more)) {
        return text;
    }
    return *text ? arena_text(arena, "%s; %s", text, more) : more;
}

static void merge(JobList *list, Job *into, const Job *more)
{
    into->amount += more->amount;
    into->low += more->low;
    into->high += more->high;
    into->minutes += more->minutes;
    if (more->earliest > into->earliest) {
        into->earliest = more->earliest;
    }
    if (more->latest < into->latest) {
        into->latest = more->latest;
    }
    into->brief = joined(into->brief, more->brief, list->arena);
    into->note = joined(into->note, more->note, list->arena);
    into->warning = joined(into->warning, more->warning, list->arena);
}

void job_add(JobList *list, const Job *job, const JobPlace *place)
{
    assert(job->id && *job->what);
    Job *known = find(list, job->id);
    if (known) {
        merge(list, known, job);
    } else {
        if (list->count == list->room) {
            int32_t room = list->room ? 2 * list->room : FIRST_ROOM;
            list->jobs =
                arena_grow(list->arena, list->jobs, (size_t)list->count,
                           (size_t)room, sizeof *list->jobs);
            list->room = room;
        }
        known = &list->jobs[list->count++];
        *known = *job;
    }
    if (place) {
        add_place(list, known, place);
    }
}

const char *job_number(double value, Arena *arena)
{
    bool is_whole = fabs(value - round(value)) < 0.05;
    return arena_text(arena, "%.*f", value >= WHOLE_FROM || is_whole ? 0 : 1,
                      value);
}

const char *job_quantity(double value, const char *unit, Arena *arena)
{
    if (strcmp(unit, "kg") != 0) {
        return arena_text(arena, "%.0f", round(value));
    }
    return value < 1.0 ? arena_text(arena, "%.2f", value)
                       : job_number(value, arena);
}

const char *job_caution_text(const Job *job, Arena *arena)
{
    const char *caution = say(arena, caution_text(job->caution));
    const char *gap = *job->warning && *caution ? " " : "";
    return arena_text(arena, "%s%s%s", job->warning, gap, caution);
}

/* What is counted on many farms; other words of a farm stay as it has them. */
static const struct {
    const char *one;
    const char *other;
} UNITS[] = {
    {SAY_N("head", "heads")},         {SAY_N("bunch", "bunches")},
    {SAY_N("bag", "bags")},           {SAY_N("tub", "tubs")},
    {SAY_N("box", "boxes")},          {SAY_N("tray", "trays")},
    {SAY_N("fruit", "fruits")},       {SAY_N("piece", "pieces")},
    {SAY_N("pot", "pots")},           {SAY_N("plant", "plants")},
    {SAY_N("seed", "seeds")},         {SAY_N("cell", "cells")},
    {SAY_N("seedling", "seedlings")}, {SAY_N("fish", "fish")},
};

const char *job_unit(const char *unit, double amount, Arena *arena)
{
    size_t length = strlen(unit);
    int64_t count = amount <= 1.0 ? 1 : (int64_t)ceil(amount);
    for (size_t i = 0; i < sizeof UNITS / sizeof *UNITS; i++) {
        if (strcmp(unit, UNITS[i].one) == 0) {
            return say_n(arena, count, UNITS[i].one, UNITS[i].other);
        }
    }
    bool is_same = strcmp(unit, "kg") == 0 || strcmp(unit, "g") == 0;
    bool is_english = !arena_tongue(arena)->catalogue;
    if (length == 0 || is_same || count == 1 || !is_english) {
        return unit;
    }
    char last = unit[length - 1];
    bool is_hissed =
        last == 's' || last == 'x' ||
        (last == 'h' && length > 1 && strchr("cs", unit[length - 2]));
    return arena_text(arena, "%s%s", unit, is_hissed ? "es" : "s");
}

static const char *places_text(const Job *job, Arena *arena)
{
    const char *text = "";
    for (int32_t i = 0; i < job->place_count; i++) {
        const JobPlace *place = &job->places[i];
        const char *comma = i ? ", " : "";
        if (place->amount > 0.0 && job->place_count > 1) {
            text = arena_text(arena, "%s%s%s (%s)", text, comma, place->id,
                              job_number(place->amount, arena));
        } else {
            text = arena_text(arena, "%s%s%s", text, comma, place->id);
        }
    }
    return text;
}

const char *job_text(const Job *job, Arena *arena)
{
    const char *text = job->what;
    if (job->amount > 0.0) {
        text =
            arena_text(arena, "%s: %s %s", text, job_number(job->amount, arena),
                       job_unit(job->unit, job->amount, arena));
    }
    if (job->amount > 0.0 && job->high - job->low >= 0.5) {
        text =
            arena_say(arena, "%s (%s to %s)", text, job_number(job->low, arena),
                      job_number(job->high, arena));
    }
    if (job->place_count > 0) {
        text = arena_say(arena, "%s at %s", text, places_text(job, arena));
    }
    return text;
}

static int compare_place(const void *left, const void *right)
{
    const JobPlace *a = left;
    const JobPlace *b = right;
    if (a->walk != b->walk) {
        return a->walk < b->walk ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

static int32_t first_walk(const Job *job)
{
    return job->place_count ? job->places[0].walk : 0;
}

static int compare_job(const void *left, const void *right)
{
    const Job *a = left;
    const Job *b = right;
    if (a->day != b->day) {
        return a->day < b->day ? -1 : 1;
    }
    if (a->phase != b->phase) {
        return a->phase < b->phase ? -1 : 1;
    }
    /* Packed, then fish taken out, then driven: no walk. */
    if (a->phase == PHASE_OUT && a->kind != b->kind) {
        return a->kind < b->kind ? -1 : 1;
    }
    if (first_walk(a) != first_walk(b)) {
        return first_walk(a) < first_walk(b) ? -1 : 1;
    }
    if (a->kind != b->kind) {
        return a->kind < b->kind ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

void job_sort(JobList *list)
{
    for (int32_t i = 0; i < list->count; i++) {
        Job *job = &list->jobs[i];
        if (job->place_count > 1) {
            JobPlace *places =
                arena_grow(list->arena, job->places, (size_t)job->place_count,
                           (size_t)job->place_count, sizeof *places);
            qsort(places, (size_t)job->place_count, sizeof *places,
                  compare_place);
            job->places = places;
        }
    }
    if (list->count > 1) {
        qsort(list->jobs, (size_t)list->count, sizeof *list->jobs, compare_job);
    }
}
