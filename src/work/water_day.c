/* The water of a day. */
#include "work/water_day.h"

#include <math.h>
#include <string.h>

#include "work/water_working.h"

const char *water_mark_word(WaterMark mark)
{
    static const char *const WORDS[] = {[WATER_NOT_READ] = "not read",
                                        [WATER_IN_RANGE] = "in range",
                                        [WATER_LOW] = "low",
                                        [WATER_HIGH] = "high",
                                        [WATER_OLD] = "old"};
    return WORDS[mark];
}

typedef struct Work {
    const WaterDayAsk *ask;
    const Farm *farm;
    Arena *arena;
} Work;

static double limit_of(const Work *work, const char *id)
{
    return book_limit(work->ask->book, id)->limit.value;
}

/* ---- what suits ----------------------------------------------------------
 */

/* Total ammonia at which the un-ionised part reaches the caution for the
 * lightest fish in this water; NAN where pH or ammonia is not known. */
static double tan_most(const Judge *judge)
{
    const double *of = judge->of;
    return of[JUDGE_NH3] > 0.0
               ? of[JUDGE_TAN] * of[JUDGE_NH3_CAUTION] / of[JUDGE_NH3]
               : NAN;
}

/* Oxygen at which the heaviest fish eat all they can. */
static double full_feed_mg_l(const Judge *judge)
{
    double least = 0.0;
    for (int i = 0; i < judge->fish_count; i++) {
        least = fmax(least, judge->fish[i].full_feed_mg_l);
    }
    return least;
}

/* An end of a range that is a limit of the book as it stands. */
static double end_at(const Work *work, WaterEnd *end, const char *limit)
{
    end->limit = &book_limit(work->ask->book, limit)->limit;
    return end->limit->value;
}

static void set_range(const Work *work, const Judge *judge,
                      WaterReading *reading, WaterRange *made)
{
    const double *of = judge->of;
    switch (reading->quantity) {
    case READ_TEMP:
        reading->low = of[JUDGE_FEED_DEGC];
        reading->high = of[JUDGE_TEMP] + of[JUDGE_UNDER_HEAT_K];
        break;
    case READ_OXYGEN:
        made->low.other = full_feed_mg_l(judge);
        reading->low =
            fmax(end_at(work, &made->low, "oxygen-watch"), made->low.other);
        made->high.other = of[JUDGE_FULL];
        reading->high =
            end_at(work, &made->high, "oxygen-over") * made->high.other;
        break;
    case READ_PH:
        reading->low = end_at(work, &made->low, "ph-low");
        reading->high = end_at(work, &made->high, "ph-lockout");
        break;
    case READ_TAN:
        made->high.other = tan_most(judge);
        reading->high =
            fmin(made->high.other, end_at(work, &made->high, "tan-piled"));
        break;
    case READ_NITRITE:
        reading->high = of[JUDGE_NITRITE_CAUTION];
        break;
    case READ_NITRATE:
        reading->low = end_at(work, &made->low, "nitrate-short");
        reading->high = end_at(work, &made->high, "nitrate-gathers");
        break;
    case READ_ALKALINITY:
        reading->low = end_at(work, &made->low, "alkalinity-low");
        break;
    case READ_CHLORIDE:
        reading->high = end_at(work, &made->high, "chloride-salt");
        break;
    case READ_IRON:
        reading->low = end_at(work, &made->low, "iron-short");
        break;
    default:
        break;
    }
}

/* ---- readings ------------------------------------------------------------
 */

/* Whether the reading is young enough to be judged by. */
static bool is_old(const Work *work, const WaterReading *reading)
{
    bool is_fast = reading->quantity <= READ_TAN;
    return reading->age_h >
           limit_of(work, is_fast ? "stale-fast" : "stale-slow");
}

static void set_mark(const Work *work, WaterReading *reading)
{
    reading->mark = isnan(reading->value)            ? WATER_NOT_READ
                    : is_old(work, reading)          ? WATER_OLD
                    : reading->value < reading->low  ? WATER_LOW
                    : reading->value > reading->high ? WATER_HIGH
                                                     : WATER_IN_RANGE;
}

