/* What an accepted plan holds: people work by it, so each section of it that
 * stays as it was (its bed, way and week of setting) is worth a little, the
 * more the sooner it is. */
#include "plan/change.h"
#include "plan/state_parts.h"

void state_keep(State *state, const PlanSolution *solution, Arena *arena)
{
    const Problem *p = state->problem;
    if (p->change_price <= 0.0) {
        return;
    }
    const StateIndex *index = state->index;
    state->kept_way = ARENA_ARRAY(arena, int, index->slot_count * state->weeks);
    state->kept_edges =
        ARENA_ARRAY(arena, StateEdge, p->bed_count * STATE_EDGES);
    state->kept_price = ARENA_ARRAY(arena, double, state->weeks);
    for (int t = 0; t < state->weeks; t++) {
        state->kept_price[t] = plan_change_price(p, t);
    }
    for (int i = 0; i < solution->placement_count; i++) {
        const PlanPlacement *placed = &solution->placements[i];
        const PlanOption *option = &p->options[placed->option];
        if (option->is_standing || option->set_week < 0) {
            continue;
        }
        if (!option->is_edge) {
            int slot = index->bed_slot[placed->bed] + placed->first_section;
            for (int s = slot; s < slot + placed->units; s++) {
                state->kept_way[s * state->weeks + option->set_week] =
                    option->way + 1;
            }
            continue;
        }
        StateEdge *edges = state->kept_edges + placed->bed * STATE_EDGES;
        int at = 0;
        while (at + 1 < STATE_EDGES && edges[at].plants > 0) {
            at++;
        }
        edges[at] = (StateEdge){placed->option, placed->units};
    }
}

double state_keep_floor(const State *state, int slot, int option)
{
    if (!state->kept_way) {
        return 0.0;
    }
    int week = state->index->options[option].set;
    const PlanOption *o = &state->problem->options[option];
    return !o->is_standing &&
                   state->kept_way[slot * state->weeks + week] == o->way + 1
               ? state->kept_price[week]
               : 0.0;
}

double state_keep_edge(const State *state, int bed, int option, int plants)
{
    if (!state->kept_way) {
        return 0.0;
    }
    const StateEdge *edges = state->kept_edges + bed * STATE_EDGES;
    for (int i = 0; i < STATE_EDGES && edges[i].plants > 0; i++) {
        if (edges[i].option == option) {
            double share = (double)plants / edges[i].plants;
            return state->kept_price[state->index->options[option].set] *
                   (share < 1.0 ? share : 1.0);
        }
    }
    return 0.0;
}

double state_kept_worth(const State *state)
{
    double worth = 0.0;
    for (int s = 0; state->kept_way && s < state->index->slot_count; s++) {
        const int *held = state->holder + s * state->weeks;
        for (int t = 0; t < state->weeks; t++) {
            int option = held[t] - 1;
            if (held[t] > 0 && state->index->options[option].set == t) {
                worth += state_keep_floor(state, s, option);
            }
        }
    }
    for (int b = 0; state->kept_way && b < state->problem->bed_count; b++) {
        for (int i = 0; i < state->edge_count[b]; i++) {
            const StateEdge *edge = &state->edges[b * STATE_EDGES + i];
            worth += state_keep_edge(state, b, edge->option, edge->plants);
        }
    }
    return worth;
}
