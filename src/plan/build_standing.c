/* Columns of what stands already: batches in their beds, and seedlings in
 * trays whose bed and day of setting the farm has settled. */
#include "plan/build_columns.h"

#include <limits.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"
#include "sim/plant_planned.h"

/* A row of the farm's plants as it becomes a column. */
typedef struct Row {
    const Plant *plant;
    const PlanPlant *planned; /* NULL: no plan tells of it */
    Growing growing;
    PlantBatch batch;
    Span span;
    int first_section;
    bool is_coming;   /* seedlings with a bed */
    bool is_left_out; /* seedlings without one, or that bring nothing */
} Row;

/* Ends a batch's time so that its place is free from a week on. */
static void clear_by(Span *span, int week)
{
    int last = week - 2 > 0 ? week - 2 : 0;
    span->clear = week;
    span->pick_until = span->pick_until < last ? span->pick_until : last;
    if (span->pick_from > span->pick_until) {
        span->pick_from = span->pick_until;
    }
}

/* A batch that stands past its end by the book is still there: it is cleared in
 * the first week. */
static Span clip_standing(const Build *build, const PlantBatch *batch)
{
    Span span;
    bool has_picks = build_span(build, batch, &span);
    bool had_picks = span.pick_from < 0;
    if (!has_picks && !had_picks) {
        span.clear = 1;
        span.pick_from = 0;
        span.pick_until = 0;
    }
    span.clear = span.clear < 1 ? 1 : span.clear;
    return span;
}

/* What the accepted plan says of a batch that stands, by its row or by the id
 * that it kept when it was set: where, how it is picked, and when its place is
 * free. NULL: nothing. */
static const PlanPlant *planned_row(const Build *build, int row)
{
    const Farm *farm = build->farm;
    const Plant *plant = &farm->plants[row];
    for (int i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *planned = &farm->plan_plants[i];
        bool is_it = planned->standing == row ||
                     (planned->standing < 0 && planned->set_on < build->from &&
                      strcmp(planned->id, plant->id) == 0);
        if (is_it && planned->bed == plant->bed &&
            planned->place == plant->place) {
            return planned;
        }
    }
    return NULL;
}

/* People work by the accepted plan: what it clears before its own end it still
 * does. */
static void follow_plan(const Build *build, const PlanPlant *planned,
                        Span *span)
{
    int clear = (week_of(planned->clear_on) - build->from) / 7;
    int last = (week_of(planned->pick_until) - build->from) / 7;
    if (clear < 1 || clear >= span->clear) {
        return;
    }
    span->clear = clear;
    span->pick_until = last < span->pick_until ? last : span->pick_until;
    if (span->pick_from > span->pick_until) {
        span->pick_from = span->pick_until;
    }
}

/* A climber on an edge is cleared when its bed's edge may no longer be planted:
 * what the farm says of its edges goes before what the plant could still do. */
static void clip_to_edge(const Build *build, int bed, Span *span)
{
    const uint8_t *has_edge = build->problem->beds[bed].has_edge;
    int first = span->set < 1 ? 1 : span->set;
    for (int t = first; t < span->clear && t < build->week_count; t++) {
        if (!has_edge[t]) {
            clear_by(span, t);
            return;
        }
    }
}

/* Seedlings were sown before the plan begins, whatever the week of its day. */
static bool span_coming(const Build *build, const Row *row, Span *out)
{
    bool has_picks =
        !row->batch.is_refused && build_span(build, &row->batch, out);
    out->sow = out->sow < 0 ? out->sow : -1;
    return has_picks && out->set < build->horizon;
}

static void tell_left_out(Build *build, const Row *row)
{
    PlanIndex *index = build->index;
    const char *why = row->batch.is_refused
                          ? plant_end_text(&row->batch, build->arena)
                          : "they bring nothing within the plan";
    index->unused[index->unused_count++] =
        (PlanUnused){row->plant->id, row->growing.way, row->plant->plants, why};
}

static int units_of(const Plant *plant)
{
    return plant->place == PLACE_FLOOR ? plant->sections : plant->plants;
}