static void add_points(const Work *work, const char *place,
                       WaterReading *reading)
{
    const WaterDayAsk *ask = work->ask;
    const char *key = FARM_WORDS[WORDS_QUANTITIES].words[reading->quantity];
    reading->points = ARENA_ARRAY(work->arena, WaterPoint, ask->fact_count + 1);
    for (int32_t i = 0; i < ask->fact_count; i++) {
        const Told *told = &ask->facts[i];
        if (told->kind == TOLD_READ && strcmp(told->place, place) == 0 &&
            strcmp(told->quantity_key, key) == 0) {
            reading->points[reading->point_count++] = (WaterPoint){
                told->happened_on, (int)told->happened_at, told->value};
        }
    }
}

/* The reading of the very place; a tank has no part in its loop's. */
static void find_reading(const Work *work, const WaterPlace *place,
                         WaterReading *reading)
{
    const double seconds_an_hour = 3600.0;
    int64_t found = INT64_MIN;
    for (int32_t i = 0; i < work->farm->readings_count; i++) {
        const Reading *row = &work->farm->readings[i];
        bool is_there = place->tank >= 0
                            ? row->tank == place->tank
                            : row->tank < 0 && row->loop == place->loop;
        if (is_there && (int)row->quantity == reading->quantity &&
            row->at <= work->ask->at && row->at > found) {
            found = row->at;
            reading->value = row->value;
            reading->read_at = row->at;
            reading->age_h =
                (double)(work->ask->at - row->at) / seconds_an_hour;
        }
    }
}

static void judge_place(const Work *work, WaterPlace *place)
{
    double *told = ARENA_ARRAY(work->arena, double, WATER_QUANTITIES);
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        told[q] = NAN;
    }
    double usual_degc = place->tank >= 0 ? work->ask->tank_degc[place->tank]
                                         : work->ask->loop_degc[place->loop];
    JudgeAsk ask = {.farm = work->farm,
                    .book = work->ask->book,
                    .fish = work->ask->fish,
                    .loop = place->loop,
                    .tank = place->tank,
                    .at = work->ask->at,
                    .told = told,
                    .usual_degc = usual_degc};
    judge_make(&ask, work->arena, &place->judge);
    place->wants_base = judge_wants_base(&place->judge);
}

static WaterPlace place_of(const Work *work, int32_t tank, int32_t loop)
{
    WaterPlace place = {.tank = tank, .loop = loop};
    judge_place(work, &place);
    const char *id =
        tank >= 0 ? work->farm->tanks[tank].id : work->farm->loops[loop].id;
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        WaterReading *reading = &place.readings[q];
        *reading = (WaterReading){.quantity = q,
                                  .value = NAN,
                                  .age_h = NAN,
                                  .foreseen = NAN,
                                  .low = NAN,
                                  .high = NAN};
        find_reading(work, &place, reading);
        if (q == READ_TEMP) {
            reading->foreseen = tank >= 0 ? work->ask->tank_degc[tank]
                                          : work->ask->loop_degc[loop];
        }
        WaterRange made = {0};
        set_range(work, &place.judge, reading, &made);
        set_mark(work, reading);
        add_points(work, id, reading);
        water_working_tell(work->ask, id, &place.judge, reading, &made);
    }
    return place;
}

/* Tanks of a loop by walk, or those outside loops for -1. */
static void add_tanks(const Work *work, int32_t loop, WaterDay *out)
{
    const Farm *farm = work->farm;
    int32_t first = out->count;
    for (int32_t k = 0; k < farm->tanks_count; k++) {
        if (farm->tanks[k].loop != loop) {
            continue;
        }
        int32_t at = out->count++;
        while (at > first && farm->tanks[out->places[at - 1].tank].walk >
                                 farm->tanks[k].walk) {
            out->places[at] = out->places[at - 1];
            at--;
        }
        out->places[at] = place_of(work, k, loop);
    }
}

void water_day_make(const WaterDayAsk *ask, Arena *arena, WaterDay *out)
{
    const Farm *farm = ask->farm;
    Work work = {ask, farm, arena};
    WaterDay day = {.places =
                        ARENA_ARRAY(arena, WaterPlace,
                                    farm->tanks_count + farm->loops_count + 1)};
    for (int32_t l = 0; l < farm->loops_count; l++) {
        day.places[day.count++] = place_of(&work, -1, l);
        add_tanks(&work, l, &day);
    }
    add_tanks(&work, -1, &day);
    *out = day;
}
