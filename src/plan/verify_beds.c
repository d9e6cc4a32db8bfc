/* The separate checker: beds, edges, shade, nursery, cleanings. */
#include <math.h>

#include "plan/verify_parts.h"

/* Who holds each section, and what lies on each bed in each week. */
typedef struct BedWork {
    int *first;     /* of a bed's sections among all */
    int *holder;    /* [section][week]: 1 + option, 0 when free */
    double *edge_m; /* [bed][week] held */
    double *shaded; /* [bed][week] sections */
    int *sunny;     /* [bed][week] sections of what wants sun */
    double *trays;  /* [week] */
} BedWork;

typedef struct Stand {
    int option;
    int bed;
    int first_section;
    int units;
} Stand;

static double at_week(const PlanOption *option, const double *profile, int week)
{
    int i = week - option->first_week;
    return i < 0 || i >= option->weeks ? 0.0 : profile[i];
}

static const char *way_of(const Verifier *v, const PlanOption *option)
{
    return v->problem->way_names[option->way];
}

/* (1), and the sections of (3) */
static void stand_on_floor(Verifier *v, BedWork *work, const Stand *stand,
                           int week)
{
    const PlanOption *option = &v->problem->options[stand->option];
    const PlanBed *bed = &v->problem->beds[stand->bed];
    for (int s = stand->first_section; s < stand->first_section + stand->units;
         s++) {
        int at = (work->first[stand->bed] + s) * v->weeks + week;
        if (work->holder[at] != 0) {
            verify_break(
                v,
                &(VerifyBreak){
                    .kind = VERIFY_PLACE,
                    .week = week,
                    .place = bed->id,
                    .way = way_of(v, option),
                    .other =
                        way_of(v, &v->problem->options[work->holder[at] - 1]),
                    .section = s + 1},
                "section %d of %s is held twice in week %d: by %s "
                "of week %d, and by %s",
                s + 1, bed->id, week, way_of(v, option), option->set_week,
                way_of(v, &v->problem->options[work->holder[at] - 1]));
        }
        work->holder[at] = 1 + stand->option;
    }
    if (option->wants_sun) {
        work->sunny[stand->bed * v->weeks + week] += stand->units;
    }
}

/* (2), and the shade of (3) */
static void stand_on_edge(Verifier *v, BedWork *work, const Stand *stand,
                          int week)
{
    const PlanOption *option = &v->problem->options[stand->option];
    const PlanBed *bed = &v->problem->beds[stand->bed];
    int at = stand->bed * v->weeks + week;
    work->edge_m[at] += stand->units * option->place;
    work->shaded[at] += stand->units * at_week(option, option->shade, week);
    if (!bed->has_edge[week]) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_EDGE_WEEK,
                                    .week = week,
                                    .place = bed->id,
                                    .way = way_of(v, option)},
                     "%s of week %d stands on the edge of %s in week %d, "
                     "when it may not be planted",
                     way_of(v, option), option->set_week, bed->id, week);
    }
}

static void take_stand(Verifier *v, BedWork *work, const Stand *stand)
{
    const PlanOption *option = &v->problem->options[stand->option];
    const PlanBed *bed = &v->problem->beds[stand->bed];
    bool is_inside = stand->first_section >= 0 &&
                     stand->first_section + stand->units <= bed->sections;
    if (!option->is_edge && !is_inside) {
        verify_break(
            v,
            &(VerifyBreak){.kind = VERIFY_SECTIONS,
                           .week = option->set_week,
                           .place = bed->id,
                           .way = way_of(v, option),
                           .got = stand->first_section + stand->units,
                           .most = bed->sections},
            "%s of week %d needs sections %d to %d of %s, which "
            "has %d",
            way_of(v, option), option->set_week, stand->first_section + 1,
            stand->first_section + stand->units, bed->id, bed->sections);
        return;
    }
    for (int t = option->set_week < 0 ? 0 : option->set_week;
         t < option->clear_week && t < v->weeks; t++) {
        if (t < bed->first_week || t > bed->last_week) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_BED_WEEK,
                                        .week = t,
                                        .place = bed->id,
                                        .way = way_of(v, option)},
                         "%s of week %d stands on %s in week %d, when it is "
                         "not in use",
                         way_of(v, option), option->set_week, bed->id, t);
        }
        if (option->is_edge) {
            stand_on_edge(v, work, stand, t);
        } else {
            stand_on_floor(v, work, stand, t);
        }
    }
}

