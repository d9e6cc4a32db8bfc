/* Columns of plants: every way, bed kind, week of setting and picking shape. */
#include "plan/build_columns.h"

enum { LONG_SPAN_WEEKS = 5 /* a span worth cutting short */ };

/* Ends the picking after weeks of it: the place is free the week after. */
static Span cut_short(const Span *span, int weeks)
{
    Span cut = *span;
    cut.pick_until = span->pick_from + weeks - 1;
    cut.clear =
        cut.pick_until + 2 < span->clear ? cut.pick_until + 2 : span->clear;
    return cut;
}

/* Whether something of it falls within the plan. */
static bool is_within(const Build *build, const Span *span)
{
    return span->set >= 0 && span->set < build->horizon &&
           span->pick_from < build->week_count;
}

/* The span of one picking shape; false where it is refused or comes too late.
 * Seedlings were sown before the plan. */
static bool grow_shape(const Build *build, const Growing *growing,
                       const Setting *setting, PlantBatch *batch, Span *out)
{
    if (setting->trays_of > 0) {
        plant_year_standing(&growing->year, setting->day, setting->counted_on,
                            setting->pick_weeks, build->scratch, batch);
    } else {
        plant_year_batch(&growing->year, setting->day, setting->pick_weeks,
                         build->scratch, batch);
    }
    if (batch->is_refused || !build_span(build, batch, out)) {
        return false;
    }
    if (setting->trays_of > 0) {
        out->sow = -1;
    }
    return is_within(build, out) && (setting->trays_of > 0 || out->sow >= 0);
}

static void add_column(Columns *columns, const Growing *growing,
                       const PlantBatch *batch, const Span *span, int trays_of)
{
    build_column(columns, growing, batch, span,
                 trays_of > 0 ? COLUMN_SEEDLINGS : COLUMN_SOWN);
    columns->options[columns->count - 1].trays_of = trays_of;
}

void build_setting(Columns *columns, const Growing *growing, Setting setting,
                   PlantBatch *out_last)
{
    Build *build = columns->build;
    bool is_flow = growing->book->shape != SHAPE_ONCE;
    int last_pick = PLAN_NONE;
    for (int shape = 1; shape <= (is_flow ? 1 : BUILD_SHAPES); shape++) {
        PlantBatch batch;
        Span span;
        setting.pick_weeks = shape;
        bool is_grown = grow_shape(build, growing, &setting, &batch, &span);
        *out_last = batch;
        /* A crop that does not stand so long is picked no longer. */
        if (!is_grown || span.pick_until == last_pick) {
            return;
        }
        last_pick = span.pick_until;
        add_column(columns, growing, &batch, &span, setting.trays_of);
        int weeks = span.pick_until - span.pick_from + 1;
        if (!is_flow || weeks < LONG_SPAN_WEEKS) {
            continue;
        }
        for (int part = 1; part <= 2; part++) {
            Span cut = cut_short(&span, (weeks * part + 1) / 3);
            add_column(columns, growing, &batch, &cut, setting.trays_of);
        }
    }
}

static void add_way(Columns *columns, const Growing *growing, bool *grows,
                    PlantBatch *refusal)
{
    Build *build = columns->build;
    const Way *way = &build->farm->ways[growing->way];
    int before = columns->count;
    for (int t = 0; t < build->horizon; t++) {
        int month = build_month(build, t);
        if (way->set_months >> (month - 1) & 1u) {
            PlantBatch last = {0};
            build_setting(columns, growing,
                          (Setting){.day = build_monday(build, t)}, &last);
            if (last.is_refused) {
                *refusal = last;
            }
        }
    }
    *grows |= columns->count > before;
}

/* A way in one kind: on its edge; or on its floor in the open and, under a
 * sunny edge, in the shade where the crop bears it. */
static Err add_way_in_kind(Columns *columns, int way, int kind, bool *grows,
                           PlantBatch *refusal)
{
    Build *build = columns->build;
    const Bed *bed = &build->farm->beds[build->bed_of_kind[kind]];
    Growing growing;
    TRY(build_growing(build, way, kind, 0.0, &growing));
    if (growing.is_edge && bed->edge == EDGE_NONE) {
        return ERR_NONE;
    }
    bool is_shaded_kind = bed->edge == EDGE_SUNNY && !growing.is_edge;
    double lost_frac = build->book->common->edge_shade_frac.value;
    growing.wants_sun = is_shaded_kind;
    add_way(columns, &growing, grows, refusal);
    build_from_trays(columns, &growing);
    if (is_shaded_kind &&
        growing.crop->shade_borne_frac.value >= 0.5 * lost_frac) {
        TRY(build_growing(build, way, kind, lost_frac, &growing));
        add_way(columns, &growing, grows, refusal);
        build_from_trays(columns, &growing);
    }
    return ERR_NONE;
}

static Err add_new(Columns *columns)
{
    Build *build = columns->build;
    const char **refused =
        ARENA_ARRAY(build->arena, const char *, build->farm->ways_count);
    build->index->refused = refused;
    for (int w = 0; w < build->farm->ways_count; w++) {
        bool grows = false;
        PlantBatch refusal = {0};
        for (int c = 0; c < build->problem->kind_count; c++) {
            TRY(add_way_in_kind(columns, w, c, &grows, &refusal));
        }
        if (!grows) {
            refused[w] = refusal.is_refused
                             ? plant_end_text(&refusal, build->arena)
                             : "no bed of this farm takes it";
        }
    }
    return ERR_NONE;
}

static const double *clean_hours(const Build *build)
{
    const BookTask *task = book_task(build->book, "deep-clean");
    double minutes = task ? task->minutes.value : 0.0;
    double *hours =
        ARENA_ARRAY(build->arena, double, build->problem->kind_count);
    for (int c = 0; c < build->problem->kind_count; c++) {
        hours[c] = minutes / 60.0;
    }
    return hours;
}

Err build_plants(Build *build)
{
    Columns columns = {.build = build, .zeros = build_weeks(build)};
    Problem *problem = build->problem;
    TRY(build_standing(&columns));
    build_seedlings(build);
    TRY(add_new(&columns));
    build_tell_unused(&columns);
    const char **names =
        ARENA_ARRAY(build->arena, const char *, build->farm->ways_count);
    for (int w = 0; w < build->farm->ways_count; w++) {
        names[w] = build->farm->ways[w].id;
    }
    problem->way_count = build->farm->ways_count;
    problem->way_names = names;
    problem->options = columns.options;
    problem->option_count = columns.count;
    problem->clean_hours = clean_hours(build);
    return ERR_NONE;
}
