/* The farm on a day, from tables, entries and plan. */
#include "journal/state.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"
#include "farm/write.h"
#include "journal/checkpoint.h"
#include "journal/entry.h"
#include "journal/fish_fold.h"
#include "journal/fish_rows.h"
#include "journal/plant_fold.h"
#include "journal/steps.h"

enum { WEEK_D = 7 };

#define BIT(name) (UINT64_C(1) << TOLD_##name)
const uint64_t JOURNAL_STATE_KINDS =
    BIT(SOWN) | BIT(EMERGED) | BIT(SET) | BIT(CLEARED) | BIT(CLEANED) |
    BIT(STOCKED) | BIT(MOVED) | BIT(GRADED) | BIT(SAMPLED) | BIT(DIED) |
    BIT(SOLD) | BIT(PURGED) | BIT(UNDONE) | BIT(COUNTED);

void fold_doubt(StateFold *fold, const Told *told, const char *format, ...)
{
    JournalState *state = fold->state;
    char text[300];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    if (state->doubt_count == fold->doubt_room) {
        int32_t room = 2 * fold->doubt_room + 16;
        state->doubts =
            arena_grow(fold->arena, state->doubts, (size_t)fold->doubt_room,
                       (size_t)room, sizeof *state->doubts);
        fold->doubt_room = room;
    }
    state->doubts[state->doubt_count++] = (JournalDoubt){
        told->number, told->happened_on, arena_copy_text(fold->arena, text)};
}

/* ---- Which entries count --------------------------------------------------
 */

const char *journal_standing_mark(const Farm *farm, Arena *arena)
{
    static const TableId TABLES_STANDING[] = {TABLE_fish, TABLE_plants};
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (size_t t = 0; t < sizeof TABLES_STANDING / sizeof *TABLES_STANDING;
         t++) {
        FarmBytes bytes = farm_write_table(farm, TABLES_STANDING[t], arena);
        for (size_t i = 0; i < bytes.length; i++) {
            hash = (hash ^ (unsigned char)bytes.bytes[i]) *
                   UINT64_C(0x100000001b3);
        }
    }
    return arena_text(arena, "%016" PRIx64, hash);
}

const Told *journal_counted(const Farm *farm, const Tolds *tolds, Arena *arena)
{
    const Told *of_day = NULL;
    const Told *of_tables = NULL;
    const char *mark = NULL;
    for (int32_t i = 0; i < tolds->count; i++) {
        const Told *told = &tolds->items[i];
        if (told->kind != TOLD_COUNTED || told->struck_by > 0 ||
            told->happened_on != farm->farm[0].records_from) {
            continue;
        }
        mark = mark ? mark : journal_standing_mark(farm, arena);
        if (!of_day || told->number > of_day->number) {
            of_day = told;
        }
        if (strcmp(told->text, mark) == 0 &&
            (!of_tables || told->number > of_tables->number)) {
            of_tables = told;
        }
    }
    return of_tables ? of_tables : of_day;
}

/* Entries up to until that come on top of the tables, or of the checkpoint. */
static const bool *which_are_in(const JournalAsk *ask, int32_t until,
                                Arena *arena)
{
    const Farm *farm = ask->opening;
    const Tolds *tolds = ask->tolds;
    bool *is_in = ARENA_ARRAY(arena, bool, tolds->count);
    const Told *counted = journal_counted(farm, tolds, arena);
    int32_t from = farm->farm[0].records_from;
    for (int32_t i = 0; i < tolds->count; i++) {
        const Told *told = &tolds->items[i];
        bool is_new = counted ? told->number > counted->number
                              : told->happened_on >= from;
        is_new = ask->point ? told->happened_on > ask->point->day : is_new;
        is_in[i] = is_new && told->struck_by == 0 &&
                   told->happened_on <= until &&
                   (JOURNAL_STATE_KINDS >> told->kind & 1);
    }
    return is_in;
}

/* ---- All that happened, in order ------------------------------------------
 */

