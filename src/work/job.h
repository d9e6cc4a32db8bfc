/* One piece of work on one day, and the list of a week.
 *
 * A job has an id that stays the same over replans while its batch, tank or
 * task does; it may be done on any day from earliest to latest until the
 * allotment gives it one. Text is UTF-8, borrowed from the list's arena. */
#ifndef LEAT_WORK_JOB_H
#define LEAT_WORK_JOB_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "farm/records.h"
#include "work/cautions.h"

/* Order of a day: first the eyes, then clean hands, then all other hand work;
 * picking comes before any work with fish. */
typedef enum JobPhase {
    PHASE_ROUND,
    PHASE_PICK,
    PHASE_PLANTS,
    PHASE_OUT, /* packing, fish for sale, deliveries, orders */
    PHASE_WET, /* nets, gravel, screens */
} JobPhase;

/* The list is laid out by hand. Kind; word in ids, JSON and CSV; who may do it;
 * phase; the people it takes at least. */
/* clang-format off */
#define JOB_KINDS(X)                                                           \
    X(JOB_ROUND,   "round",   SKILL_FEED,    PHASE_ROUND,  1)                  \
    X(JOB_TEST,    "test",    SKILL_TEST,    PHASE_ROUND,  1)                  \
    X(JOB_VENT,    "vent",    SKILL_VENT,    PHASE_ROUND,  1)                  \
    X(JOB_SHADE,   "shade",   SKILL_VENT,    PHASE_PLANTS, 1)                  \
    X(JOB_COUNT,   "count",   SKILL_SOW,     PHASE_ROUND,  1)                  \
    X(JOB_RENEW,   "renew",   SKILL_PRUNE,   PHASE_ROUND,  1)                  \
    X(JOB_FEED,    "feed",    SKILL_FEED,    PHASE_ROUND,  1)                  \
    X(JOB_FAST,    "fast",    SKILL_FEED,    PHASE_ROUND,  1)                  \
    X(JOB_PICK,    "pick",    SKILL_PICK,    PHASE_PICK,   1)                  \
    X(JOB_SOW,     "sow",     SKILL_SOW,     PHASE_PLANTS, 1)                  \
    X(JOB_CLEAR,   "clear",   SKILL_CLEAR,   PHASE_PLANTS, 1)                  \
    X(JOB_SET,     "set",     SKILL_SET,     PHASE_PLANTS, 1)                  \
    X(JOB_STRING,  "string",  SKILL_PRUNE,   PHASE_PLANTS, 1)                  \
    X(JOB_PRUNE,   "prune",   SKILL_PRUNE,   PHASE_PLANTS, 1)                  \
    X(JOB_CROWD,   "crowd",   SKILL_FEED,    PHASE_ROUND,  1)                  \
    X(JOB_TASK,    "task",    SKILL_OFFICE,  PHASE_OUT,    1)                  \
    X(JOB_ORDER,   "order",   SKILL_OFFICE,  PHASE_OUT,    1)                  \
    X(JOB_SALE,    "sale",    SKILL_NET,     PHASE_OUT,    1)                  \
    X(JOB_DELIVER, "deliver", SKILL_DELIVER, PHASE_OUT,    1)                  \
    X(JOB_CLEAN,   "clean",   SKILL_CLEAN,   PHASE_WET,    1)                  \
    X(JOB_STOCK,   "stock",   SKILL_NET,     PHASE_WET,    1)                  \
    X(JOB_GRADE,   "grade",   SKILL_NET,     PHASE_WET,    2)                  \
    X(JOB_CATCH,   "catch",   SKILL_NET,     PHASE_WET,    2)
/* clang-format on */

typedef enum JobKind {
#define JOB_ENUM(kind, ...) kind,
    JOB_KINDS(JOB_ENUM)
#undef JOB_ENUM
        JOB_KIND_COUNT
} JobKind;

/* Where it is done, and how much of it there. */
typedef struct JobPlace {
    const char *id; /* a bed, tank, tunnel, buyer .. */
    int32_t walk;
    double amount; /* of the job's unit; 0: not told by place */
} JobPlace;

enum { JOB_HANDS_MAX = 4 };

typedef struct Job {
    const char *id;
    JobKind kind;
    int32_t earliest; /* days on which it may be done */
    int32_t latest;
    int32_t day;    /* set by the allotment */
    int32_t way;    /* what is picked, sown, set ..: row of ways; else -1 */
    int32_t buyer;  /* who is delivered to: row of buyers; else -1 */
    bool is_stored; /* picked for the week after, not for this week's van */
    int skill;      /* SKILL_..: who may do it */
    JobPhase phase;
    const char *what; /* "Pick lettuce, head" */
    const char *stop; /* where the walk stops for it: "H1", "tanks" */
    JobPlace *places;
    int32_t place_count;
    double amount; /* to be done; 0: there is no number */
    double low;    /* what may be there; equal to amount where it is sure */
    double high;
    const char *unit;    /* "heads"; "" where amount is 0 */
    const char *brief;   /* the note in a few words; "" for none */
    const char *note;    /* how, how much, for what; "" for none */
    const char *warning; /* why not to do it as planned; "" for none */
    Caution caution;
    double minutes;           /* of all people together */
    int people;               /* least number at one time */
    int hands[JOB_HANDS_MAX]; /* farm's hands who do it, by the allotment */
    int hand_count;           /* 0: nobody may, or nobody is here */
} Job;

typedef struct JobList {
    Arena *arena; /* Borrowed. */
    Job *jobs;
    int32_t count;
    int32_t room;
} JobList;

const char *job_kind_word(JobKind kind);

/* A job of a kind with what its kind decides; days as given. */
Job job_of(JobKind kind, int32_t earliest, int32_t latest);

/* Adds a job; where one of that id is there already, they become one: amounts,
 * minutes and places are added, a note is kept once. */
void job_add(JobList *list, const Job *job, const JobPlace *place);

/* "Pick lettuce, head: 34 heads (28 to 39) at H1-S1 (20), H1-S2 (14)". */
const char *job_text(const Job *job, Arena *arena);

/* A number as people write it: whole from 20 on or where it is whole, else with
 * one decimal. */
const char *job_number(double value, Arena *arena);

/* The warning, if there is one, and the caution in full; "" without both. */
const char *job_caution_text(const Job *job, Arena *arena);

/* The same of a unit: what is counted is told whole, kilograms with two
 * decimals under one. */
const char *job_quantity(double value, const char *unit, Arena *arena);

/* "heads" for 17 of "head"; "bunches"; "kg" and "fish" stay. */
const char *job_unit(const char *unit, double amount, Arena *arena);

/* By day, phase, place in the walk, kind, then id. */
void job_sort(JobList *list);

#endif
