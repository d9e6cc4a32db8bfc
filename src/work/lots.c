/* Lots: what was picked, where it went and what is left. */
#include "work/lots.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/cell.h"
#include "farm/ids.h"
#include "farm/keeping.h"
#include "journal/entry.h"
#include "work/hold.h"

#define IS(kind) (UINT64_C(1) << TOLD_##kind)
const uint64_t LOTS_KINDS = IS(PICKED) | IS(DELIVERED) | IS(SOWN) |
                            IS(RECEIVED) | IS(SPRAYED) | IS(SEEN) | IS(CHECKED);
#undef IS

/* Less than that is nothing: parts of a mix are not counted to the gram. */
static const double LEAST_UNITS = 1e-6;

/* Somebody's part of a lot, before they are put in order. */
typedef struct Given {
    int32_t lot;
    int32_t turn;
    LotTo to;
} Given;

typedef struct Work {
    const LotsAsk *ask;
    const Farm *farm;
    Arena *arena;
    Lot *lots;
    int32_t count;
    IdIndex ids;
    int32_t *open; /* by way: lots before it have nothing left that keeps */
    Given *given;
    int32_t given_count;
    int32_t given_room;
    LotLack *lacks;
    int32_t lack_count;
    int32_t lack_room;
} Work;

static const char *const NO_TEXT = "";

/* ---- What was picked -----------------------------------------------------
 */

/* The way of a batch that stands or is planned; -1: the farm knows none. */
static int32_t way_of_batch(const Farm *farm, const char *batch)
{
    int32_t row = cell_row_of(farm, TABLE_plants, batch);
    if (row >= 0) {
        return farm->plants[row].way;
    }
    row = cell_row_of(farm, TABLE_plan_plants, batch);
    return row >= 0 ? farm->plan_plants[row].way : -1;
}

/* A quantity in units that weigh so much each; NAN where only its number is
 * known and the unit is another. */
static double units_of(const Told *told, double unit_g)
{
    if (!isnan(told->quantity)) {
        double g = strcmp(told->unit, "kg") == 0  ? 1000.0
                   : strcmp(told->unit, "g") == 0 ? 1.0
                                                  : unit_g;
        return told->quantity * g / unit_g;
    }
    return told->count >= 0 ? (double)told->count : told->grams / unit_g;
}

static const char *id_of(const Work *work, const Told *told, int32_t way)
{
    char day[DATE_TEXT_SIZE];
    date_format(told->happened_on, day);
    return *told->lot
               ? told->lot
               : arena_text(work->arena, "%s.%s%s%s", work->farm->ways[way].id,
                            told->place, *told->place ? "." : "", day);
}

static void add_pick(Work *work, const Told *told)
{
    int32_t way = cell_row_of(work->farm, TABLE_ways, told->way);
    way = way >= 0 ? way : way_of_batch(work->farm, told->batch);
    if (way < 0) {
        return; /* a doubt of the journal's own */
    }
    const Way *row = &work->farm->ways[way];
    double units = units_of(told, row->unit_g);
    const char *id = id_of(work, told, way);
    int32_t at = id_index_put(&work->ids, work->count, id);
    if (at < 0) {
        at = work->count++;
        work->lots[at] =
            (Lot){.id = id,
                  .way = way,
                  .place = told->place,
                  .batch = told->batch,
                  .who = told->who,
                  .picked_on = told->happened_on,
                  .keeps_until = told->happened_on +
                                 (int32_t)keeping_days(work->ask->book, row),
                  .sown_on = DATE_NEVER,
                  .seed_lot = NO_TEXT,
                  .seed_from = NO_TEXT};
    }
    work->lots[at].picked += isnan(units) ? 0.0 : units;
    work->lots[at].left = work->lots[at].picked;
}

/* ---- Where it went -------------------------------------------------------
 */