/* Grown as it was counted; picked over the weeks that the plan chose. */
static Err grow_row(Build *build, Row *row)
{
    const Plant *plant = row->plant;
    bool is_shaded = row->planned && row->planned->is_shaded;
    TRY(build_growing(build, plant->way, build->kind_of_bed[plant->bed],
                      is_shaded ? build->book->common->edge_shade_frac.value
                                : 0.0,
                      &row->growing));
    const PlantRule *rule = &row->growing.year.rule;
    int weeks = row->planned
                    ? plant_chosen_weeks(rule, build->farm, row->planned)
                : row->is_coming ? plant_pick_weeks(rule)
                                 : PLANT_PICK_WEEKS;
    plant_year_standing(&row->growing.year, plant->set_on, plant->counted_on,
                        weeks, build->scratch, &row->batch);
    if (plant->place == PLACE_FLOOR && plant->plants > 0 &&
        plant->sections > 0) {
        row->growing.plants = (double)plant->plants / plant->sections;
    }
    row->growing.trays = plant->trays / units_of(plant);
    return ERR_NONE;
}

static Err open_row(Build *build, Row *row, int at)
{
    const Plant *plant = &build->farm->plants[at];
    *row = (Row){.plant = plant,
                 .is_coming = seedlings_are(plant),
                 .first_section = PLAN_NONE};
    if (plant->bed < 0) {
        row->is_left_out = true; /* for the plan to place */
        return ERR_NONE;
    }
    row->planned = row->is_coming ? NULL : planned_row(build, at);
    TRY(grow_row(build, row));
    if (row->is_coming) {
        row->is_left_out = !span_coming(build, row, &row->span);
        if (row->is_left_out) {
            tell_left_out(build, row);
        }
        return ERR_NONE;
    }
    row->span = clip_standing(build, &row->batch);
    if (plant->place == PLACE_EDGE) {
        clip_to_edge(build, plant->bed, &row->span);
    }
    if (row->planned) {
        follow_plan(build, row->planned, &row->span);
    }
    return ERR_NONE;
}

static bool holds(const Row *row, const Row *other, int section)
{
    return !row->is_left_out && row->plant->bed == other->plant->bed &&
           row->plant->place == other->plant->place &&
           (row->plant->place == PLACE_EDGE ||
            (row->first_section >= 0 && section >= row->first_section &&
             section < row->first_section + row->plant->sections));
}

/* Whether sections from first on hold no other batch that stands. */
static bool is_room(const Row *rows, int count, const Row *row, int first)
{
    for (int s = first; s < first + row->plant->sections; s++) {
        for (int i = 0; i < count; i++) {
            if (&rows[i] != row && !rows[i].is_coming &&
                holds(&rows[i], row, s)) {
                return false;
            }
        }
    }
    return true;
}

/* Batches stand where the plan has them; all others fill the sections that are
 * left in the order of their rows. False where that leaves no room for one. */
static bool place_floor(const Build *build, Row *rows, int count, int bed,
                        bool is_by_plan)
{
    int sections = build->farm->beds[bed].sections;
    for (int turn = is_by_plan ? 0 : 1; turn < 2; turn++) {
        for (int i = 0; i < count; i++) {
            Row *row = &rows[i];
            bool is_planned = is_by_plan && row->planned;
            if (row->is_coming || row->plant->bed != bed ||
                row->plant->place != PLACE_FLOOR || is_planned != (turn == 0)) {
                continue;
            }
            int first = is_planned ? row->planned->first_section : 0;
            while (!is_planned && first + row->plant->sections <= sections &&
                   !is_room(rows, count, row, first)) {
                first++;
            }
            if (first + row->plant->sections > sections ||
                !is_room(rows, count, row, first)) {
                return false;
            }
            row->first_section = first;
        }
    }
    return true;
}

static void place_standing(const Build *build, Row *rows, int count)
{
    for (int b = 0; b < build->farm->beds_count; b++) {
        if (place_floor(build, rows, count, b, true)) {
            continue;
        }
        for (int i = 0; i < count; i++) {
            bool is_here = rows[i].plant->bed == b && !rows[i].is_coming;
            rows[i].first_section = is_here ? PLAN_NONE : rows[i].first_section;
        }
        (void)place_floor(build, rows, count, b, false);
    }
}