/* Trays, hours, feed and yields. */
static void take_flows(Verifier *v, BedWork *work, const Stand *stand)
{
    const PlanOption *option = &v->problem->options[stand->option];
    int loop = v->problem->kinds[option->kind].loop;
    int goods = option->goods * v->weeks;
    for (int t = 0; t < v->weeks; t++) {
        double units = stand->units;
        work->trays[t] += units * at_week(option, option->trays, t);
        v->hours[t] += units * at_week(option, option->hours, t);
        v->mean[goods + t] += units * at_week(option, option->mean, t);
        v->low[goods + t] += units * at_week(option, option->low, t);
        if (loop != PLAN_NONE) {
            v->want[loop * v->weeks + t] +=
                units * at_week(option, option->want_kg, t);
        }
    }
}

static void check_week_of_bed(Verifier *v, const BedWork *work, int b, int week)
{
    const PlanBed *bed = &v->problem->beds[b];
    int at = b * v->weeks + week;
    if (verify_is_over(work->edge_m[at], bed->edge_m)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_EDGE,
                                    .week = week,
                                    .place = bed->id,
                                    .got = work->edge_m[at],
                                    .most = bed->edge_m},
                     "the edge of %s holds %.2f m of %.2f in week %d", bed->id,
                     work->edge_m[at], bed->edge_m, week);
    }
    double sun = bed->sections - work->shaded[at];
    if (work->sunny[at] > 0 && verify_is_over(work->sunny[at], sun)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SUN,
                                    .week = week,
                                    .place = bed->id,
                                    .got = work->sunny[at],
                                    .most = sun},
                     "%d sections of %s want sun in week %d, and %.2f have "
                     "it",
                     work->sunny[at], bed->id, week, sun);
    }
}

/* (5): the bed is empty while it is cleaned. */
static void check_clean_is_free(Verifier *v, const BedWork *work,
                                const PlanCleaning *clean)
{
    const PlanBed *bed = &v->problem->beds[clean->bed];
    bool is_held = work->edge_m[clean->bed * v->weeks + clean->week] > 0.0;
    for (int s = 0; s < bed->sections; s++) {
        int at = (work->first[clean->bed] + s) * v->weeks + clean->week;
        is_held |= work->holder[at] != 0;
    }
    if (is_held) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_CLEAN_HELD,
                                    .week = clean->week,
                                    .place = bed->id},
                     "%s is cleaned in week %d while plants stand on it",
                     bed->id, clean->week);
    }
}

/* begun: by loop and week; beds: by loop. */
static void check_clean_rate(Verifier *v, const int *begun, const int *beds)
{
    const Problem *problem = v->problem;
    for (int i = 0; i < problem->loop_count * v->weeks; i++) {
        int t = i % v->weeks;
        int loop = i / v->weeks;
        double most = fmax(1.0, problem->clean_share * beds[loop]);
        int count = begun[i] + (t + 1 < v->weeks ? begun[i + 1] : 0);
        if (verify_is_over(count, most)) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_CLEAN_RATE,
                                        .week = t,
                                        .place = problem->loops[loop].name,
                                        .got = count,
                                        .most = most},
                         "%d beds of %s are cleaned in weeks %d and %d, at "
                         "most %.1f may be",
                         count, problem->loops[loop].name, t, t + 1, most);
        }
    }
}

