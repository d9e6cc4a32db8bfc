/* The farm as it stands on a day. */
#include "desk/farm_today.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "desk/check_farm.h"
#include "desk/clock.h"
#include "desk/fish_grow.h"
#include "desk/moment.h"
#include "farm/cell.h"
#include "farm/write.h"
#include "journal/checkpoint.h"
#include "journal/lanes.h"
#include "journal/trays.h"
#include "store/store.h"

/* Readings told so many days ago are of another water (judged; the judge of
 * readings has its own, shorter, ages). */
enum { READINGS_D = 30, READINGS_MOST = 4000 };

static void tell(FarmToday *today, const char *text)
{
    if (text && today->notice_count < FARM_TODAY_NOTICES_MAX) {
        today->notices[today->notice_count++] = text;
    }
}

int32_t farm_today_day(const Farm *farm, int32_t asked)
{
    if (asked != DATE_ALWAYS || farm->farm_count < 1) {
        return asked;
    }
    int32_t clock = clock_today(farm->farm[0].timezone);
    int32_t first = farm->farm[0].records_from;
    return clock > first ? clock : first;
}

const char *farm_today_mark(const Farm *farm, Arena *arena)
{
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (int t = 0; t < TABLE_COUNT; t++) {
        FarmBytes bytes = farm_write_table(farm, (TableId)t, arena);
        for (size_t i = 0; i < bytes.length; i++) {
            hash = (hash ^ (unsigned char)bytes.bytes[i]) *
                   UINT64_C(0x100000001b3);
        }
    }
    return arena_text(arena, "%016" PRIx64, hash);
}

/* ---- Readings -------------------------------------------------------------
 */

static int32_t quantity_of(const char *key)
{
    const WordList *words = &FARM_WORDS[WORDS_QUANTITIES];
    for (int32_t i = 0; i < words->count; i++) {
        if (strcmp(words->words[i], key) == 0) {
            return i;
        }
    }
    return -1;
}

/* When it was read; where no hour is told, when it was told on that day, else
 * as the day begins: rather too old than too fresh. */
static int64_t instant_of(const Farm *farm, const Told *told)
{
    if (told->happened_at < 0 && told->told_on == told->happened_on &&
        told->told_at >= 0) {
        return told->told_at;
    }
    int minute = told->happened_at >= 0 ? (int)told->happened_at : 0;
    return moment_utc(farm, told->happened_on, minute);
}

static bool is_same(const Reading *a, const Reading *b)
{
    return a->tank == b->tank && a->loop == b->loop &&
           a->quantity == b->quantity;
}

static void put_reading(Farm *farm, const Reading *reading)
{
    for (int32_t i = 0; i < farm->readings_count; i++) {
        if (is_same(&farm->readings[i], reading)) {
            if (reading->at >= farm->readings[i].at) {
                farm->readings[i] = *reading;
            }
            return;
        }
    }
    farm->readings[farm->readings_count++] = *reading;
}

/* What was told, on top of the table: the newest of each place and quantity. */
static Err take_readings(StoreDb *store, int32_t day, Arena *arena, Farm *farm,
                         bool *out_is_any)
{
    StoreFilter filter = store_all();
    filter.from = day - READINGS_D;
    filter.until = day;
    filter.kinds = UINT64_C(1) << TOLD_READ;
    filter.limit = READINGS_MOST;
    filter.without_struck = true;
    Tolds tolds;
    TRY(store_read(store, &filter, arena, &tolds));
    Reading *rows = arena_grow(
        arena, farm->readings, (size_t)farm->readings_count,
        (size_t)farm->readings_count + (size_t)tolds.count, sizeof *rows);
    farm->readings = rows;
    for (int32_t i = tolds.count - 1; i >= 0; i--) {
        const Told *told = &tolds.items[i];
        Reading reading = {.tank = cell_row_of(farm, TABLE_tanks, told->place),
                           .loop = cell_row_of(farm, TABLE_loops, told->place),
                           .at = instant_of(farm, told),
                           .quantity = quantity_of(told->quantity_key),
                           .value = told->value};
        if (reading.quantity >= 0 && (reading.tank >= 0 || reading.loop >= 0)) {
            put_reading(farm, &reading);
            *out_is_any = true;
        }
    }
    return ERR_NONE;
}

/* ---- The state ------------------------------------------------------------
 */

/* Entries so many since the last checkpoint ask for a new one (judged: they
 * fold in a few hundredths of a second). It lies six weeks back, so that what
 * is told a week late leaves it as it is; a first one has another, a quarter of
 * a year before. */