/* Weeks that seedlings at section would have to take from what stands there, or
 * from other seedlings that go there, which no plan has. */
static int weeks_taken(const Row *rows, int count, const Row *row, int section)
{
    enum { NEVER_WEEKS = 10000 };
    int taken = 0;
    for (int i = 0; i < count; i++) {
        const Row *other = &rows[i];
        bool is_placed = !other->is_coming || other < row;
        if (other != row && is_placed && holds(other, row, section)) {
            int over = other->span.clear - row->span.set;
            taken += other->is_coming ? NEVER_WEEKS : over > 0 ? over : 0;
        }
    }
    return taken;
}

/* Seedlings go on sections of their bed where no others go, and where what
 * stands has most of its time behind it. */
static int choose_sections(const Row *rows, int count, const Row *row,
                           int sections)
{
    int best = 0;
    int least = INT_MAX;
    for (int first = 0; first + row->plant->sections <= sections; first++) {
        int taken = 0;
        for (int s = first; s < first + row->plant->sections; s++) {
            taken += weeks_taken(rows, count, row, s);
        }
        if (taken < least) {
            least = taken;
            best = first;
        }
    }
    return best;
}

static bool is_edge_full(const Build *build, const Row *rows, int count,
                         const Row *row)
{
    double taken_m = row->growing.place * row->plant->plants;
    for (int i = 0; i < count; i++) {
        const Row *other = &rows[i];
        bool is_there = other != row && holds(other, row, 0) &&
                        other->span.set <= row->span.set &&
                        other->span.clear > row->span.set;
        taken_m += is_there ? other->growing.place * other->plant->plants : 0.0;
    }
    return taken_m > build->farm->beds[row->plant->bed].edge_m + 1e-9;
}

/* What stands where seedlings are set is cleared for them, as a whole, after
 * the picks of the weeks before. */
static void make_way(const Build *build, Row *rows, int count, const Row *row)
{
    bool is_floor = row->plant->place == PLACE_FLOOR;
    if (!is_floor && !is_edge_full(build, rows, count, row)) {
        return;
    }
    int sections = is_floor ? row->plant->sections : 1;
    for (int i = 0; i < count; i++) {
        for (int s = 0; s < sections && !rows[i].is_coming; s++) {
            if (rows[i].span.clear > row->span.set &&
                holds(&rows[i], row, row->first_section + s)) {
                clear_by(&rows[i].span, row->span.set);
            }
        }
    }
}

static void add_row(Columns *columns, const Row *row, PlanStanding *standing)
{
    const Plant *plant = row->plant;
    build_column(columns, &row->growing, &row->batch, &row->span,
                 COLUMN_STANDS);
    standing[columns->build->problem->standing_count++] = (PlanStanding){
        .option = columns->count - 1,
        .bed = plant->bed,
        .first_section = row->first_section < 0 ? 0 : row->first_section,
        .units = units_of(plant),
        .id = plant->id};
}

Err build_standing(Columns *columns)
{
    Build *build = columns->build;
    int count = build->farm->plants_count;
    Row *rows = ARENA_ARRAY(build->scratch, Row, count);
    PlanStanding *standing = ARENA_ARRAY(build->arena, PlanStanding, count);
    build->index->unused = ARENA_ARRAY(build->arena, PlanUnused, count);
    for (int i = 0; i < count; i++) {
        TRY(open_row(build, &rows[i], i));
    }
    place_standing(build, rows, count);
    for (int i = 0; i < count; i++) {
        Row *row = &rows[i];
        if (row->is_coming && !row->is_left_out) {
            if (row->plant->place == PLACE_FLOOR) {
                row->first_section = choose_sections(
                    rows, count, row,
                    build->farm->beds[row->plant->bed].sections);
            }
            make_way(build, rows, count, row);
        }
    }
    for (int i = 0; i < count; i++) {
        if (!rows[i].is_left_out) {
            add_row(columns, &rows[i], standing);
        }
    }
    build->problem->standing = standing;
    return ERR_NONE;
}