static void give(Work *work, int32_t lot, const Told *told, double units,
                 bool is_assumed)
{
    if (work->given_count == work->given_room) {
        int32_t room = 2 * work->given_room + 64;
        work->given =
            arena_grow(work->arena, work->given, (size_t)work->given_count,
                       (size_t)room, sizeof *work->given);
        work->given_room = room;
    }
    work->lots[lot].left -= units;
    work->given[work->given_count] =
        (Given){lot, work->given_count,
                (LotTo){told->buyer, told->product, told->happened_on, units,
                        is_assumed}};
    work->given_count++;
}

static void lack(Work *work, int32_t way, const Told *told, double units)
{
    if (work->lack_count == work->lack_room) {
        int32_t room = 2 * work->lack_room + 16;
        work->lacks =
            arena_grow(work->arena, work->lacks, (size_t)work->lack_count,
                       (size_t)room, sizeof *work->lacks);
        work->lack_room = room;
    }
    work->lacks[work->lack_count++] =
        (LotLack){way, told->buyer, told->happened_on, units};
}

static double take_from(Work *work, int32_t lot, const Told *told,
                        double wanted, bool is_assumed)
{
    double units = fmin(wanted, work->lots[lot].left);
    if (units <= LEAST_UNITS) {
        return 0.0;
    }
    give(work, lot, told, units, is_assumed);
    return units;
}

/* Out of the oldest that keep on the day. Deliveries come by day, so a lot that
 * is past keeping or empty stays so. */
static double take_oldest(Work *work, int32_t way, const Told *told,
                          double wanted)
{
    int32_t *open = &work->open[way];
    double taken = 0.0;
    for (int32_t i = *open; i < work->count && wanted - taken > LEAST_UNITS;
         i++) {
        const Lot *lot = &work->lots[i];
        if (lot->picked_on > told->happened_on) {
            break;
        }
        bool is_ours = lot->way == way &&
                       lot->keeps_until >= told->happened_on &&
                       lot->left > LEAST_UNITS;
        if (is_ours) {
            taken += take_from(work, i, told, wanted - taken, true);
        } else if (i == *open) {
            *open = i + 1;
        }
    }
    return taken;
}

/* Units of a product: of its own unit, or of what they weigh. */
static double product_units(const Work *work, const Told *told, int32_t product)
{
    const Farm *farm = work->farm;
    double unit_g = 0.0;
    for (int32_t i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        if (part->product == product && part->way >= 0) {
            unit_g += part->units * farm->ways[part->way].unit_g;
        }
    }
    bool is_weighed = strcmp(farm->products[product].unit, "kg") == 0;
    unit_g = is_weighed ? 1000.0 : unit_g;
    return unit_g > 0.0 ? units_of(told, unit_g) : NAN;
}

static void add_delivery(Work *work, const Told *told)
{
    const Farm *farm = work->farm;
    int32_t product = cell_row_of(farm, TABLE_products, told->product);
    double units = product >= 0 ? product_units(work, told, product) : NAN;
    int32_t named = *told->lot ? id_index_find(&work->ids, told->lot) : -1;
    if (isnan(units)) {
        return;
    }
    for (int32_t i = 0; i < farm->parts_count; i++) {
        const Part *part = &farm->parts[i];
        if (part->product != product || part->way < 0) {
            continue;
        }
        double wanted = units * part->units;
        double taken = named >= 0 && work->lots[named].way == part->way
                           ? take_from(work, named, told, wanted, false)
                           : take_oldest(work, part->way, told, wanted);
        if (wanted - taken > LEAST_UNITS) {
            lack(work, part->way, told, wanted - taken);
        }
    }
}

/* ---- The whole -----------------------------------------------------------
 */

static int by_lot(const void *left, const void *right)
{
    const Given *a = left;
    const Given *b = right;
    return a->lot != b->lot ? (a->lot > b->lot) - (a->lot < b->lot)
                            : (a->turn > b->turn) - (a->turn < b->turn);
}

