/* The accepted plan's moves of fish, for the fish as they stand. */
#include "journal/lanes.h"

#include <math.h>
#include <string.h>

#include "nature/fish/slices.h"

/* As many as a plan draws. */
enum { LANES = 4 };

/* Fish of one lane that go the same way: a run of the plan, or those that stay.
 */
typedef struct Group {
    int32_t lane; /* row of the opening's plan_fish */
    int32_t run;  /* or -1: no move */
    int32_t tank; /* where they are now; -1: gone, or not stocked yet */
    double heads; /* of the lane at its start */
} Group;

typedef struct Lanes {
    const Farm *opening;
    JournalState *state;
    Arena *arena;
    Group *groups;
    int32_t group_count;
    PlanFish *fish;
    int32_t fish_count;
    PlanMove *moves;
    int32_t move_count;
    int32_t move_room;
    int32_t last_run; /* the highest number given to a run */
} Lanes;

static void add_move(Lanes *lanes, const PlanMove *move)
{
    if (lanes->move_count == lanes->move_room) {
        int32_t room = 2 * lanes->move_room + 64;
        lanes->moves =
            arena_grow(lanes->arena, lanes->moves, (size_t)lanes->move_room,
                       (size_t)room, sizeof *lanes->moves);
        lanes->move_room = room;
    }
    lanes->moves[lanes->move_count++] = *move;
}

/* ---- Where the plan's fish are --------------------------------------------
 */

static Group *group_of(Lanes *lanes, const PlanMove *move)
{
    for (int32_t i = 0; i < lanes->group_count; i++) {
        if (lanes->groups[i].run == move->run &&
            lanes->groups[i].lane == move->fish) {
            return &lanes->groups[i];
        }
    }
    Group *group = &lanes->groups[lanes->group_count++];
    *group = (Group){.lane = move->fish,
                     .run = move->run,
                     .tank = move->from_tank,
                     .heads = move->started};
    return group;
}

static int32_t home_of(const Farm *farm, const PlanFish *lane)
{
    return lane->standing >= 0 && lane->standing < farm->fish_count
               ? farm->fish[lane->standing].tank
               : -1;
}

/* Follows the moves that are over; then those of each lane that no run has. */
static void find_groups(Lanes *lanes)
{
    const Farm *farm = lanes->opening;
    double *in_runs = ARENA_ARRAY(lanes->arena, double, farm->plan_fish_count);
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        int32_t before = lanes->group_count;
        lanes->last_run =
            move->run > lanes->last_run ? move->run : lanes->last_run;
        Group *group = group_of(lanes, move);
        if (lanes->group_count > before) {
            in_runs[move->fish] += move->started;
        }
        if (lanes->state->is_move_over[i]) {
            group->tank = move->to_tank;
        }
    }
    for (int32_t i = 0; i < farm->plan_fish_count; i++) {
        const PlanFish *lane = &farm->plan_fish[i];
        int32_t home = home_of(farm, lane);
        if (home >= 0 && lane->count > in_runs[i]) {
            lanes->groups[lanes->group_count++] =
                (Group){i, -1, home, lane->count - in_runs[i]};
        }
    }
}

/* ---- Lanes anew -----------------------------------------------------------
 */

static bool is_of_row(const Lanes *lanes, const Group *group, const Fish *row)
{
    const char *batch = lanes->opening->plan_fish[group->lane].batch;
    size_t length = strlen(batch);
    const char *tank = lanes->state->farm.tanks[row->tank].id;
    bool is_batch =
        strncmp(row->id, batch, length) == 0 &&
        (row->id[length] == '\0' ||
         (row->id[length] == '-' && strcmp(row->id + length + 1, tank) == 0));
    return group->tank == row->tank && is_batch;
}

