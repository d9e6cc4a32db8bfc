/* Columns of plants: every way, bed kind, week of setting and picking shape. */
#include "plan/build_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "sim/plant_year.h"

enum {
    SHAPES = 3,          /* picking over 1, 2, 3 weeks; or whole, short spans */
    LONG_SPAN_WEEKS = 5, /* a span worth cutting short */
    TALL_AFTER_WEEKS = 3, /* climbers shade from here */
    ROOM_STEP = 1024
};

/* Firm orders count on the mean less 0.84 standard deviations of what all
 * batches of a season share: four years in five bring more. */
static const double COUNTED_SPREADS = 0.84;

/* What a shaded floor keeps of the light under a full sunny edge; judged. */
static const double SHADE_LIGHT_LOST_FRAC = 0.35;

typedef struct Columns {
    Build *build;
    PlanOption *options; /* grows in the arena */
    int count;
    int room;
    const double *zeros; /* week_count of them, shared by all columns */
} Columns;

/* One way in one bed kind and light. */
typedef struct Growing {
    int way;
    int kind;
    const BookWay *book;
    const BookCrop *crop;
    PlantYear year;
    bool is_edge;
    bool wants_sun;
    double plants;  /* a unit */
    double area_m2; /* a unit */
    double place;   /* sections or metres a unit */
} Growing;

static int week_of_day(const Build *build, int32_t day)
{
    return (week_of(day) - build->from) / 7;
}

static PlanOption *add_option(Columns *columns)
{
    if (columns->count == columns->room) {
        int room = columns->room * 2 + ROOM_STEP;
        columns->options = arena_grow(columns->build->arena, columns->options,
                                      (size_t)columns->count, (size_t)room,
                                      sizeof *columns->options);
        columns->room = room;
    }
    return &columns->options[columns->count++];
}

/* Cells and bench of the trays for a unit, before its seedlings are set. */
static double cells_of(const Growing *growing, const PlantBatch *batch,
                       const BookCommon *common)
{
    double comes_up = growing->book->seeds_cell.value > 1.5
                          ? 1.0
                          : fmax(batch->germination_frac, 0.05);
    return growing->plants /
           (comes_up * (1.0 - common->seedling_loss_frac.value));
}

static double seed_cost(const Build *build, const Growing *growing,
                        const PlantBatch *batch)
{
    const Way *way = &build->farm->ways[growing->way];
    double seeds = growing->plants / fmax(batch->germination_frac, 0.05);
    if (way->tray >= 0 && growing->book->seeds_cell.value > 1.5) {
        seeds = cells_of(growing, batch, &build->book->common[0]) *
                growing->book->seeds_cell.value;
    }
    return seeds * (double)build->farm->crops[way->crop].seed_e4 / 10000.0;
}

/* The weeks of a column and where its arrays begin. */
typedef struct Span {
    int sow;
    int set;
    int clear; /* first week in which the place is free again */
    int pick_from;
    int pick_until;
} Span;

static bool span_of(const Build *build, const PlantBatch *batch, Span *out)
{
    double turnaround = build->farm->farm[0].turnaround_days;
    int32_t free_day = batch->clear_day + (int32_t)turnaround;
    Span span = {.sow = week_of_day(build, batch->sow_day),
                 .set = week_of_day(build, batch->set_day),
                 .clear = week_of_day(build, free_day - 1) + 1,
                 .pick_from = INT32_MAX,
                 .pick_until = -1};
    int first = week_of_day(build, batch->first_week);
    for (int i = 0; i < batch->week_count; i++) {
        if (batch->units[i] > 0.0) {
            int week = first + i;
            span.pick_from = week < span.pick_from ? week : span.pick_from;
            span.pick_until = week;
        }
    }
    *out = span;
    return span.pick_until >= 0 && span.clear > span.set;
}

/* Weeks of pruning: from a fortnight after setting until the clearing. */
static double prune_hours(const Growing *growing, const Span *span, int week)
{
    bool is_grown = week >= span->set + 2 && week < span->clear;
    return is_grown ? growing->book->prune_min_plant_week.value *
                          growing->plants / 60.0
                    : 0.0;
}

static double once_hours(const Build *build, const Growing *growing,
                         const PlantBatch *batch, const Span *span, int week)
{
    const BookWay *book = growing->book;
    const Way *way = &build->farm->ways[growing->way];
    double minutes = 0.0;
    if (week == span->sow && way->tray >= 0) {
        double cells = cells_of(growing, batch, &build->book->common[0]);
        minutes += book->sow_min_tray.value * cells /
                   build->farm->trays[way->tray].cells;
    }
    if (week == span->set) {
        minutes += way->tray >= 0 ? book->set_min_plant.value * growing->plants
                                  : book->sow_min_m2.value * growing->area_m2;
    }
    if (week == span->clear - 1) {
        minutes += book->clear_min_m2.value * growing->area_m2;
    }
    return minutes / 60.0;
}

