/* The picks of a plant batch through a year as it comes. */
#include "sim/picks.h"

#include <math.h>

#include "base/date.h"

enum { WEEK_D = 7, THURSDAY = 3 };

/* Heads and bunches of less growth than that find no buyer; judged. */
static const double YOUNG_LEAST_FRAC = 0.8;

PickState pick_start(void)
{
    return (PickState){.first_day = DATE_NEVER, .end = PLANT_GROWS};
}

/* Growth by Thursday: what is ready by then is cut in its own week. */
static double by_thursday(const PickWeek *week)
{
    return week->from_degc_d +
           (double)THURSDAY / WEEK_D * (week->to_degc_d - week->from_degc_d);
}

static bool is_last_week(const PickCase *is, const PickWeek *week)
{
    return week->monday + WEEK_D >= is->clear_day;
}

/* What is not ready in the last week before it is cleared is cut young, and
 * counts by how far it got from the cut before (at from_degc_d). */
static double young_frac(const PickCase *is, const PickWeek *week,
                         double from_degc_d, double wanted_degc_d)
{
    double way =
        (by_thursday(week) - from_degc_d) / (wanted_degc_d - from_degc_d);
    return is_last_week(is, week) && way >= YOUNG_LEAST_FRAC && way < 1.0 ? way
                                                                          : 0.0;
}

static double pick_once(const PickCase *is, const PickWeek *week,
                        PickState *state)
{
    const PlantRule *rule = is->rule;
    double first = rule->first_pick_degc_d.value;
    double young = young_frac(is, week, 0.0, first);
    if (young > 0.0 && state->picked_frac < 1.0) {
        state->picked++;
        state->picked_frac = 1.0;
        return young * rule->units.value;
    }
    if (by_thursday(week) < first || state->picked_frac >= 1.0) {
        return 0.0;
    }
    /* By next Monday it would be past its time. */
    bool is_last =
        week->to_degc_d - first >= rule->stand_degc_d || is_last_week(is, week);
    if (!is_last && is->pick_from != DATE_ALWAYS &&
        week->monday < week_of(is->pick_from)) {
        return 0.0;
    }
    double share = 1.0 / is->pick_weeks;
    state->picked++;
    if (is_last || state->picked >= is->pick_weeks) {
        share = 1.0 - state->picked_frac;
    }
    state->picked_frac += share;
    return share * rule->units.value;
}

static double pick_cuts(const PickCase *is, const PickWeek *week,
                        PickState *state)
{
    const PlantRule *rule = is->rule;
    int most = (int)(rule->picks + 0.5);
    double made = 0.0;
    while (state->picked < most) {
        double wanted =
            rule->first_pick_degc_d.value +
            (state->picked > 0 ? state->picked * rule->every_degc_d : 0.0);
        double before = state->picked > 0 ? wanted - rule->every_degc_d : 0.0;
        double young = young_frac(is, week, before, wanted);
        bool is_late = state->first_day != DATE_NEVER &&
                       week->monday - state->first_day > (int32_t)rule->span_d;
        if ((by_thursday(week) < wanted && !(young > 0.0)) || is_late) {
            break;
        }
        state->picked++;
        made += young > 0.0 ? young : 1.0;
        state->first_day =
            state->first_day == DATE_NEVER ? week->monday : state->first_day;
    }
    return made * rule->units.value;
}

/* The part of the week before the batch is cleared. */
static double week_part(const PickCase *is, const PickWeek *week)
{
    int32_t left = is->clear_day - week->monday;
    return is->clear_day == DATE_NEVER || left >= WEEK_D
               ? 1.0
               : (double)left / WEEK_D;
}

static double pick_flow(const PickCase *is, const PickWeek *week,
                        PickState *state)
{
    const PlantRule *rule = is->rule;
    double whole = rule->picks * rule->every_degc_d;
    double until = week->from_degc_d +
                   week_part(is, week) * (week->to_degc_d - week->from_degc_d);
    double growth =
        until - fmax(week->from_degc_d, rule->first_pick_degc_d.value);
    if (!(growth > 0.0) || state->flow_degc_d >= whole) {
        return 0.0;
    }
    if (state->first_day == DATE_NEVER) {
        state->first_day = week->monday;
        /* What had its first pick before this began is so far on its way. */
        state->flow_degc_d =
            fmax(0.0, week->from_degc_d - rule->first_pick_degc_d.value);
    }
    if (week->monday - state->first_day >= (int32_t)rule->span_d) {
        return 0.0;
    }
    growth = fmin(growth, whole - state->flow_degc_d);
    double x = (state->flow_degc_d + growth / 2.0) / whole;
    state->flow_degc_d += growth;
    return fmax(0.0, growth) / rule->every_degc_d *
           plant_flow_shape(rule, fmin(x, 1.0)) * rule->units.value;
}

/* What the week's weather ends: it was still picked. */
static void end_by(const PickCase *is, const PickWeek *week, PickState *state)
{
    const PlantRule *rule = is->rule;
    const BoltRule *bolt = &rule->bolt;
    state->heat_degc_d += week->heat_degc_d;
    state->cold_d += week->cold_d;
    state->chill_d += week->chill_d;
    if (week->is_frost) {
        state->end = PLANT_FREEZES;
    } else if (!isnan(rule->chill_d) && state->chill_d >= rule->chill_d) {
        state->end = PLANT_CHILLS;
    } else if (bolt->heat_sum_degc_d > 0.0 &&
               state->heat_degc_d >= bolt->heat_sum_degc_d) {
        state->end = PLANT_BOLTS;
    } else if (bolt->cold_d > 0.0 && state->cold_d >= bolt->cold_d &&
               week->is_long_day) {
        state->end = PLANT_BOLTS;
    }
}

double pick_week(const PickCase *is, const PickWeek *week, PickState *state)
{
    if (state->end != PLANT_GROWS || week->monday >= is->clear_day ||
        week->monday + WEEK_D <= is->set_day) {
        return 0.0;
    }
    double units = 0.0;
    switch (is->rule->shape) {
    case SHAPE_ONCE:
        units = pick_once(is, week, state);
        break;
    case SHAPE_CUTS:
        units = pick_cuts(is, week, state);
        break;
    case SHAPE_FLOW:
        units = pick_flow(is, week, state);
        break;
    }
    end_by(is, week, state);
    return units * week->quality_frac;
}