typedef struct Happening {
    int32_t day;
    int32_t rank;  /* within a day: the tables, then entries, then the plan */
    int32_t order; /* within a rank */
    const Told *told;
    const Step *step; /* the one it was taken for, or that is taken as done */
    int32_t plant;    /* row that opens, or -1 */
    int32_t fish;
} Happening;

static int by_day(const void *left, const void *right)
{
    const Happening *a = left;
    const Happening *b = right;
    if (a->day != b->day) {
        return a->day < b->day ? -1 : 1;
    }
    if (a->rank != b->rank) {
        return a->rank < b->rank ? -1 : 1;
    }
    return (a->order > b->order) - (a->order < b->order);
}

typedef struct Story {
    Happening *items;
    int32_t count;
} Story;

static void happen(Story *story, const Happening *happening)
{
    story->items[story->count] = *happening;
    story->items[story->count].order = story->count;
    story->count++;
}

static int32_t first_day(const Farm *farm, const Tolds *tolds, Arena *arena)
{
    /* Entries told after the tables were written from the journal come on top
     * of those, whatever day they are of. */
    return journal_counted(farm, tolds, arena) ? farm->farm[0].records_from
                                               : DATE_ALWAYS;
}

static Story story_of(const JournalAsk *ask, const bool *is_in,
                      const Steps *steps, Arena *arena)
{
    const Farm *farm = ask->opening;
    const Tolds *tolds = ask->tolds;
    int32_t most =
        farm->plants_count + farm->fish_count + tolds->count + steps->count;
    Story story = {ARENA_ARRAY(arena, Happening, most), 0};
    int32_t first = first_day(farm, tolds, arena);
    int32_t after = ask->point ? ask->point->day : DATE_ALWAYS;
    for (int32_t i = 0; i < farm->plants_count; i++) {
        if (farm->plants[i].counted_on <= after) {
            continue;
        }
        happen(&story, &(Happening){.day = farm->plants[i].counted_on,
                                    .plant = i,
                                    .fish = -1});
    }
    for (int32_t i = 0; i < farm->fish_count; i++) {
        if (farm->fish[i].counted_on <= after) {
            continue;
        }
        happen(&story, &(Happening){.day = farm->fish[i].counted_on,
                                    .plant = -1,
                                    .fish = i});
    }
    /* An entry may be several steps: it happens once, for the first. */
    const Step **step_of = ARENA_ARRAY(arena, const Step *, tolds->count);
    for (int32_t i = steps->count - 1; i >= 0; i--) {
        if (steps->items[i].told >= 0) {
            step_of[steps->items[i].told] = &steps->items[i];
        }
    }
    for (int32_t i = 0; i < tolds->count; i++) {
        int32_t day = tolds->items[i].happened_on;
        if (is_in[i]) {
            happen(&story, &(Happening){.day = day > first ? day : first,
                                        .rank = 1,
                                        .told = &tolds->items[i],
                                        .step = step_of[i],
                                        .plant = -1,
                                        .fish = -1});
        }
    }
    for (int32_t i = 0; i < steps->count; i++) {
        if (steps->items[i].is_assumed && !steps->items[i].is_old) {
            happen(&story, &(Happening){.day = steps->items[i].day,
                                        .rank = 2,
                                        .step = &steps->items[i],
                                        .plant = -1,
                                        .fish = -1});
        }
    }
    if (story.count > 1) {
        qsort(story.items, (size_t)story.count, sizeof *story.items, by_day);
    }
    return story;
}

/* ---- Folding --------------------------------------------------------------
 */

static void fold_step(StateFold *fold, const Step *step)
{
    switch (step->kind) {
    case STEP_SOW:
    case STEP_SET:
    case STEP_CLEAR:
        plant_fold_planned(fold, step);
        return;
    case STEP_CLEAN: {
        const PlanClean *row = &fold->opening->plan_cleans[step->row];
        fold->farm->beds[row->bed].cleaned_on = step->day;
        return;
    }
    case STEP_STOCK:
    case STEP_GRADE:
    case STEP_SALE:
        fish_fold_planned(fold, &fold->opening->plan_moves[step->row]);
        return;
    }
}

