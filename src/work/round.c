/* Today's walk through the farm. */
#include "work/round_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"

enum { FIRST_STOPS = 16 };

const char *round_kind_word(RoundKind kind)
{
    static const char *const WORDS[] = {
#define ROUND_WORD(kind, word) [kind] = (word),
        ROUND_KINDS(ROUND_WORD)
#undef ROUND_WORD
    };
    return WORDS[kind];
}

/* ---- building ------------------------------------------------------------
 */

RoundStop *round_stop(RoundWork *work, const char *id, const char *name,
                      int32_t walk)
{
    Round *round = work->round;
    for (int32_t i = 0; i < round->stop_count; i++) {
        if (strcmp(round->stops[i].id, id) == 0) {
            return &round->stops[i];
        }
    }
    if (round->stop_count == work->stop_room) {
        int32_t room = work->stop_room ? 2 * work->stop_room : FIRST_STOPS;
        round->stops =
            arena_grow(work->arena, round->stops, (size_t)round->stop_count,
                       (size_t)room, sizeof *round->stops);
        work->stop_room = room;
    }
    RoundStop *stop = &round->stops[round->stop_count++];
    *stop = (RoundStop){.id = id, .name = name, .walk = walk};
    return stop;
}

RoundValue round_value(const char *key, const char *unit)
{
    return (RoundValue){.key = key,
                        .unit = unit,
                        .amount = NAN,
                        .expected = NAN,
                        .low = NAN,
                        .high = NAN,
                        .yesterday = NAN,
                        .told = NAN,
                        .yesterday_on = DATE_NEVER,
                        .odd_below = NAN,
                        .odd_above = NAN};
}

RoundItem round_item(RoundKind kind, const char *id, const char *place)
{
    return (RoundItem){.id = id,
                       .kind = kind,
                       .text = "",
                       .place = place,
                       .value = round_value(NULL, ""),
                       .detail = "",
                       .caution = "",
                       .batch = "",
                       .warning = "",
                       .then_amount = NAN};
}

void round_add_fact(RoundWork *work, RoundItem *item, const Told *fact)
{
    Told *facts = arena_grow(work->arena, item->facts, (size_t)item->fact_count,
                             (size_t)item->fact_count + 1, sizeof *facts);
    facts[item->fact_count] = *fact;
    if (item->job && !*facts[item->fact_count].job) {
        facts[item->fact_count].job = item->job->id;
    }
    item->facts = facts;
    item->fact_count++;
}

bool round_is_today(const RoundWork *work, const Told *fact)
{
    return fact->happened_on == work->ask->day;
}

/* Kinds of entries that answer an item where no job is named. */
static bool is_kind_of(const RoundItem *item, const Told *fact)
{
    switch (item->kind) {
    case ROUND_FEED:
    case ROUND_FAST:
        return fact->kind == TOLD_FED || fact->kind == TOLD_FASTED;
    case ROUND_READ:
        return fact->kind == TOLD_READ &&
               strcmp(fact->quantity_key, item->value.key) == 0;
    case ROUND_VENT:
        return fact->kind == TOLD_VENTED;
    case ROUND_LOOK:
        return fact->kind == (item->value.key ? TOLD_DIED : TOLD_SEEN);
    case ROUND_DO:
    case ROUND_PICK:
        return false;
    }
    return false;
}

/* It was prepared for "as usual", whatever the number told. */
static bool is_prepared(const RoundItem *item, const Told *fact)
{
    for (int32_t i = 0; i < item->fact_count; i++) {
        const Told *at = &item->facts[i];
        if (at->kind == fact->kind && strcmp(at->place, fact->place) == 0 &&
            strcmp(at->way, fact->way) == 0 &&
            strcmp(at->buyer, fact->buyer) == 0) {
            return true;
        }
    }
    return false;
}

/* A look is answered where one of its places was seen. */
static bool is_seen_in(const RoundItem *item, const Told *fact)
{
    for (int32_t i = 0; i < item->place_count; i++) {
        if (item->kind == ROUND_LOOK && fact->kind == TOLD_SEEN &&
            strcmp(item->places[i].id, fact->place) == 0) {
            return true;
        }
    }
    return false;
}

static bool answers(const RoundItem *item, const Told *fact)
{
    bool is_place = !*item->place || !*fact->place || item->place_count > 1 ||
                    strcmp(item->place, fact->place) == 0;
    bool is_job = *fact->job && item->job && item->kind != ROUND_READ &&
                  strcmp(fact->job, item->job->id) == 0 && is_place;
    return is_job || is_prepared(item, fact) || is_seen_in(item, fact) ||
           (*item->place && strcmp(item->place, fact->place) == 0 &&
            is_kind_of(item, fact));
}

