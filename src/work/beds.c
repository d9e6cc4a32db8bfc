/* The walk as a line through its beds. */
#include "work/beds.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "work/beds_working.h"
#include "work/hold.h"

enum { SOON_D = 7 };

const char *bed_stage_word(BedStage stage)
{
    static const char *const WORDS[] = {
#define BED_WORD(stage, word) [stage] = (word),
        BED_STAGES(BED_WORD)
#undef BED_WORD
    };
    return WORDS[stage];
}

typedef struct Work {
    const BedsAsk *ask;
    const Farm *farm;
    Arena *arena;
} Work;

static void add(const Work *work, BedBatches *list, const BedBatch *batch)
{
    BedBatch *items = arena_grow(work->arena, list->items, (size_t)list->count,
                                 (size_t)list->count + 1, sizeof *items);
    items[list->count] = *batch;
    list->items = items;
    list->count++;
}

/* The job of a kind that is still ahead at a bed for a way; NULL. */
static const Job *job_ahead(const Work *work, JobKind kind, int32_t way,
                            const char *bed)
{
    const BedsAsk *ask = work->ask;
    for (int32_t i = 0; ask->week_count > 0 && i < ask->weeks[0].list.count;
         i++) {
        const Job *job = &ask->weeks[0].list.jobs[i];
        bool is_ahead =
            job->kind == kind && job->way == way && job->day >= ask->day;
        for (int32_t p = 0; is_ahead && p < job->place_count; p++) {
            if (strcmp(job->places[p].id, bed) == 0) {
                return job;
            }
        }
    }
    return NULL;
}

/* ---- batches -------------------------------------------------------------
 */

static BedStage stage_of(const BedBatch *batch, int32_t emerge_on, int32_t day)
{
    bool is_in_place = batch->sow_on == batch->set_on;
    if (batch->set_on > day) {
        return !is_in_place && batch->sow_on <= day ? BED_IN_TRAYS : BED_COMING;
    }
    if (batch->clear_on <= day) {
        return BED_GONE;
    }
    if (batch->last_pick_on < day) {
        return BED_OVER;
    }
    if (batch->pick_on <= day) {
        return BED_PICKING;
    }
    if (batch->pick_on - day <= SOON_D) {
        return BED_SOON;
    }
    return is_in_place && emerge_on > day ? BED_SOWN : BED_GROWING;
}

/* The row's own sections; those of a standing batch that no plan names are not
 * told one by one. */
static void put_sections(const Work *work, const PlantStandBatch *from,
                         BedBatch *out)
{
    const Farm *farm = work->farm;
    if (from->is_edge) {
        return;
    }
    if (from->planned >= 0) {
        const PlanPlant *row = &farm->plan_plants[from->planned];
        out->sections = row->sections;
        out->first_section = row->first_section + 1;
    } else if (from->standing >= 0) {
        out->sections = farm->plants[from->standing].sections;
    }
}

static BedBatch batch_of(const Work *work, const PlantStandBatch *from)
{
    int32_t day = work->ask->day;
    BedBatch batch = {.id = from->id,
                      .way = from->way,
                      .is_edge = from->is_edge,
                      .plants = from->plants,
                      .sow_on = from->sow_day,
                      .set_on = from->set_day,
                      .age_d = day - from->set_day,
                      .pick_early = from->early_day,
                      .pick_on = from->pick_day,
                      .pick_late = from->late_day,
                      .last_pick_on = from->last_day,
                      .clear_on = from->clear_day,
                      .age_degc_d = from->age_degc_d,
                      .units = from->units,
                      .trouble = from->trouble};
    put_sections(work, from, &batch);
    beds_working_batch(work->ask, &batch);
    batch.stage = stage_of(&batch, from->emerge_day, day);
    bool is_new = batch.set_on >= week_of(day) && batch.set_on <= day;
    JobKind kind = batch.sow_on == batch.set_on ? JOB_SOW : JOB_SET;
    if (is_new && from->bed >= 0 &&
        job_ahead(work, kind, from->way, work->farm->beds[from->bed].id)) {
        batch.stage = BED_TO_SET;
    }
    return batch;
}

