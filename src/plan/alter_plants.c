/* A plan changed by hand: batches of plants. */
#include "plan/alter_parts.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "plan/record.h"

/* The column that a change asks for. */
typedef struct Wanted {
    int way;
    int bed;
    int trays_of;
    bool is_shaded;
    bool is_by_sowing; /* week is that of sowing, not of setting */
    int week;
    bool has_clear;
    int clear_week;
    int pick_weeks; /* else: picked over about so many weeks */
} Wanted;

static int pick_weeks_of(const PlanOption *option)
{
    return option->pick_until - option->pick_from;
}

/* Whether the column can be what is wanted, whatever its weeks. */
static bool is_of(const Alterer *alterer, const Wanted *wanted,
                  const PlanOption *option)
{
    return !option->is_standing && option->way == wanted->way &&
           option->kind == alterer->problem->beds[wanted->bed].kind &&
           option->trays_of == wanted->trays_of;
}

static int weeks_off(const Wanted *wanted, const PlanOption *option)
{
    int week = wanted->is_by_sowing ? option->sow_week : option->set_week;
    return abs(week - wanted->week);
}

/* The nearest column: in the week, then in its light, then in its picking. */
static int find_column(const Alterer *alterer, const Wanted *wanted)
{
    const Problem *problem = alterer->problem;
    int found = PLAN_NONE;
    int64_t best = INT64_MAX;
    for (int i = 0; i < problem->option_count; i++) {
        const PlanOption *option = &problem->options[i];
        if (!is_of(alterer, wanted, option)) {
            continue;
        }
        bool is_lit = plan_is_shaded(alterer->inputs->farm, wanted->bed,
                                     option) == wanted->is_shaded;
        int pick = wanted->has_clear
                       ? abs(option->clear_week - wanted->clear_week)
                       : abs(pick_weeks_of(option) - wanted->pick_weeks);
        int64_t apart = ((int64_t)weeks_off(wanted, option) << 32) +
                        (is_lit ? 0 : (int64_t)1 << 31) + pick;
        if (apart < best) {
            best = apart;
            found = i;
        }
    }
    return found;
}

/* The column, or why there is none. A week of sowing may be missed by one:
 * settings of two weeks can share a sowing, and one week be without. */
static Err take_column(const Alterer *alterer, const Wanted *wanted, int *out)
{
    const Problem *problem = alterer->problem;
    const char *way = problem->way_names[wanted->way];
    const char *bed = problem->beds[wanted->bed].id;
    int column = find_column(alterer, wanted);
    if (column == PLAN_NONE) {
        return err_make(ERR_INPUT, "%.60s does not grow in %.60s", way, bed);
    }
    const PlanOption *option = &problem->options[column];
    int most = wanted->is_by_sowing ? 1 : 0;
    if (weeks_off(wanted, option) > most) {
        int week = wanted->is_by_sowing ? option->sow_week : option->set_week;
        return err_make(ERR_INPUT,
                        "%.60s cannot be %s in %.60s in %s; nearest that can "
                        "be: %s",
                        way, wanted->is_by_sowing ? "sown for" : "set out", bed,
                        alter_week(alterer, wanted->week),
                        alter_week(alterer, week));
    }
    *out = column;
    return ERR_NONE;
}

/* ---- Room -----------------------------------------------------------------
 */

static bool overlaps(const PlanOption *a, const PlanOption *b)
{
    return a->set_week < b->clear_week && b->set_week < a->clear_week;
}

/* Marks what of the floor others hold while the column stands there. */
static void mark_held(const Alterer *alterer, const PlanPlacement *placed,
                      int except, bool *held)
{
    const Problem *problem = alterer->problem;
    const PlanSolution *plan = alterer->solution;
    const PlanOption *option = &problem->options[placed->option];
    int sections = problem->beds[placed->bed].sections;
    for (int i = 0; i < problem->standing_count + plan->placement_count; i++) {
        int number = i - problem->standing_count;
        PlanPlacement other =
            number >= 0 ? plan->placements[number]
                        : (PlanPlacement){problem->standing[i].option,
                                          problem->standing[i].bed,
                                          problem->standing[i].first_section,
                                          problem->standing[i].units};
        const PlanOption *its = &problem->options[other.option];
        if ((number >= 0 && number == except) || other.bed != placed->bed ||
            its->is_edge || !overlaps(option, its)) {
            continue;
        }
        for (int s = other.first_section;
             s < other.first_section + other.units && s < sections; s++) {
            held[s] = true;
        }
    }
}

