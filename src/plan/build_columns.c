/* Columns of plants: what a unit of a batch takes and gives by week. */
#include "plan/build_columns.h"

#include <math.h>

#include "base/date.h"
#include "plan/build.h"

enum {
    TALL_AFTER_WEEKS = 3, /* climbers shade from here */
    ROOM_STEP = 1024
};

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

bool build_span(const Build *build, const PlantBatch *batch, Span *out)
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

/* Weeks of pruning: from a fortnight after setting until the clearing; climbers
 * are strung the week before. */
static double prune_hours(const Growing *growing, const Span *span, int week)
{
    int first = span->set + (growing->is_edge ? 1 : 2);
    bool is_grown = week >= first && week < span->clear;
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
    if (way->tray >= 0) {
        double trays = cells_of(growing, batch, &build->book->common[0]) /
                       build->farm->trays[way->tray].cells;
        const BookTask *count = book_task(build->book, "count");
        bool is_counted = count && span->sow >= 0 &&
                          week == week_of_day(build, batch->emerge_day);
        minutes += week == span->sow ? book->sow_min_tray.value * trays : 0.0;
        minutes += is_counted ? count->minutes.value * trays : 0.0;
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
    double counted_frac = plant_counted_frac(&growing->year.rule);
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
            double sown =
                cells_of(growing, batch, &build->book->common[0]) / tray->cells;
            trays[i] = (growing->trays > 0.0 ? growing->trays : sown) *
                       tray->room_frac;
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

/* Not before the plan, but where the picking is over by then. */
static int first_pick(const Span *span)
{
    int last = span->pick_until < 0 ? span->pick_until : 0;
    return span->pick_from < last ? last : span->pick_from;
}

void build_column(Columns *columns, const Growing *growing,
                  const PlantBatch *batch, const Span *span,
                  ColumnOrigin origin)
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
        .is_standing = origin == COLUMN_STANDS,
        .sow_week = span->sow,
        .set_week = span->set,
        .clear_week = span->clear,
        .pick_from = first_pick(span),
        .pick_until = span->pick_until,
        .place = growing->place,
        .plants = growing->plants,
        .first_week = first,
        .weeks = end - first,
        .cost = origin == COLUMN_SOWN ? seed_cost(build, growing, batch) : 0.0,
    };
    fill_profile(columns, growing, batch, span, &option);
    option.shade = shade_profile(columns, growing, span, &option);
    *add_option(columns) = option;
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

Err build_growing(Build *build, int way, int kind, double shaded_frac,
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
