/* Bed kinds and beds of the planning problem. */
#include "plan/build_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "sim/bed_kinds.h"

static bool stands_for_years(const Build *build, int bed)
{
    const Farm *farm = build->farm;
    for (int i = 0; i < farm->plants_count; i++) {
        const Plant *plant = &farm->plants[i];
        const BookWay *way = book_way(build->book, farm->ways[plant->way].book);
        if (plant->bed == bed &&
            book_crop_of(build->book, way)->life == LIFE_YEARS) {
            return true;
        }
    }
    return false;
}

/* The week by which the bed's next deep clean is due, or PLAN_NONE. A bed
 * whose last clean nobody noted is due within the horizon. */
static int clean_by(const Build *build, int bed)
{
    const Bed *row = &build->farm->beds[bed];
    double every_d = build->farm->farm[0].clean_every_months * 365.25 / 12.0;
    if (every_d <= 0.0 || stands_for_years(build, bed) || row->zone < 0) {
        return PLAN_NONE;
    }
    if (row->cleaned_on == DATE_ALWAYS) {
        return build->horizon - 1;
    }
    double due = (row->cleaned_on + every_d - build->from) / 7.0;
    if (due >= build->horizon) {
        return PLAN_NONE;
    }
    return due < 0.0 ? 0 : (int)due;
}

static PlanBed make_bed(const Build *build, int bed)
{
    const Bed *row = &build->farm->beds[bed];
    PlanBed out = {.id = row->id,
                   .kind = build->kind_of_bed[bed],
                   .sections = row->sections,
                   .edge_m = row->edge == EDGE_NONE ? 0.0 : row->edge_m,
                   .first_week = 0,
                   .last_week = build->week_count - 1,
                   .clean_by = clean_by(build, bed)};
    uint8_t *has_edge = ARENA_ARRAY(build->arena, uint8_t, build->week_count);
    for (int t = 0; t < build->week_count; t++) {
        int32_t monday = build_monday(build, t);
        if (row->from != DATE_ALWAYS && monday < row->from) {
            out.first_week = t + 1;
        }
        if (row->until != DATE_NEVER && monday + 6 > row->until &&
            out.last_week >= t) {
            out.last_week = t - 1;
        }
        has_edge[t] =
            out.edge_m > 0.0 &&
            (row->edge_months >> (build_month(build, t) - 1) & 1u) != 0;
    }
    out.has_edge = has_edge;
    return out;
}

/* Sums of the beds of each kind, by week. */
static void sum_kinds(const Build *build, PlanKind *kinds, const PlanBed *beds)
{
    for (int b = 0; b < build->farm->beds_count; b++) {
        const PlanBed *bed = &beds[b];
        PlanKind *kind = &kinds[bed->kind];
        double *sections = (double *)kind->sections;
        double *edge_m = (double *)kind->edge_m;
        for (int t = bed->first_week; t <= bed->last_week; t++) {
            sections[t] += bed->sections;
            edge_m[t] += bed->has_edge[t] ? bed->edge_m : 0.0;
        }
    }
}

/* A clean cannot be due before the batch that stands in the bed is cleared,
 * nor more of them in a fortnight than the loop bears: what is overdue or
 * crowded is put off as far as it must be, with a month to choose from. */
enum { CLEAN_CHOICE_WEEKS = 4 };

/* Whether one more clean may begin in a week beside those that do. */
static bool has_turn(const int *begun, int week, int weeks, int most)
{
    int before = week > 0 ? begun[week - 1] : 0;
    int after = week + 1 < weeks ? begun[week + 1] : 0;
    return begun[week] + 1 + (before > after ? before : after) <= most;
}

/* The bed of a loop that is due first of those that are free in a week and not
 * done; PLAN_NONE: none. */
static int next_free(const Build *build, const PlanBed *beds, int loop,
                     const int *free_from, int week, const bool *is_done)
{
    int next = PLAN_NONE;
    for (int b = 0; b < build->problem->bed_count; b++) {
        bool counts = !is_done[b] && beds[b].clean_by != PLAN_NONE &&
                      free_from[b] <= week &&
                      build->problem->kinds[beds[b].kind].loop == loop;
        if (counts &&
            (next == PLAN_NONE || beds[b].clean_by < beds[next].clean_by)) {
            next = b;
        }
    }
    return next;
}