enum { MANY = 1500, POINT_BACK_D = 42, POINT_EARLIER_D = 91 };

/* Entries of the fold after a day; of all, only those since the tables were
 * written from the journal. */
static Err read_tolds(StoreDb *store, const Farm *opening, int32_t after,
                      int32_t until, Arena *arena, Tolds *out)
{
    StoreFilter filter = store_all();
    filter.until = until;
    filter.is_fold_order = true;
    if (after != DATE_ALWAYS) {
        filter.from = after + 1;
    } else {
        Tolds counted;
        filter.kinds = UINT64_C(1) << TOLD_COUNTED;
        TRY(store_read(store, &filter, arena, &counted));
        const Told *last = journal_counted(opening, &counted, arena);
        filter.after = last ? last->number - 1 : 0;
    }
    filter.kinds = JOURNAL_STATE_KINDS;
    return store_read(store, &filter, arena, out);
}

/* A checkpoint that cannot be read is as none. */
static const JournalPoint *read_point(StoreDb *store, const Farm *opening,
                                      const char *mark, int32_t day,
                                      Arena *arena)
{
    StoreCheckpoint kept;
    Err err = store_checkpoint_read(store, day, mark, arena, &kept);
    if (err.kind != ERR_OK || kept.day == DATE_ALWAYS) {
        return NULL;
    }
    JournalPoint *point = ARENA_NEW(arena, JournalPoint);
    err = checkpoint_read(kept.bytes, kept.length, opening, arena, point);
    return err.kind == ERR_OK ? point : NULL;
}

typedef struct Folding {
    const char *dir;
    const char *mark;
    int64_t newest;
    int32_t until; /* what happened later is left out */
    JournalAsk ask;
} Folding;

static Err write_point(const Folding *folding, int32_t day, Arena *arena)
{
    JournalAsk ask = folding->ask;
    ask.day = day;
    bool is_there = ask.point && ask.point->day >= day;
    if (is_there || day < ask.opening->farm[0].records_from) {
        return ERR_NONE;
    }
    JournalPoint point;
    TRY(journal_point(&ask, arena, &point));
    StoreCheckpoint kept = {.day = point.day + CHECKPOINT_AHEAD_D,
                            .number = folding->newest};
    kept.bytes =
        checkpoint_write(&point, ask.opening->beds_count, arena, &kept.length);
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(folding->dir, STORE_WRITE, &store));
    return store_checkpoint_write(&store, folding->mark, &kept);
}

static Err write_points(const Folding *folding, Arena *arena)
{
    int32_t day = folding->ask.day - POINT_BACK_D;
    if (!folding->ask.point) {
        TRY(write_point(folding, day - POINT_EARLIER_D, arena));
    }
    return write_point(folding, day, arena);
}

/* Checkpoints only save time: where one cannot be kept nothing is lost. */
static void keep_points(const Folding *folding, Arena *arena)
{
    if (folding->ask.tolds->count < MANY) {
        return;
    }
    Err err = write_points(folding, arena);
    if (err.kind != ERR_OK) {
        return; /* kept another time */
    }
}

static const char *tell_unsettled(const JournalState *state, const char *dir,
                                  Arena *arena)
{
    int32_t count = state->unsettled_count;
    return count > 0
               ? arena_text(
                     arena,
                     say_n(arena, count,
                           "%d planned step of earlier weeks was not told of: "
                           "taken as done (leat journal %s --settle).",
                           "%d planned steps of earlier weeks were not told "
                           "of: taken as done (leat journal %s --settle)."),
                     (int)count, dir)
               : NULL;
}

static const char *tell_doubts(const JournalState *state, const char *dir,
                               Arena *arena)
{
    int32_t count = state->doubt_count;
    return count > 0 ? arena_text(arena,
                                  say_n(arena, count,
                                        "%d entry of the journal is in doubt "
                                        "(leat journal %s --settle).",
                                        "%d entries of the journal are in "
                                        "doubt (leat journal %s "
                                        "--settle)."),
                                  (int)count, dir)
                     : NULL;
}

/* The tables as the journal leaves them describe this day. */
static void counted_now(int32_t day, Arena *arena, Farm *farm)
{
    FarmSite *site = ARENA_NEW(arena, FarmSite);
    *site = farm->farm[0];
    if (day > site->records_from) {
        site->records_from = day;
    }
    farm->farm = site;
}