/* The number of an entry that belongs to the item; NAN where it has none. */
static double number_of(const RoundItem *item, const Told *fact)
{
    double count = fact->count >= 0 ? (double)fact->count : NAN;
    if (strcmp(item->value.key, "grams") == 0) {
        return fact->grams;
    }
    if (strcmp(item->value.key, "count") == 0) {
        return count;
    }
    return strcmp(item->value.key, "quantity") != 0 ? fact->value
           : isnan(fact->quantity)                  ? count
                                                    : fact->quantity;
}

/* Numbers told add up; of readings the last stands. */
static void add_number(RoundItem *item, const Told *fact)
{
    double number = item->value.key ? number_of(item, fact) : NAN;
    if (isnan(number)) {
        return;
    }
    bool is_first = item->kind == ROUND_READ || isnan(item->value.told);
    item->value.told = is_first ? number : item->value.told + number;
}

static void find_told(const RoundWork *work, RoundItem *item)
{
    const RoundAsk *ask = work->ask;
    int64_t *told = ARENA_ARRAY(work->arena, int64_t, ask->fact_count + 1);
    for (int32_t i = 0; i < ask->fact_count; i++) {
        if (round_is_today(work, &ask->facts[i]) &&
            answers(item, &ask->facts[i])) {
            told[item->told_count++] = ask->facts[i].number;
            add_number(item, &ask->facts[i]);
        }
    }
    item->told = told;
}

void round_add(RoundWork *work, RoundStop *stop, const RoundItem *item)
{
    RoundItem *items =
        arena_grow(work->arena, stop->items, (size_t)stop->item_count,
                   (size_t)stop->item_count + 1, sizeof *items);
    items[stop->item_count] = *item;
    find_told(work, &items[stop->item_count]);
    stop->items = items;
    stop->item_count++;
}

const Job *round_job(const JobsWeek *week, JobKind kind, const char *place,
                     int32_t day)
{
    for (int32_t i = 0; week && i < week->list.count; i++) {
        const Job *job = &week->list.jobs[i];
        bool is_there = !place || (job->place_count > 0 &&
                                   strcmp(job->places[0].id, place) == 0);
        if (job->kind == kind && job->day == day && is_there) {
            return job;
        }
    }
    return NULL;
}

/* ---- the whole -----------------------------------------------------------
 */

static int by_walk(const void *left, const void *right)
{
    const RoundStop *a = left;
    const RoundStop *b = right;
    if (a->walk != b->walk) {
        return a->walk < b->walk ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

static void find_as_usual(RoundWork *work)
{
    const RoundAsk *ask = work->ask;
    for (int32_t i = 0; i < ask->fact_count; i++) {
        const Told *fact = &ask->facts[i];
        if (!round_is_today(work, fact)) {
            continue;
        }
        work->round->told_count++;
        for (int32_t s = 0; s < work->round->stop_count; s++) {
            RoundStop *stop = &work->round->stops[s];
            stop->is_as_usual |= fact->kind == TOLD_AS_USUAL &&
                                 strcmp(fact->stop, stop->id) == 0;
        }
    }
}

int32_t round_taps(const Round *round)
{
    int32_t taps = 0;
    for (int32_t i = 0; i < round->stop_count; i++) {
        taps += !round->stops[i].is_hands;
    }
    return taps;
}

Err round_make(const RoundAsk *ask, Arena *arena, Round *out)
{
    Round round = {.day = ask->day};
    RoundWork work = {.ask = ask,
                      .farm = ask->farm,
                      .weekday = date_weekday(ask->day),
                      .arena = arena,
                      .round = &round,
                      .loads = loads_of_week(ask->farm, ask->week, arena)};
    round.loops = ARENA_ARRAY(arena, RoundFeed, ask->farm->loops_count + 1);
    for (int32_t l = 0; l < ask->farm->loops_count; l++) {
        round.loops[l].wanted_g = ask->wanted_g ? ask->wanted_g[l] : NAN;
    }
    TRY(round_find_water(&work));
    round_add_eyes(&work);
    qsort(round.stops, (size_t)round.stop_count, sizeof *round.stops, by_walk);
    round_add_hands(&work);
    find_as_usual(&work);
    round_find_suspects(&work);
    *out = round;
    return ERR_NONE;
}