static int most_begun(const Build *build, const PlanBed *beds, int loop)
{
    int loop_beds = 0;
    for (int b = 0; b < build->problem->bed_count; b++) {
        loop_beds += build->problem->kinds[beds[b].kind].loop == loop;
    }
    int most = (int)(build->problem->clean_share * loop_beds);
    return most < 1 ? 1 : most;
}

/* Goes through the weeks and gives each bed of a loop the first in which it is
 * free and has its turn, those due first before the others: so there is a way
 * to clean them all in time. */
static void spread_loop(const Build *build, PlanBed *beds, int loop,
                        const int *free_from)
{
    int weeks = build->week_count;
    int most = most_begun(build, beds, loop);
    bool *is_done =
        ARENA_ARRAY(build->scratch, bool, build->problem->bed_count);
    int *begun = ARENA_ARRAY(build->scratch, int, weeks);
    for (int week = 0; week < weeks; week++) {
        while (has_turn(begun, week, weeks, most)) {
            int b = next_free(build, beds, loop, free_from, week, is_done);
            if (b == PLAN_NONE) {
                break;
            }
            is_done[b] = true;
            begun[week]++;
            if (week + CLEAN_CHOICE_WEEKS > beds[b].clean_by) {
                beds[b].clean_by = week + CLEAN_CHOICE_WEEKS;
            }
        }
    }
    for (int b = 0; b < build->problem->bed_count; b++) {
        bool is_ours = build->problem->kinds[beds[b].kind].loop == loop;
        if (is_ours && (!is_done[b] || beds[b].clean_by >= build->horizon)) {
            beds[b].clean_by = PLAN_NONE;
        }
    }
}

static void hold(int *free_from, int bed, int week)
{
    free_from[bed] = week > free_from[bed] ? week : free_from[bed];
}

/* What the weeks that are kept began holds its bed too. */
static void hold_kept(const Build *build, int *free_from)
{
    const Farm *farm = build->farm;
    int32_t until = build->from + 7 * build->keep_weeks;
    for (int i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        int32_t begun = row->standing < 0 ? row->sow_on : row->set_on;
        if (begun < until) {
            hold(free_from, row->bed, (row->clear_on - build->from + 6) / 7);
        }
    }
}

void build_cleanings(Build *build)
{
    Problem *problem = build->problem;
    PlanBed *beds = (PlanBed *)problem->beds;
    PlanKind *kinds = (PlanKind *)problem->kinds;
    int *free_from = ARENA_ARRAY(build->scratch, int, problem->bed_count);
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *standing = &problem->standing[i];
        hold(free_from, standing->bed,
             problem->options[standing->option].clear_week);
    }
    if (build->keep_weeks > 0) {
        hold_kept(build, free_from);
    }
    for (int l = 0; l < build->farm->loops_count; l++) {
        spread_loop(build, beds, l, free_from);
    }
    for (int c = 0; c < problem->kind_count; c++) {
        kinds[c].cleans_due = 0;
    }
    for (int b = 0; b < problem->bed_count; b++) {
        kinds[beds[b].kind].cleans_due += beds[b].clean_by != PLAN_NONE;
    }
}

void build_beds(Build *build)
{
    const Farm *farm = build->farm;
    BedKinds found;
    bed_kinds_find(build->arena, farm, &found);
    build->kind_of_bed = found.of_bed;
    build->bed_of_kind = found.first_bed;
    int kind_count = found.count;
    PlanKind *kinds = ARENA_ARRAY(build->arena, PlanKind, kind_count);
    for (int c = 0; c < kind_count; c++) {
        const Bed *bed = &farm->beds[build->bed_of_kind[c]];
        kinds[c] = (PlanKind){.name = found.names[c],
                              .loop = bed_loop(farm, bed),
                              .sections = build_weeks(build),
                              .edge_m = build_weeks(build),
                              .sections_per_bed = bed->sections};
    }
    PlanBed *beds = ARENA_ARRAY(build->arena, PlanBed, farm->beds_count);
    for (int b = 0; b < farm->beds_count; b++) {
        beds[b] = make_bed(build, b);
    }
    sum_kinds(build, kinds, beds);
    build->problem->kinds = kinds;
    build->problem->kind_count = kind_count;
    build->problem->beds = beds;
    build->problem->bed_count = farm->beds_count;
    build->problem->clean_share = 0.1;
}