static int32_t order_of(const Lanes *lanes, const Fish *row, int32_t *order)
{
    const Farm *farm = lanes->opening;
    int32_t count = 0;
    for (int32_t i = 0; i < lanes->group_count; i++) {
        if (!is_of_row(lanes, &lanes->groups[i], row) ||
            lanes->groups[i].heads <= 0.0) {
            continue;
        }
        int32_t lane = farm->plan_fish[lanes->groups[i].lane].lane;
        int32_t at = count++;
        for (; at > 0 &&
               farm->plan_fish[lanes->groups[order[at - 1]].lane].lane > lane;
             at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    return count;
}

/* The moves still to come of a group, for count fish of a new lane. */
static void copy_moves(Lanes *lanes, const Group *group, int32_t new_lane,
                       int32_t count)
{
    const Farm *farm = &lanes->state->farm;
    lanes->last_run++;
    for (int32_t i = 0; i < farm->plan_moves_count && group->run >= 0; i++) {
        const PlanMove *move = &farm->plan_moves[i];
        if (move->run != group->run || move->fish != group->lane ||
            lanes->state->is_move_over[i]) {
            continue;
        }
        PlanMove copy = *move;
        double alive =
            move->started > 0 ? (double)move->count / move->started : 1.0;
        copy.id =
            arena_text(lanes->arena, "%s-%d", move->id, (int)lanes->last_run);
        copy.fish = new_lane;
        copy.run = lanes->last_run;
        copy.started = count;
        copy.count = (int32_t)lround(count * alive);
        add_move(lanes, &copy);
    }
}

/* The row's fish as the plan's groups divide them, lightest first. */
typedef struct Cuts {
    const int32_t *order; /* groups by lane */
    int32_t count;
    double scale; /* fish of the row a fish of the groups */
} Cuts;

/* One lane: the row's fish from first to last by weight; each group has those
 * that fall in its span, in whole fish, so that all spans add up. */
static void share_lane(Lanes *lanes, const Cuts *cuts, int32_t lane,
                       double first, double last)
{
    double from = 0.0;
    for (int32_t i = 0; i < cuts->count; i++) {
        const Group *group = &lanes->groups[cuts->order[i]];
        double until = from + group->heads * cuts->scale;
        double low = round(from > first ? from : first);
        double high = round(until < last ? until : last);
        if (high > low) {
            copy_moves(lanes, group, lane, (int32_t)(high - low));
        }
        from = until;
    }
}

/* What a lane of a row holds. */
static PlanFish lane_of(const Lanes *lanes, int32_t index,
                        const FishSlices *slices, const int *lane_of_slice,
                        int number)
{
    const Fish *row = &lanes->state->farm.fish[index];
    double heads = 0.0;
    double grams = 0.0;
    for (int k = 0; k < FISH_SLICES; k++) {
        if (lane_of_slice[k] == number) {
            heads += slices->at[k].count;
            grams += slices->at[k].count * slices->at[k].weight_g;
        }
    }
    return (PlanFish){
        .id = arena_text(lanes->arena, "%s-lane-%d", row->id, number + 1),
        .batch = row->id,
        .standing = index,
        .source = -1,
        .lane = number + 1,
        .count = (int32_t)lround(heads),
        .mean_g = heads > 0.0 ? grams / heads : row->mean_g};
}

/* The lanes of a row anew: its fish go where the plan's fish that their place
 * by weight falls among would go. */
static void lanes_of_row(Lanes *lanes, int32_t index)
{
    const Fish *row = &lanes->state->farm.fish[index];
    int32_t *order = ARENA_ARRAY(lanes->arena, int32_t, lanes->group_count);
    int32_t count = order_of(lanes, row, order);
    if (count == 0 || row->count < 1) {
        return;
    }
    double all = 0.0;
    for (int32_t i = 0; i < count; i++) {
        all += lanes->groups[order[i]].heads;
    }
    Cuts cuts = {order, count, row->count / all};
    FishDraw draw = {row->count, row->mean_g, row->cv_frac, FISH_SEX_MALES};
    FishSlices slices = fish_slices_draw(&draw);
    int lane_of_slice[FISH_SLICES];
    fish_slices_lanes(&slices, LANES, lane_of_slice);
    double before = 0.0;
    for (int k = 0; k < LANES; k++) {
        int32_t lane = lanes->fish_count++;
        lanes->fish[lane] = lane_of(lanes, index, &slices, lane_of_slice, k);
        double heads = lanes->fish[lane].count;
        share_lane(lanes, &cuts, lane, before, before + heads);
        before += heads;
    }
}

/* A batch that is not stocked yet keeps its lanes and moves. */
static void keep_unstocked(Lanes *lanes)
{
    const Farm *farm = &lanes->state->farm;
    for (int32_t i = 0; i < lanes->opening->plan_fish_count; i++) {
        int32_t lane = -1;
        for (int32_t m = 0; m < farm->plan_moves_count; m++) {
            const PlanMove *move = &farm->plan_moves[m];
            bool is_to_come = move->fish == i && !lanes->state->is_move_over[m];
            if (!is_to_come || lanes->opening->plan_fish[i].standing >= 0) {
                continue;
            }
            if (lane < 0 && move->kind != MOVE_STOCK) {
                break; /* stocked: told by its row of fish */
            }
            if (lane < 0) {
                lane = lanes->fish_count++;
                lanes->fish[lane] = lanes->opening->plan_fish[i];
            }
            PlanMove copy = *move;
            copy.fish = lane;
            add_move(lanes, &copy);
        }
    }
}

void lanes_follow(const Farm *opening, Arena *arena, JournalState *state)
{
    Farm *farm = &state->farm;
    int32_t most_groups = opening->plan_moves_count + opening->plan_fish_count;
    size_t most_fish = (size_t)farm->fish_count * LANES + (size_t)most_groups;
    Lanes lanes = {
        .opening = opening,
        .state = state,
        .arena = arena,
        .groups = ARENA_ARRAY(arena, Group, most_groups),
        .fish = ARENA_ARRAY(arena, PlanFish, most_fish),
        .moves =
            ARENA_ARRAY(arena, PlanMove,
                        (size_t)opening->plan_moves_count * (FISH_SLICES + 1)),
    };
    find_groups(&lanes);
    for (int32_t i = 0; i < farm->fish_count; i++) {
        lanes_of_row(&lanes, i);
    }
    keep_unstocked(&lanes);
    farm->plan_fish = lanes.fish;
    farm->plan_fish_count = lanes.fish_count;
    farm->plan_moves = lanes.moves;
    farm->plan_moves_count = lanes.move_count;
}