/* The state, from a checkpoint where one serves. */
static Err find_state(StoreDb *store, Folding *folding, Arena *arena,
                      JournalState *out)
{
    int32_t until = folding->until;
    JournalAsk *ask = &folding->ask;
    Tolds *tolds = ARENA_NEW(arena, Tolds);
    ask->tolds = tolds;
    ask->point =
        read_point(store, ask->opening, folding->mark, ask->day, arena);
    if (ask->point) {
        TRY(read_tolds(store, ask->opening, ask->point->day, until, arena,
                       tolds));
        Err err = journal_state(ask, arena, out);
        if (err.kind != ERR_CONFLICT) {
            return err;
        }
        ask->point = NULL;
    }
    TRY(read_tolds(store, ask->opening, DATE_ALWAYS, until, arena, tolds));
    return journal_state(ask, arena, out);
}

static void take_state(const JournalState *state, const FishGrow *grow,
                       Arena *arena, FarmToday *today)
{
    JournalState followed = *state;
    lanes_follow(today->opening, arena, &followed);
    trays_follow(today->opening, arena, &followed.farm);
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = followed.farm;
    counted_now(today->day, arena, farm);
    fish_grow_old(grow, today->day, arena, farm);
    today->farm = farm;
    today->state = state;
    today->has_journal = true;
}

static Err fold(StoreDb *store, const char *dir, int32_t until, Arena *arena,
                FarmToday *today)
{
    JournalState *state = ARENA_NEW(arena, JournalState);
    Folding folding = {.dir = dir,
                       .mark = farm_today_mark(today->opening, arena),
                       .newest = today->newest,
                       .until = until,
                       .ask = {.opening = today->opening,
                               .day = today->day,
                               .grow = fish_grow_of(today->opening, arena)}};
    TRY(find_state(store, &folding, arena, state));
    if (!folding.ask.point && folding.ask.tolds->count == 0) {
        return ERR_NONE; /* nothing that changes what stands */
    }
    keep_points(&folding, arena);
    counted_now(today->day, arena, &state->farm);
    take_state(state, &folding.ask.grow, arena, today);
    tell(today, tell_unsettled(state, dir, arena));
    tell(today, tell_doubts(state, dir, arena));
    return ERR_NONE;
}

/* How sound the tables are, and up to which moment of the day what was told
 * counts. */
typedef struct How {
    bool is_sound;
    bool is_morning; /* what was told for the day itself is left out */
} How;

static Err read_store(const char *dir, How how, Arena *arena, FarmToday *today)
{
    int32_t until = how.is_morning ? today->day - 1 : today->day;
    CLEANUP(store_close) StoreDb store = {0};
    TRY(store_open(dir, STORE_READ, &store));
    int64_t count = 0;
    TRY(store_newest(&store, &today->newest, &count));
    if (how.is_sound) {
        TRY(fold(&store, dir, until, arena, today));
    }
    Farm *farm = ARENA_NEW(arena, Farm);
    *farm = *today->farm;
    bool is_any = false;
    TRY(take_readings(&store, until, arena, farm, &is_any));
    if (is_any) {
        today->farm = farm;
    }
    return ERR_NONE;
}

static Err make(const char *dir, const Farm *opening, How how, int32_t day,
                Arena *arena, FarmToday *out)
{
    FarmToday today = {.farm = opening, .opening = opening};
    today.day = farm_today_day(opening, day);
    if (store_is_there(dir) && opening->farm_count > 0) {
        TRY(read_store(dir, how, arena, &today));
    }
    *out = today;
    return ERR_NONE;
}

Err farm_today_of(const char *dir, const Farm *opening, int32_t day,
                  Arena *arena, FarmToday *out)
{
    return make(dir, opening, (How){0}, day, arena, out);
}

Err farm_today_sound(const char *dir, const Farm *opening, int32_t day,
                     Arena *arena, FarmToday *out)
{
    return make(dir, opening, (How){.is_sound = true}, day, arena, out);
}

Err farm_today_read(const char *dir, int32_t day, Arena *arena, FarmToday *out)
{
    const Farm *opening = NULL;
    TRY(check_farm_load(dir, arena, &opening));
    return make(dir, opening, (How){.is_sound = true}, day, arena, out);
}

Err farm_today_morning(const char *dir, int32_t day, Arena *arena,
                       FarmToday *out)
{
    const Farm *opening = NULL;
    TRY(check_farm_load(dir, arena, &opening));
    return make(dir, opening, (How){.is_sound = true, .is_morning = true}, day,
                arena, out);
}