static bool is_free(const bool *held, int sections, int first, int units)
{
    bool is_room = first >= 0 && first + units <= sections;
    for (int s = first; is_room && s < first + units; s++) {
        is_room = !held[s];
    }
    return is_room;
}

/* Where it stands: as told, where it was, else in the first sections that are
 * free for all of its weeks, else over others. */
static void choose_sections(const Alterer *alterer, const PlanAlter *change,
                            int except, PlanPlacement *placed)
{
    int sections = alterer->problem->beds[placed->bed].sections;
    if (alterer->problem->options[placed->option].is_edge) {
        placed->first_section = 0;
        return;
    }
    if (change->section > 0) {
        placed->first_section = change->section - 1;
        return;
    }
    bool *held = ARENA_ARRAY(alterer->arena, bool, sections);
    mark_held(alterer, placed, except, held);
    if (is_free(held, sections, placed->first_section, placed->units)) {
        return;
    }
    for (int first = 0; first + placed->units <= sections; first++) {
        if (is_free(held, sections, first, placed->units)) {
            placed->first_section = first;
            return;
        }
    }
    if (placed->first_section + placed->units > sections) {
        placed->first_section =
            placed->units < sections ? sections - placed->units : 0;
    }
}

/* Whether the bed's sun is enough for units more sections that want it. */
static bool has_sun(const Alterer *alterer, const PlanPlacement *placed,
                    int except)
{
    const Problem *problem = alterer->problem;
    const PlanSolution *plan = alterer->solution;
    const PlanOption *option = &problem->options[placed->option];
    for (int t = option->set_week;
         t < option->clear_week && t < problem->week_count; t++) {
        double left = problem->beds[placed->bed].sections - placed->units;
        for (int i = 0; i < problem->standing_count + plan->placement_count;
             i++) {
            int number = i - problem->standing_count;
            PlanPlacement other =
                number >= 0 ? plan->placements[number]
                            : (PlanPlacement){problem->standing[i].option,
                                              problem->standing[i].bed, 0,
                                              problem->standing[i].units};
            const PlanOption *its = &problem->options[other.option];
            int at = t - its->first_week;
            if ((number >= 0 && number == except) || other.bed != placed->bed ||
                t < its->set_week || t >= its->clear_week) {
                continue;
            }
            bool casts = its->is_edge && at >= 0 && at < its->weeks;
            left -= casts            ? other.units * its->shade[at]
                    : its->wants_sun ? other.units
                                     : 0.0;
        }
        if (left < -1e-6) {
            return false;
        }
    }
    return true;
}

/* ---- A batch --------------------------------------------------------------
 */

/* Sections, or plants of an edge; what a batch had where nothing is told. */
static Err choose_units(const PlanOption *option, const PlanAlter *change,
                        double plants_before, PlanAltered *done)
{
    if (option->is_edge && (change->sections > 0 || change->section > 0)) {
        return err_make(ERR_INPUT, "it stands on an edge: tell plants, not "
                                   "sections");
    }
    double plants = change->plants > 0 ? change->plants : plants_before;
    int units = (int)lround(plants / option->plants);
    units = change->sections > 0 ? change->sections : units < 1 ? 1 : units;
    if (units > ALTER_UNITS_MOST) {
        return err_make(ERR_INPUT, "%d is more than any bed holds", units);
    }
    done->after.units = units;
    return ERR_NONE;
}