/* Fills the arrays of a column from week first on. */
static void fill_profile(const Columns *columns, const Growing *growing,
                         const PlantBatch *batch, const Span *span,
                         PlanOption *option)
{
    const Build *build = columns->build;
    int weeks = option->weeks;
    double *trays = ARENA_ARRAY(build->arena, double, 5 * weeks);
    double *hours = trays + weeks;
    double *want = hours + weeks;
    double *low = want + weeks;
    double *mean = low + weeks;
    const Way *way = &build->farm->ways[growing->way];
    int batch_first = week_of_day(build, batch->first_week);
    double counted_frac =
        fmax(0.0, 1.0 - COUNTED_SPREADS * batch->season_sd_frac);
    for (int i = 0; i < weeks; i++) {
        int t = option->first_week + i;
        int at = t - batch_first;
        if (at >= 0 && at < batch->week_count && t < span->clear) {
            double units = batch->units[at] * growing->plants;
            mean[i] = t <= span->pick_until ? units : 0.0;
            low[i] = mean[i] * counted_frac;
            want[i] = batch->want_g_m2_d[at] * 7.0 / 1000.0 * growing->area_m2;
        }
        if (way->tray >= 0 && t >= span->sow && t < span->set) {
            const Tray *tray = &build->farm->trays[way->tray];
            trays[i] = cells_of(growing, batch, &build->book->common[0]) /
                       tray->cells * tray->room_frac;
        }
        hours[i] = once_hours(build, growing, batch, span, t) +
                   prune_hours(growing, span, t) +
                   growing->book->pick_min_unit.value / 60.0 * mean[i];
    }
    option->trays = trays;
    option->hours = hours;
    option->want_kg = want;
    option->low = low;
    option->mean = mean;
}

/* A climber on a sunny edge shades its share of its own bed once it is tall. */
static const double *shade_profile(const Columns *columns,
                                   const Growing *growing, const Span *span,
                                   const PlanOption *option)
{
    const Bed *bed =
        &columns->build->farm->beds[columns->build->bed_of_kind[growing->kind]];
    if (!growing->is_edge || bed->edge != EDGE_SUNNY) {
        return columns->zeros;
    }
    double *shade = ARENA_ARRAY(columns->build->arena, double, option->weeks);
    for (int i = 0; i < option->weeks; i++) {
        int t = option->first_week + i;
        if (t >= span->set + TALL_AFTER_WEEKS && t < span->clear) {
            shade[i] = bed->sections * growing->book->shade_cast_frac.value *
                       growing->place / bed->edge_m;
        }
    }
    return shade;
}

static void add_column(Columns *columns, const Growing *growing,
                       const PlantBatch *batch, const Span *span,
                       bool is_standing)
{
    Build *build = columns->build;
    int end = span->clear < build->week_count ? span->clear : build->week_count;
    int first = span->sow < 0 ? 0 : span->sow;
    PlanOption option = {
        .way = growing->way,
        .kind = growing->kind,
        .goods = growing->way,
        .is_edge = growing->is_edge,
        .wants_sun = growing->wants_sun,
        .is_standing = is_standing,
        .sow_week = span->sow,
        .set_week = span->set,
        .clear_week = span->clear,
        .pick_from = span->pick_from < 0 ? 0 : span->pick_from,
        .pick_until = span->pick_until,
        .place = growing->place,
        .plants = growing->plants,
        .first_week = first,
        .weeks = end - first,
        .cost = is_standing ? 0.0 : seed_cost(build, growing, batch),
    };
    fill_profile(columns, growing, batch, span, &option);
    option.shade = shade_profile(columns, growing, span, &option);
    *add_option(columns) = option;
}

/* Ends the picking after weeks of it: the place is free the week after. */
static Span cut_short(const Span *span, int weeks)
{
    Span cut = *span;
    cut.pick_until = span->pick_from + weeks - 1;
    cut.clear =
        cut.pick_until + 2 < span->clear ? cut.pick_until + 2 : span->clear;
    return cut;
}

static bool is_new(const Build *build, const Span *span)
{
    return span->sow >= 0 && span->set < build->horizon &&
           span->pick_from < build->week_count;
}

/* Columns of one day of setting; the text of the refusal where there is none
 * for it. */
static void add_shapes(Columns *columns, const Growing *growing, int32_t day,
                       PlantBatch *out_last)
{
    Build *build = columns->build;
    bool is_flow = growing->book->shape != SHAPE_ONCE;
    for (int shape = 0; shape < (is_flow ? 1 : SHAPES); shape++) {
        PlantBatch batch;
        plant_year_batch(&growing->year, day, shape + 1, build->scratch,
                         &batch);
        *out_last = batch;
        Span span;
        if (batch.is_refused || !span_of(build, &batch, &span) ||
            !is_new(build, &span)) {
            return;
        }
        add_column(columns, growing, &batch, &span, false);
        int weeks = span.pick_until - span.pick_from + 1;
        if (!is_flow || weeks < LONG_SPAN_WEEKS) {
            continue;
        }
        for (int part = 1; part <= 2; part++) {
            Span cut = cut_short(&span, (weeks * part + 1) / 3);
            add_column(columns, growing, &batch, &cut, false);
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
            add_shapes(columns, growing, build_monday(build, t), &last);
            if (last.is_refused) {
                *refusal = last;
            }
        }
    }
    *grows |= columns->count > before;
}