static int by_place(const void *left, const void *right)
{
    const BedBatch *a = left;
    const BedBatch *b = right;
    if (a->is_edge != b->is_edge) {
        return a->is_edge ? 1 : -1;
    }
    if (a->first_section != b->first_section) {
        return a->first_section < b->first_section ? -1 : 1;
    }
    return strcmp(a->id, b->id);
}

static int by_set(const void *left, const void *right)
{
    const BedBatch *a = left;
    const BedBatch *b = right;
    if (a->set_on != b->set_on) {
        return a->set_on < b->set_on ? -1 : 1;
    }
    return by_place(left, right);
}

static int by_clear_late_first(const void *left, const void *right)
{
    const BedBatch *a = left;
    const BedBatch *b = right;
    if (a->clear_on != b->clear_on) {
        return a->clear_on > b->clear_on ? -1 : 1;
    }
    return by_place(left, right);
}

static void sort(BedBatches *list, int (*order)(const void *, const void *))
{
    if (list->count > 1) {
        qsort(list->items, (size_t)list->count, sizeof *list->items, order);
    }
}

/* Batches of the plan that were cleared before the day. */
static void add_past(const Work *work, BedState *state)
{
    const Farm *farm = work->farm;
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        if (row->bed != state->bed || row->clear_on > work->ask->day) {
            continue;
        }
        bool is_edge = row->place == PLACE_EDGE;
        add(work, &state->past,
            &(BedBatch){.id = row->id,
                        .way = row->way,
                        .is_edge = is_edge,
                        .first_section = is_edge ? 0 : row->first_section + 1,
                        .sections = row->sections,
                        .plants = row->plants,
                        .stage = BED_GONE,
                        .sow_on = row->sow_on,
                        .set_on = row->set_on,
                        .age_d = work->ask->day - row->set_on,
                        .pick_early = row->pick_from,
                        .pick_on = row->pick_from,
                        .pick_late = row->pick_from,
                        .last_pick_on = row->pick_until,
                        .clear_on = row->clear_on,
                        .trouble = ""});
    }
    sort(&state->past, by_clear_late_first);
}

static void add_batches(const Work *work, BedState *state)
{
    const PlantStand *plants = work->ask->plants;
    int32_t filled = 0;
    for (int i = 0; i < plants->batch_count; i++) {
        const PlantStandBatch *from = &plants->batches[i];
        if (from->bed != state->bed) {
            continue;
        }
        BedBatch batch = batch_of(work, from);
        if (batch.stage == BED_GONE) {
            continue;
        }
        bool is_next = batch.stage == BED_COMING || batch.stage == BED_IN_TRAYS;
        add(work, is_next ? &state->next : &state->now, &batch);
        filled += is_next || batch.is_edge ? 0 : batch.sections;
    }
    sort(&state->now, by_place);
    sort(&state->next, by_set);
    int32_t free = work->farm->beds[state->bed].sections - filled;
    state->free_sections = free > 0 ? free : 0;
}

/* ---- jobs, cleaning, holds -----------------------------------------------
 */

static const Job *next_job(const Work *work, const char *bed)
{
    const Job *found = NULL;
    for (int w = 0; w < work->ask->week_count; w++) {
        const JobList *list = &work->ask->weeks[w].list;
        for (int32_t i = 0; i < list->count; i++) {
            const Job *job = &list->jobs[i];
            bool is_sooner =
                job->day >= work->ask->day && (!found || job->day < found->day);
            for (int32_t p = 0; is_sooner && p < job->place_count; p++) {
                if (strcmp(job->places[p].id, bed) == 0) {
                    found = job;
                    break;
                }
            }
        }
        if (found) {
            return found;
        }
    }
    return NULL;
}

static int32_t months_later(int32_t day, double months)
{
    const double days_a_month = 365.25 / 12.0;
    return day + (int32_t)lround(months * days_a_month);
}

static void find_cleaning(const Work *work, BedState *state)
{
    const Farm *farm = work->farm;
    int32_t week = week_of(work->ask->day);
    state->cleaned_on = farm->beds[state->bed].cleaned_on;
    for (int32_t i = 0; i < farm->plan_cleans_count; i++) {
        const PlanClean *clean = &farm->plan_cleans[i];
        if (clean->bed != state->bed) {
            continue;
        }
        state->is_cleaning |= week_of(clean->on) == week;
        if (week_of(clean->on) < week && clean->on > state->cleaned_on) {
            state->cleaned_on = clean->on;
        }
    }
    double months = farm->farm->clean_every_months;
    state->clean_due = months > 0.0 && state->cleaned_on != DATE_ALWAYS
                           ? months_later(state->cleaned_on, months)
                           : DATE_NEVER;
}