static void fold_one(StateFold *fold, const Tolds *tolds, const Steps *steps,
                     const Happening *happening)
{
    if (happening->plant >= 0) {
        plant_fold_add(fold, &fold->opening->plants[happening->plant]);
    } else if (happening->fish >= 0) {
        fish_fold_open(fold, &fold->opening->fish[happening->fish]);
    } else if (happening->told) {
        const Step *step = happening->step;
        bool is_move = step && step->kind >= STEP_STOCK;
        plant_fold_told(fold, tolds, happening->told, steps);
        fish_fold_told(fold, happening->told,
                       is_move ? &fold->opening->plan_moves[step->row] : NULL);
    } else if (happening->step) {
        fold_step(fold, happening->step);
    }
}

/* ---- What nothing was told of ---------------------------------------------
 */

static JournalUnsettled unsettled_plants(const Farm *farm, const Step *step,
                                         Arena *arena)
{
    const PlanPlant *row = &farm->plan_plants[step->row];
    bool is_old = step->kind == STEP_CLEAR && row->standing >= 0 &&
                  !seedlings_feed(farm, row);
    JournalUnsettled told = {
        .day = step->day,
        .step = step_word(step->kind),
        .batch = is_old ? farm->plants[row->standing].id : row->id,
        .place = step->kind == STEP_SOW ? "" : farm->beds[row->bed].id,
        .to_place = "",
        .count = row->plants};
    told.text = arena_text(
        arena, "%s: %s %s%s", told.step, farm->ways[row->way].id,
        step->kind == STEP_SOW ? "for " : "in ", farm->beds[row->bed].id);
    return told;
}

static JournalUnsettled unsettled_fish(const Farm *farm, const Step *step,
                                       Arena *arena)
{
    const PlanMove *row = &farm->plan_moves[step->row];
    bool is_stock = step->kind == STEP_STOCK;
    int32_t tank = is_stock ? row->to_tank : row->from_tank;
    JournalUnsettled told = {.day = step->day,
                             .step = step_word(step->kind),
                             .batch = farm->plan_fish[row->fish].batch,
                             .place = tank >= 0 ? farm->tanks[tank].id : "",
                             .to_place = !is_stock && row->to_tank >= 0
                                             ? farm->tanks[row->to_tank].id
                                             : "",
                             .count = row->count};
    told.text = arena_text(arena, "%s: %d fish of %s, %s%s%s", told.step,
                           (int)row->count, told.batch, told.place,
                           *told.to_place ? " to " : "", told.to_place);
    return told;
}

/* All of a way sown in a week is one sowing. */
static bool join_sowing(const JournalUnsettled *told, Arena *arena,
                        JournalState *state)
{
    for (int32_t i = 0; i < state->unsettled_count; i++) {
        JournalUnsettled *before = &state->unsettled[i];
        if (before->day == told->day &&
            strcmp(before->batch, told->batch) == 0) {
            before->count += told->count;
            before->text = arena_text(arena, "sown: %s, for %d plants",
                                      told->batch, (int)before->count);
            return true;
        }
    }
    return false;
}

static int by_planned_day(const void *left, const void *right)
{
    const JournalUnsettled *a = left;
    const JournalUnsettled *b = right;
    if (a->day != b->day) {
        return a->day < b->day ? -1 : 1;
    }
    return strcmp(a->text, b->text);
}

