/* The pieces of work/round.c, each a file of its own. */
#ifndef LEAT_WORK_ROUND_PARTS_H
#define LEAT_WORK_ROUND_PARTS_H

#include "work/jobs_shoals.h"
#include "work/loads.h"
#include "work/round.h"

/* What all pieces share. */
typedef struct RoundWork {
    const RoundAsk *ask;
    const Farm *farm;
    int weekday;
    Arena *arena;
    Round *round;
    int32_t stop_room;
    FishWork usual;    /* fish in the water that was foreseen, */
    FishWork told;     /* and in the water as it was read today */
    double *told_degc; /* by tank: read today, NAN */
    bool *is_out;      /* by tank: read today, out of line */
    bool *is_seen;     /* by tank: somebody has looked since */
    JobLoads loads;    /* of the week */
} RoundWork;

/* ---- work/round.c --------------------------------------------------------
 */

RoundStop *round_stop(RoundWork *work, const char *id, const char *name,
                      int32_t walk);

/* An item with what all have; no number, nothing told. */
RoundItem round_item(RoundKind kind, const char *id, const char *place);

void round_add(RoundWork *work, RoundStop *stop, const RoundItem *item);

/* A number that is not known. */
RoundValue round_value(const char *key, const char *unit);

/* The item is answered, for "as usual", by one fact more. */
void round_add_fact(RoundWork *work, RoundItem *item, const Told *fact);

bool round_is_today(const RoundWork *work, const Told *fact);

/* The day's job of a kind at a place; NULL. day: a Monday 0 .. */
const Job *round_job(const JobsWeek *week, JobKind kind, const char *place,
                     int32_t day);

/* ---- the pieces ----------------------------------------------------------
 */

/* Reads today's temperatures and finds the tanks out of line. */
NODISCARD Err round_find_water(RoundWork *work);

/* Of a tank that was read: how far it is from what was foreseen, less how far
 * the others are. */
double round_off_k(const RoundWork *work, int32_t tank);

void round_add_feed(RoundWork *work, RoundStop *stop_of, int32_t tank);
void round_add_eyes(RoundWork *work);
void round_add_hands(RoundWork *work);
void round_find_suspects(RoundWork *work);

/* Readings due at a tank or, below 0, in a loop's sump. */
void round_add_readings(RoundWork *work, RoundStop *stop, int32_t tank,
                        int32_t loop);

#endif