static void find_told(const Work *work, BedState *state)
{
    const BedsAsk *ask = work->ask;
    const char *id = work->farm->beds[state->bed].id;
    const Told **list = ARENA_ARRAY(work->arena, const Told *, ask->fact_count);
    for (int32_t i = 0; i < ask->fact_count; i++) {
        const Told *told = &ask->facts[i];
        if (strcmp(told->place, id) != 0 || told->happened_on > ask->day) {
            continue;
        }
        list[state->history_count++] = told;
    }
    for (int32_t i = 0; i < state->history_count / 2; i++) {
        const Told *first = list[i];
        list[i] = list[state->history_count - 1 - i];
        list[state->history_count - 1 - i] = first;
    }
    state->history = list;
    Tolds tolds = {.items = work->ask->facts, .count = ask->fact_count};
    Hold hold =
        hold_of_bed(work->farm, state->bed, &tolds, ask->day, work->arena);
    state->hold = hold.why;
    state->hold_until = hold.until;
}

/* ---- the whole -----------------------------------------------------------
 */

static int by_walk(const Farm *farm, int32_t a, int32_t b)
{
    if (farm->beds[a].walk != farm->beds[b].walk) {
        return farm->beds[a].walk < farm->beds[b].walk ? -1 : 1;
    }
    return a < b ? -1 : 1;
}

/* Beds in use, by walk; few enough for the plainest sort. */
static void find_beds(const Work *work, Beds *out)
{
    const Farm *farm = work->farm;
    out->beds = ARENA_ARRAY(work->arena, BedState, farm->beds_count);
    for (int32_t b = 0; b < farm->beds_count; b++) {
        const Bed *bed = &farm->beds[b];
        if (bed->from > work->ask->day || bed->until < work->ask->day) {
            continue;
        }
        int32_t at = out->count++;
        while (at > 0 && by_walk(farm, b, out->beds[at - 1].bed) < 0) {
            out->beds[at] = out->beds[at - 1];
            at--;
        }
        out->beds[at] = (BedState){.bed = b, .hold_until = DATE_NEVER};
    }
    for (int32_t i = 0; i < out->count; i++) {
        out->beds[i].plate = i + 1;
    }
}

/* A batch in trays and the bed it is for, sorted together. */
typedef struct TrayBatch {
    BedBatch batch; /* first: by_set reads it */
    int32_t bed;
} TrayBatch;

static void find_trays(const Work *work, Beds *out)
{
    const PlantStand *plants = work->ask->plants;
    TrayBatch *trays =
        ARENA_ARRAY(work->arena, TrayBatch, plants->batch_count + 1);
    size_t count = 0;
    for (int i = 0; i < plants->batch_count; i++) {
        const PlantStandBatch *from = &plants->batches[i];
        BedBatch batch = batch_of(work, from);
        if (batch.stage == BED_IN_TRAYS) {
            trays[count++] = (TrayBatch){batch, from->bed};
        }
    }
    if (count > 1) {
        qsort(trays, count, sizeof *trays, by_set);
    }
    out->tray_beds = ARENA_ARRAY(work->arena, int32_t, count + 1);
    for (size_t i = 0; i < count; i++) {
        add(work, &out->trays, &trays[i].batch);
        out->tray_beds[i] = trays[i].bed;
    }
}

void beds_make(const BedsAsk *ask, Arena *arena, Beds *out)
{
    Work work = {ask, ask->farm, arena};
    Beds beds = {.day = ask->day};
    find_beds(&work, &beds);
    for (int32_t i = 0; i < beds.count; i++) {
        BedState *state = &beds.beds[i];
        add_batches(&work, state);
        add_past(&work, state);
        find_cleaning(&work, state);
        find_told(&work, state);
        state->job = next_job(&work, ask->farm->beds[state->bed].id);
        beds_working_bed(ask, state);
    }
    find_trays(&work, &beds);
    *out = beds;
}