static void list_unsettled(const Farm *farm, const Steps *steps, Arena *arena,
                           JournalState *state)
{
    state->unsettled = ARENA_ARRAY(arena, JournalUnsettled, steps->count);
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        if (!step->is_assumed) {
            continue;
        }
        JournalUnsettled told = {.day = step->day,
                                 .step = step_word(step->kind),
                                 .batch = "",
                                 .place = "",
                                 .to_place = ""};
        if (step->kind == STEP_CLEAN) {
            told.place = farm->beds[farm->plan_cleans[step->row].bed].id;
            told.text = arena_text(arena, "cleaned: %s", told.place);
        } else {
            told = step->kind <= STEP_CLEAR
                       ? unsettled_plants(farm, step, arena)
                       : unsettled_fish(farm, step, arena);
        }
        if (step->kind != STEP_SOW || !join_sowing(&told, arena, state)) {
            state->unsettled[state->unsettled_count++] = told;
        }
    }
    if (state->unsettled_count > 1) {
        qsort(state->unsettled, (size_t)state->unsettled_count,
              sizeof *state->unsettled, by_planned_day);
    }
    state->is_assumed = state->unsettled_count > 0;
}

/* ---- The plan from here on ------------------------------------------------
 */

static void follow_cleans(const Farm *opening, const Steps *steps, int32_t day,
                          Arena *arena, Farm *farm)
{
    PlanClean *rows = ARENA_ARRAY(arena, PlanClean, opening->plan_cleans_count);
    int32_t count = 0;
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        if (step->kind != STEP_CLEAN || step->is_told || step->is_assumed) {
            continue;
        }
        rows[count] = opening->plan_cleans[step->row];
        if (rows[count].on < week_of(day)) {
            rows[count].on = week_of(day); /* undone: due now */
        }
        count++;
    }
    farm->plan_cleans = rows;
    farm->plan_cleans_count = count;
}

/* Moves done are over; those told as undone are due now. */
static void follow_moves(const Farm *opening, const Steps *steps, int32_t day,
                         Arena *arena, JournalState *state)
{
    bool *is_over = ARENA_ARRAY(arena, bool, opening->plan_moves_count);
    PlanMove *rows = arena_grow(
        arena, opening->plan_moves, (size_t)opening->plan_moves_count,
        (size_t)opening->plan_moves_count, sizeof *rows);
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        if (step->kind < STEP_STOCK) {
            continue;
        }
        is_over[step->row] = step->is_told || step->is_assumed;
        bool is_past = step->day < week_of(day);
        if (is_over[step->row] && !is_past) {
            rows[step->row].on = week_of(day) - WEEK_D; /* told early */
        } else if (!is_over[step->row] && is_past) {
            rows[step->row].on = week_of(day);
        }
    }
    state->farm.plan_moves = rows;
    state->is_move_over = is_over;
}

/* Goes on from what stood then. */
static void start_from(StateFold *fold, const JournalPoint *point, Steps *steps)
{
    Farm *farm = fold->farm;
    for (int32_t i = 0; i < point->plants_count; i++) {
        plant_fold_add(fold, &point->plants[i]);
    }
    farm->fish = arena_grow(fold->arena, point->fish, (size_t)point->fish_count,
                            (size_t)point->fish_count + 16, sizeof *farm->fish);
    farm->fish_count = point->fish_count;
    fold->fish_room = point->fish_count + 16;
    for (int32_t i = 0; i < farm->beds_count; i++) {
        farm->beds[i].cleaned_on = point->cleaned_on[i];
    }
    JournalState *state = fold->state;
    state->fish = point->account;
    state->doubts =
        arena_grow(fold->arena, point->doubts, (size_t)point->doubt_count,
                   (size_t)point->doubt_count + 16, sizeof *state->doubts);
    state->doubt_count = point->doubt_count;
    fold->doubt_room = point->doubt_count + 16;
    memcpy(steps->items, point->steps,
           (size_t)steps->count * sizeof *steps->items);
}

static void make_room(StateFold *fold, int32_t tolds, int32_t steps)
{
    Farm *farm = fold->farm;
    const Farm *opening = fold->opening;
    fold->plant_room = opening->plants_count + tolds + steps;
    fold->fish_room = opening->fish_count + 16;
    farm->plants = ARENA_ARRAY(fold->arena, Plant, fold->plant_room);
    farm->plants_count = 0;
    farm->fish = ARENA_ARRAY(fold->arena, Fish, fold->fish_room);
    farm->fish_count = 0;
    farm->beds =
        arena_grow(fold->arena, opening->beds, (size_t)opening->beds_count,
                   (size_t)opening->beds_count, sizeof *farm->beds);
}