static void check_cleanings(Verifier *v, const BedWork *work)
{
    const Problem *problem = v->problem;
    int *times = ARENA_ARRAY(v->arena, int, problem->bed_count);
    int loops = problem->loop_count;
    int *begun = ARENA_ARRAY(v->arena, int, loops * v->weeks);
    for (int i = 0; i < v->solution->cleaning_count; i++) {
        const PlanCleaning *clean = &v->solution->cleanings[i];
        const PlanBed *bed = &problem->beds[clean->bed];
        int loop = problem->kinds[bed->kind].loop;
        check_clean_is_free(v, work, clean);
        v->hours[clean->week] += problem->clean_hours[bed->kind];
        if (bed->clean_by != PLAN_NONE && clean->week <= bed->clean_by) {
            times[clean->bed]++;
        } else {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_CLEAN_DUE,
                                        .week = clean->week,
                                        .place = bed->id},
                         "%s is cleaned in week %d, due by week %d", bed->id,
                         clean->week, bed->clean_by);
        }
        if (loop != PLAN_NONE) {
            begun[loop * v->weeks + clean->week]++;
        }
    }
    int *beds = ARENA_ARRAY(v->arena, int, loops);
    for (int b = 0; b < problem->bed_count; b++) {
        const PlanBed *bed = &problem->beds[b];
        int loop = problem->kinds[bed->kind].loop;
        if (loop != PLAN_NONE) {
            beds[loop]++;
        }
        if (bed->clean_by != PLAN_NONE && times[b] != 1) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_CLEAN_DUE,
                                        .week = bed->clean_by,
                                        .place = bed->id,
                                        .got = times[b],
                                        .most = 1.0},
                         "%s is cleaned %d times by week %d, not once", bed->id,
                         times[b], bed->clean_by);
        }
    }
    check_clean_rate(v, begun, beds);
}

static void take_all(Verifier *v, BedWork *work)
{
    const Problem *problem = v->problem;
    for (int i = 0; i < problem->standing_count; i++) {
        const PlanStanding *batch = &problem->standing[i];
        Stand stand = {batch->option, batch->bed, batch->first_section,
                       batch->units};
        take_stand(v, work, &stand);
        take_flows(v, work, &stand);
    }
    for (int i = 0; i < v->solution->placement_count; i++) {
        const PlanPlacement *placed = &v->solution->placements[i];
        Stand stand = {placed->option, placed->bed, placed->first_section,
                       placed->units};
        take_stand(v, work, &stand);
        take_flows(v, work, &stand);
        v->costs += placed->units * problem->options[placed->option].cost;
    }
}

/* No more seedlings are set than stand. */
static void check_seedlings(Verifier *v)
{
    const Problem *problem = v->problem;
    for (int i = 0; i < problem->seedlings_count; i++) {
        const PlanSeedlings *trays = &problem->seedlings[i];
        double plants = 0.0;
        for (int j = 0; j < v->solution->placement_count; j++) {
            const PlanPlacement *placed = &v->solution->placements[j];
            const PlanOption *option = &problem->options[placed->option];
            plants += option->trays_of == i + 1 ? placed->units * option->plants
                                                : 0.0;
        }
        if (verify_is_over(plants, trays->plants)) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_SEEDLINGS,
                                        .week = PLAN_NONE,
                                        .place = trays->id,
                                        .got = plants,
                                        .most = trays->plants},
                         "%.1f seedlings of %s are set, %.1f stand", plants,
                         trays->id, trays->plants);
        }
    }
}

void verify_beds(Verifier *v)
{
    const Problem *problem = v->problem;
    int places = problem->bed_count * v->weeks;
    BedWork work = {.first = ARENA_ARRAY(v->arena, int, problem->bed_count),
                    .edge_m = ARENA_ARRAY(v->arena, double, places),
                    .shaded = ARENA_ARRAY(v->arena, double, places),
                    .sunny = ARENA_ARRAY(v->arena, int, places),
                    .trays = ARENA_ARRAY(v->arena, double, v->weeks)};
    int sections = 0;
    for (int b = 0; b < problem->bed_count; b++) {
        work.first[b] = sections;
        sections += problem->beds[b].sections;
    }
    work.holder = ARENA_ARRAY(v->arena, int, sections * v->weeks);
    take_all(v, &work);
    for (int i = 0; i < places; i++) {
        check_week_of_bed(v, &work, i / v->weeks, i % v->weeks);
    }
    check_cleanings(v, &work);
    check_seedlings(v);
    for (int t = 0; t < v->weeks; t++) {
        if (verify_is_over(work.trays[t], problem->trays[t])) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_NURSERY,
                                        .week = t,
                                        .got = work.trays[t],
                                        .most = problem->trays[t]},
                         "the nursery holds %.1f trays of %.1f in week %d",
                         work.trays[t], problem->trays[t], t);
        }
    }
}