/* Places what is wanted; except: the placement that it takes the place of. */
static Err place(Alterer *alterer, const PlanAlter *change, Wanted *wanted,
                 double plants_before, int except, PlanAltered *done)
{
    const Problem *problem = alterer->problem;
    int column = PLAN_NONE;
    TRY(take_column(alterer, wanted, &column));
    done->after.option = column;
    done->after.bed = wanted->bed;
    TRY(choose_units(&problem->options[column], change, plants_before, done));
    const PlanOption *option = &problem->options[column];
    if (option->wants_sun && !has_sun(alterer, &done->after, except)) {
        wanted->is_shaded = true;
        TRY(take_column(alterer, wanted, &done->after.option));
    }
    choose_sections(alterer, change, except, &done->after);
    return ERR_NONE;
}

static void tell_clear(const Alterer *alterer, const Wanted *wanted,
                       PlanAltered *done)
{
    const PlanOption *option = &alterer->problem->options[done->after.option];
    if (wanted->has_clear && option->clear_week != wanted->clear_week) {
        done->note = arena_text(
            alterer->arena, "the nearest clearing that the plan has is in %s",
            alter_week(alterer, option->clear_week));
    }
}

static Err check_days(const Alterer *alterer, const Wanted *wanted)
{
    if (wanted->week < 0 || wanted->week >= alterer->problem->horizon) {
        return err_make(ERR_INPUT, "%s lies outside the plan, %s to %s",
                        alter_week(alterer, wanted->week),
                        alter_week(alterer, 0),
                        alter_week(alterer, alterer->problem->horizon - 1));
    }
    if (wanted->has_clear && !wanted->is_by_sowing &&
        wanted->clear_week <= wanted->week) {
        return err_make(ERR_INPUT, "it is cleared before it is set");
    }
    return ERR_NONE;
}

/* ---- Which batch ----------------------------------------------------------
 */

static Err find_batch(const Alterer *alterer, const char *id, int *out)
{
    const Farm *farm = alterer->inputs->farm;
    const PlanSolution *plan = alterer->solution;
    for (int i = 0; i < plan->placement_count; i++) {
        int row = plan->placement_rows[i];
        if (row != PLAN_NONE && strcmp(farm->plan_plants[row].id, id) == 0) {
            *out = i;
            return ERR_NONE;
        }
    }
    const char **names =
        ARENA_ARRAY(alterer->arena, const char *, farm->plan_plants_count);
    for (int i = 0; i < farm->plan_plants_count; i++) {
        names[i] = farm->plan_plants[i].id;
        if (strcmp(names[i], id) == 0) {
            return err_make(ERR_INPUT,
                            "%.60s is no longer planned: it stands, is over, "
                            "or was dropped",
                            id);
        }
    }
    return alter_not_found("planned batch", id, names, farm->plan_plants_count);
}

/* Something is to be other than it was. */
static bool has_wish(const PlanAlter *change)
{
    return change->weeks != 0 || change->sow_on != DATE_ALWAYS ||
           change->set_on != DATE_ALWAYS || change->clear_on != DATE_ALWAYS ||
           change->bed || change->section > 0 || change->sections > 0 ||
           change->plants > 0;
}

static Err move_batch(Alterer *alterer, const PlanAlter *change, int at,
                      PlanAltered *done)
{
    const Problem *problem = alterer->problem;
    const PlanOption *option = &problem->options[done->before.option];
    bool is_by_sowing = change->sow_on != DATE_ALWAYS;
    if (!has_wish(change)) {
        return err_make(ERR_INPUT,
                        "%.60s: tell weeks, a day, a bed, a size or drop",
                        change->batch);
    }
    Wanted wanted = {
        .way = option->way,
        .bed = done->before.bed,
        .trays_of = option->trays_of,
        .is_shaded =
            plan_is_shaded(alterer->inputs->farm, done->before.bed, option),
        .is_by_sowing = is_by_sowing,
        .week = is_by_sowing
                    ? plan_week_at(alterer->index, change->sow_on)
                    : alter_wanted_week(alterer, change, change->set_on,
                                        option->set_week),
        .has_clear = change->clear_on != DATE_ALWAYS,
        .clear_week = change->clear_on != DATE_ALWAYS
                          ? plan_week_at(alterer->index, change->clear_on)
                          : 0,
        .pick_weeks = pick_weeks_of(option)};
    if (is_by_sowing && option->trays_of > 0) {
        return err_make(ERR_INPUT, "%.60s is sown already", change->batch);
    }
    if (change->bed) {
        TRY(alter_bed(alterer, change->bed, &wanted.bed));
        wanted.is_shaded = wanted.is_shaded && wanted.bed == done->before.bed;
    }
    TRY(check_days(alterer, &wanted));
    done->after = done->before;
    TRY(place(alterer, change, &wanted, done->before.units * option->plants, at,
              done));
    tell_clear(alterer, &wanted, done);
    alterer->solution->placements[at] = done->after;
    return ERR_NONE;
}