/* What a unit of a way is in a bed kind. */
static void size_unit(const Build *build, const Bed *bed, Growing *growing)
{
    const Way *way = &build->farm->ways[growing->way];
    growing->book = book_way(build->book, way->book);
    growing->crop = book_crop_of(build->book, growing->book);
    growing->is_edge = growing->book->place == WAY_EDGE;
    if (growing->is_edge) {
        growing->place = 1.0 / growing->book->plants_m.value;
        growing->plants = 1.0;
        growing->area_m2 = growing->year.rule.area_m2_plant;
    } else {
        growing->place = 1.0;
        growing->area_m2 = bed->length_m * bed->width_m / bed->sections;
        growing->plants = growing->book->plants_m2.value * growing->area_m2;
    }
}

static Err init_growing(Build *build, int way, int kind, double shaded_frac,
                        Growing *out)
{
    PlantRule rule;
    TRY(plant_rule_of_farm(build->book, build->farm, way, &rule));
    BedYear bed_year;
    build_bed_year(build, kind, shaded_frac, &bed_year);
    *out = (Growing){.way = way, .kind = kind};
    plant_year_init(build->scratch, &rule, &bed_year, &out->year);
    size_unit(build, &build->farm->beds[build->bed_of_kind[kind]], out);
    return ERR_NONE;
}

/* A way in one kind: on its edge; or on its floor in the open and, under a
 * sunny edge, in the shade where the crop bears it. */
static Err add_way_in_kind(Columns *columns, int way, int kind, bool *grows,
                           PlantBatch *refusal)
{
    Build *build = columns->build;
    const Bed *bed = &build->farm->beds[build->bed_of_kind[kind]];
    Growing growing;
    TRY(init_growing(build, way, kind, 0.0, &growing));
    if (growing.is_edge && bed->edge == EDGE_NONE) {
        return ERR_NONE;
    }
    bool is_shaded_kind = bed->edge == EDGE_SUNNY && !growing.is_edge;
    growing.wants_sun = is_shaded_kind;
    add_way(columns, &growing, grows, refusal);
    if (is_shaded_kind &&
        growing.crop->shade_borne_frac.value >= 0.5 * SHADE_LIGHT_LOST_FRAC) {
        TRY(init_growing(build, way, kind, SHADE_LIGHT_LOST_FRAC, &growing));
        add_way(columns, &growing, grows, refusal);
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

/* A batch that stands past its end by the book is still there: it is picked
 * and cleared in the first week. */
static Span clip_standing(const Build *build, const PlantBatch *batch)
{
    Span span;
    bool has_picks = span_of(build, batch, &span);
    if (!has_picks || span.clear < 1) {
        span.clear = 1;
        span.pick_from = 0;
        span.pick_until = 0;
    }
    return span;
}

static int take_sections(const Build *build, int row)
{
    const Plant *plant = &build->farm->plants[row];
    int first = 0;
    for (int i = 0; i < row; i++) {
        const Plant *other = &build->farm->plants[i];
        if (other->bed == plant->bed && other->place == PLACE_FLOOR) {
            first += other->sections;
        }
    }
    return first;
}

static Err add_standing(Columns *columns, PlanStanding *standing)
{
    Build *build = columns->build;
    for (int i = 0; i < build->farm->plants_count; i++) {
        const Plant *plant = &build->farm->plants[i];
        Growing growing;
        TRY(init_growing(build, plant->way, build->kind_of_bed[plant->bed], 0.0,
                         &growing));
        PlantBatch batch;
        plant_year_standing(&growing.year, plant->set_on, plant->counted_on,
                            SHAPES, build->scratch, &batch);
        Span span = clip_standing(build, &batch);
        if (plant->place == PLACE_FLOOR && plant->plants > 0 &&
            plant->sections > 0) {
            growing.plants = (double)plant->plants / plant->sections;
        }
        add_column(columns, &growing, &batch, &span, true);
        standing[i] = (PlanStanding){
            .option = columns->count - 1,
            .bed = plant->bed,
            .first_section =
                plant->place == PLACE_FLOOR ? take_sections(build, i) : 0,
            .units =
                plant->place == PLACE_FLOOR ? plant->sections : plant->plants,
            .id = plant->id};
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
    int standing_count = build->farm->plants_count;
    PlanStanding *standing =
        ARENA_ARRAY(build->arena, PlanStanding, standing_count);
    TRY(add_standing(&columns, standing));
    TRY(add_new(&columns));
    const char **names =
        ARENA_ARRAY(build->arena, const char *, build->farm->ways_count);
    for (int w = 0; w < build->farm->ways_count; w++) {
        names[w] = build->farm->ways[w].id;
    }
    problem->way_count = build->farm->ways_count;
    problem->way_names = names;
    problem->options = columns.options;
    problem->option_count = columns.count;
    problem->standing = standing;
    problem->standing_count = standing_count;
    problem->clean_hours = clean_hours(build);
    return ERR_NONE;
}
