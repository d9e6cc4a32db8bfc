/* How much of a goods to keep for the next week: the best by itself, all else
 * as it is.
 *
 * Two weeks' sales as a function of what is kept are concave and made of
 * straight pieces: where the tangents at both ends meet is the best, or gives a
 * narrower range. */
#include <math.h>

#include "plan/state_parts.h"

typedef struct StoreChoice {
    State *state;
    int goods;
    int week;
    double *cell;
} StoreChoice;

typedef struct StorePoint {
    double units;
    double worth;
    double slope; /* into the range */
} StorePoint;

static double worth_with(const StoreChoice *choice, double units)
{
    State *state = choice->state;
    int family = state->sales->family_of[choice->goods];
    double before = *choice->cell;
    *choice->cell = units;
    double worth = state_family_worth(state, family, choice->week);
    if (choice->week + 1 < state->weeks) {
        worth += state_family_worth(state, family, choice->week + 1);
    }
    *choice->cell = before;
    return worth;
}

static StorePoint point_at(const StoreChoice *choice, double units, double step)
{
    StorePoint point = {.units = units, .worth = worth_with(choice, units)};
    point.slope = (worth_with(choice, units + step) - point.worth) / step;
    return point;
}

static double best_between(const StoreChoice *choice, double low, double high)
{
    enum { ROUNDS = 8 };
    double step = 1e-5 * (high - low);
    StorePoint a = point_at(choice, low, step);
    StorePoint b = point_at(choice, high, -step);
    for (int i = 0; i < ROUNDS && b.units - a.units > 4.0 * step; i++) {
        if (a.slope <= 0.0 || b.slope >= 0.0) {
            break;
        }
        double units =
            (b.worth - a.worth + a.slope * a.units - b.slope * b.units) /
            (a.slope - b.slope);
        if (units < a.units + step || units > b.units - step) {
            break;
        }
        StorePoint left = point_at(choice, units, -step);
        StorePoint right = point_at(choice, units, step);
        if (left.slope >= 0.0 && right.slope > 0.0) {
            a = right;
        } else if (left.slope < 0.0 && right.slope <= 0.0) {
            b = left;
        } else {
            return units;
        }
    }
    return a.worth >= b.worth ? a.units : b.units;
}

bool state_has_store(const State *state, int goods)
{
    return state->keep[goods] > 0.0;
}

bool state_store_best(State *state, int goods, int week)
{
    const StateRows *rows = &state->index->rows;
    const PlanGoods *g = &state->problem->goods[goods];
    double *store = state_row(state, rows->store + goods);
    const double *mean = state_row(state, rows->mean + goods);
    double held = week > 0 ? g->keep * store[week - 1] : 0.0;
    double room =
        state->problem->store_room_kg - state_row(state, rows->room)[week];
    double high = fmin(fmin(mean[week] + held, g->store_max),
                       store[week] + fmax(room, 0.0) / g->kg_per_unit);
    double low = 0.0;
    if (week + 1 < state->weeks) {
        low = fmax(low, (store[week + 1] - mean[week + 1]) / g->keep);
    }
    if (high - low < 1e-6 * (1.0 + g->store_max)) {
        return false;
    }
    StoreChoice choice = {state, goods, week, store + week};
    double units = best_between(&choice, low, high);
    double gain = worth_with(&choice, units) - worth_with(&choice, store[week]);
    if (gain <= 1e-9) {
        return false;
    }
    int end = week + 2 < state->weeks ? week + 2 : state->weeks;
    state_touch(state, rows->mean + goods, week, end);
    state_store_set(state, goods, week, units);
    return true;
}