static void drop_batch(Alterer *alterer, int at)
{
    PlanSolution *plan = alterer->solution;
    plan->placement_count--;
    for (int i = at; i < plan->placement_count; i++) {
        plan->placements[i] = plan->placements[i + 1];
        plan->placement_rows[i] = plan->placement_rows[i + 1];
    }
}

static Err find_way(const Alterer *alterer, const char *id, int *out)
{
    const Problem *problem = alterer->problem;
    for (int w = 0; w < problem->way_count; w++) {
        if (strcmp(problem->way_names[w], id) == 0) {
            *out = w;
            return ERR_NONE;
        }
    }
    return alter_not_found("way", id, problem->way_names, problem->way_count);
}

/* A crop cut once is cut in one week; what is picked for long stands as long as
 * it bears. */
static int usual_pick_weeks(const Alterer *alterer, int way)
{
    const Way *row = &alterer->inputs->farm->ways[way];
    return book_way(alterer->inputs->book, row->book)->shape == SHAPE_ONCE
               ? 0
               : INT_MAX / 2;
}

static Err add_batch(Alterer *alterer, const PlanAlter *change,
                     PlanAltered *done)
{
    PlanSolution *plan = alterer->solution;
    bool is_by_sowing = change->sow_on != DATE_ALWAYS;
    int32_t day = is_by_sowing ? change->sow_on : change->set_on;
    if (!change->bed || day == DATE_ALWAYS || change->is_drop) {
        return err_make(ERR_INPUT, "a new batch needs a bed and set_on or "
                                   "sow_on");
    }
    Wanted wanted = {.is_by_sowing = is_by_sowing,
                     .week = plan_week_at(alterer->index, day),
                     .has_clear = change->clear_on != DATE_ALWAYS};
    TRY(find_way(alterer, change->way, &wanted.way));
    TRY(alter_bed(alterer, change->bed, &wanted.bed));
    wanted.pick_weeks = usual_pick_weeks(alterer, wanted.way);
    if (wanted.has_clear) {
        wanted.clear_week = plan_week_at(alterer->index, change->clear_on);
    }
    TRY(check_days(alterer, &wanted));
    TRY(place(alterer, change, &wanted, 0.0, PLAN_NONE, done));
    tell_clear(alterer, &wanted, done);
    plan->placement_rows[plan->placement_count] = PLAN_NONE;
    plan->placements[plan->placement_count++] = done->after;
    return ERR_NONE;
}

Err alter_plants(Alterer *alterer, const PlanAlter *change, PlanAltered *out)
{
    PlanAltered done = {.before = {.option = PLAN_NONE},
                        .after = {.option = PLAN_NONE},
                        .week_before = PLAN_NONE,
                        .week_after = PLAN_NONE};
    if (change->tank || change->on != DATE_ALWAYS) {
        return err_make(ERR_INPUT, "a batch of plants has no tank; its days "
                                   "are sow_on, set_on, clear_on");
    }
    if (change->way) {
        done.kind = ALTERED_ADDED;
        TRY(add_batch(alterer, change, &done));
        *out = done;
        return ERR_NONE;
    }
    int at = PLAN_NONE;
    TRY(find_batch(alterer, change->batch, &at));
    done.before = alterer->solution->placements[at];
    if (change->is_drop) {
        done.kind = ALTERED_DROPPED;
        drop_batch(alterer, at);
    } else {
        done.kind = ALTERED_MOVED;
        TRY(move_batch(alterer, change, at, &done));
    }
    *out = done;
    return ERR_NONE;
}