static void finish(Work *work)
{
    if (work->given_count > 1) {
        qsort(work->given, (size_t)work->given_count, sizeof *work->given,
              by_lot);
    }
    LotTo *all = ARENA_ARRAY(work->arena, LotTo, work->given_count);
    for (int32_t i = 0; i < work->given_count; i++) {
        Lot *lot = &work->lots[work->given[i].lot];
        all[i] = work->given[i].to;
        lot->to = lot->to ? lot->to : &all[i];
        lot->to_count++;
    }
    for (int32_t i = 0; i < work->count; i++) {
        Lot *lot = &work->lots[i];
        lot->left = lot->left > LEAST_UNITS ? lot->left : 0.0;
        lot->is_past = lot->left > 0.0 && lot->keeps_until < work->ask->day;
    }
}

void lots_make(const LotsAsk *ask, Arena *arena, Lots *out)
{
    const Tolds *facts = ask->facts;
    int32_t picks = 0;
    for (int32_t i = 0; i < facts->count; i++) {
        picks += facts->items[i].kind == TOLD_PICKED;
    }
    Work work = {.ask = ask,
                 .farm = ask->farm,
                 .arena = arena,
                 .lots = ARENA_ARRAY(arena, Lot, picks),
                 .open = ARENA_ARRAY(arena, int32_t, ask->farm->ways_count)};
    id_index_init(&work.ids, arena, picks);
    for (int32_t i = 0; i < facts->count; i++) {
        if (facts->items[i].kind == TOLD_PICKED) {
            add_pick(&work, &facts->items[i]);
        }
    }
    for (int32_t i = 0; i < facts->count; i++) {
        if (facts->items[i].kind == TOLD_DELIVERED) {
            add_delivery(&work, &facts->items[i]);
        }
    }
    finish(&work);
    *out = (Lots){work.lots, work.count, work.lacks, work.lack_count};
}

double lots_left(const Lots *lots, int32_t way, bool is_past)
{
    double units = 0.0;
    for (int32_t i = 0; i < lots->count; i++) {
        const Lot *lot = &lots->lots[i];
        units += lot->way == way && lot->is_past == is_past ? lot->left : 0.0;
    }
    return units;
}

/* ---- One step back ------------------------------------------------------- */

/* The sowing's name of the batch, as jobs and entries have it. */
static const char *sowing_of(const Farm *farm, const char *batch, Arena *arena)
{
    int32_t row = cell_row_of(farm, TABLE_plan_plants, batch);
    return row >= 0 ? entries_sowing(farm, &farm->plan_plants[row], arena)
                    : batch;
}

static bool is_sowing_of(const Told *told, const Lot *lot, const char *sowing)
{
    return told->kind == TOLD_SOWN && *told->batch &&
           told->happened_on <= lot->picked_on &&
           (strcmp(told->batch, sowing) == 0 ||
            strcmp(told->batch, lot->batch) == 0);
}

void lots_trace(const LotsAsk *ask, Arena *arena, Lot *lot)
{
    const Tolds *facts = ask->facts;
    const char *sowing =
        *lot->batch ? sowing_of(ask->farm, lot->batch, arena) : NO_TEXT;
    for (int32_t i = 0; *sowing && i < facts->count; i++) {
        if (is_sowing_of(&facts->items[i], lot, sowing)) {
            lot->sown_on = facts->items[i].happened_on;
            lot->seed_lot = facts->items[i].lot;
        }
    }
    for (int32_t i = 0; *lot->seed_lot && i < facts->count; i++) {
        const Told *told = &facts->items[i];
        if (told->kind == TOLD_RECEIVED &&
            strcmp(told->lot, lot->seed_lot) == 0) {
            lot->seed_from = told->supplier;
        }
    }
    int32_t bed = cell_row_of(ask->farm, TABLE_beds, lot->place);
    if (bed >= 0) {
        Hold hold = hold_of_bed(ask->farm, bed, facts, lot->picked_on, arena);
        lot->hold = hold.why ? hold_text(&hold, arena) : NULL;
    }
}