/* Folds up to the day. until: entries up to then are known, and may name a
 * step. */
static Err fold_all(const JournalAsk *ask, int32_t until, StateFold *fold,
                    Steps *steps)
{
    Arena *arena = fold->arena;
    *steps = steps_of(ask->opening, arena);
    make_room(fold, ask->tolds->count, steps->count);
    if (ask->point) {
        start_from(fold, ask->point, steps);
    }
    const bool *is_known = which_are_in(ask, until, arena);
    /* At a checkpoint, the end of a Sunday, its week is over. */
    StepDays days = {until > ask->day ? ask->day + 1 : ask->day, ask->day};
    if (!steps_match(ask->opening, ask->tolds, is_known, &days, steps)) {
        return err_make(ERR_CONFLICT, "an entry tells of a time before the "
                                      "checkpoint");
    }
    const bool *is_in = which_are_in(ask, ask->day, arena);
    Story story = story_of(ask, is_in, steps, arena);
    for (int32_t i = 0; i < story.count; i++) {
        fold_one(fold, ask->tolds, steps, &story.items[i]);
    }
    return ERR_NONE;
}

Err journal_state(const JournalAsk *ask, Arena *arena, JournalState *out)
{
    JournalState state = {.farm = *ask->opening, .day = ask->day};
    StateFold fold = {.opening = ask->opening,
                      .farm = &state.farm,
                      .arena = arena,
                      .grow = ask->grow,
                      .state = &state};
    Steps steps;
    TRY(fold_all(ask, ask->day, &fold, &steps));
    fish_fold_close(&fold);
    fish_rows_tell_apart(&state.farm, arena);
    list_unsettled(ask->opening, &steps, arena, &state);
    plant_fold_follow(&fold, &steps);
    follow_cleans(ask->opening, &steps, ask->day, arena, &state.farm);
    follow_moves(ask->opening, &steps, ask->day, arena, &state);
    *out = state;
    return ERR_NONE;
}

Err journal_point(const JournalAsk *asked, Arena *arena, JournalPoint *out)
{
    JournalAsk sunday = *asked;
    sunday.day = week_of(asked->day) - 1;
    const JournalAsk *ask = &sunday;
    JournalState state = {.farm = *ask->opening, .day = ask->day};
    StateFold fold = {.opening = ask->opening,
                      .farm = &state.farm,
                      .arena = arena,
                      .grow = ask->grow,
                      .state = &state};
    Steps steps;
    TRY(fold_all(ask, ask->day + CHECKPOINT_AHEAD_D, &fold, &steps));
    for (int32_t i = 0; i < steps.count; i++) {
        Step *step = &steps.items[i];
        if (step->is_told && step->told_day > ask->day) {
            step->is_told = false; /* known, but not of this day yet */
        }
        if (step->is_undone && step->undone_day > ask->day) {
            step->is_undone = false;
        }
    }
    int32_t *cleaned_on = ARENA_ARRAY(arena, int32_t, state.farm.beds_count);
    for (int32_t i = 0; i < state.farm.beds_count; i++) {
        cleaned_on[i] = state.farm.beds[i].cleaned_on;
    }
    *out = (JournalPoint){.day = ask->day,
                          .plants = state.farm.plants,
                          .plants_count = state.farm.plants_count,
                          .fish = state.farm.fish,
                          .fish_count = state.farm.fish_count,
                          .cleaned_on = cleaned_on,
                          .steps = steps.items,
                          .step_count = steps.count,
                          .doubts = state.doubts,
                          .doubt_count = state.doubt_count,
                          .account = state.fish};
    return ERR_NONE;
}
