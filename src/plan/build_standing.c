/* Columns of what stands already: batches in their beds, and seedlings in
 * trays whose bed and day of setting the farm has settled. */
#include "plan/build_columns.h"

#include <limits.h>

#include "base/date.h"
#include "farm/seedlings.h"
#include "sim/plant_planned.h"

/* A row of the farm's plants as it becomes a column. */
typedef struct Row {
    const Plant *plant;
    Growing growing;
    PlantBatch batch;
    Span span;
    int first_section;
    bool is_coming;   /* seedlings with a bed */
    bool is_left_out; /* seedlings without one, or that bring nothing */
} Row;

/* A batch that stands past its end by the book is still there: it is picked
 * and cleared in the first week. */
static Span clip_standing(const Build *build, const PlantBatch *batch)
{
    Span span;
    bool has_picks = build_span(build, batch, &span);
    if (!has_picks || span.clear < 1) {
        span.clear = 1;
        span.pick_from = 0;
        span.pick_until = 0;
    }
    return span;
}

/* Batches fill the sections of their bed in the order of their rows. */
static int take_sections(const Row *rows, int row)
{
    int first = 0;
    for (int i = 0; i < row; i++) {
        const Plant *other = rows[i].plant;
        if (!rows[i].is_coming && other->bed == rows[row].plant->bed &&
            other->place == PLACE_FLOOR) {
            first += other->sections;
        }
    }
    return first;
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

static Err open_row(Build *build, Row *rows, int at)
{
    Row *row = &rows[at];
    const Plant *plant = &build->farm->plants[at];
    *row = (Row){.plant = plant, .is_coming = seedlings_are(plant)};
    if (plant->bed < 0) {
        row->is_left_out = true; /* for the plan to place */
        return ERR_NONE;
    }
    TRY(build_growing(build, plant->way, build->kind_of_bed[plant->bed], 0.0,
                      &row->growing));
    int weeks = row->is_coming ? plant_pick_weeks(&row->growing.year.rule)
                               : PLANT_PICK_WEEKS;
    plant_year_standing(&row->growing.year, plant->set_on, plant->counted_on,
                        weeks, build->scratch, &row->batch);
    if (plant->place == PLACE_FLOOR && plant->plants > 0 &&
        plant->sections > 0) {
        row->growing.plants = (double)plant->plants / plant->sections;
    }
    row->growing.trays = plant->trays / units_of(plant);
    if (!row->is_coming) {
        row->span = clip_standing(build, &row->batch);
        row->first_section =
            plant->place == PLACE_FLOOR ? take_sections(rows, at) : 0;
    } else if (!span_coming(build, row, &row->span)) {
        row->is_left_out = true;
        tell_left_out(build, row);
    }
    return ERR_NONE;
}

static bool holds(const Row *row, const Row *other, int section)
{
    return !row->is_left_out && row->plant->bed == other->plant->bed &&
           row->plant->place == other->plant->place &&
           (row->plant->place == PLACE_EDGE ||
            (section >= row->first_section &&
             section < row->first_section + row->plant->sections));
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

static void clear_for(Row *other, int set)
{
    int last = set - 2 > 0 ? set - 2 : 0;
    other->span.clear = set;
    if (other->span.pick_until > last) {
        other->span.pick_until = last;
    }
    if (other->span.pick_from > other->span.pick_until) {
        other->span.pick_from = other->span.pick_until;
    }
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
                clear_for(&rows[i], row->span.set);
            }
        }
    }
}

static void add_row(Columns *columns, const Row *row, PlanStanding *standing)
{
    const Plant *plant = row->plant;
    build_column(columns, &row->growing, &row->batch, &row->span,
                 COLUMN_STANDS);
    standing[columns->build->problem->standing_count++] =
        (PlanStanding){.option = columns->count - 1,
                       .bed = plant->bed,
                       .first_section = row->first_section,
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
        TRY(open_row(build, rows, i));
    }
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
