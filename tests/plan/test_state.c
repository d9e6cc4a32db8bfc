/* A plan under search: what is kept up move by move is what a fresh sum gives,
 * and undoing leaves no trace. */
#include "plan/search_parts.h"

#include "check.h"
#include "plan/evaluate.h"
#include "plan/generate.h"

enum { MOVES = 12000 };

static const SearchMove MOVES_OF[] = {search_fill,  search_insert, search_shift,
                                      search_drop,  search_cross,  search_edge,
                                      search_clean, search_store,  search_fish};

static bool draw(Search *search, int number)
{
    size_t count = sizeof MOVES_OF / sizeof MOVES_OF[0];
    return MOVES_OF[(size_t)number % count](search);
}

static Search *open_search(Arena *arena, Problem *problem, uint64_t seed)
{
    GenerateCase farm = generate_case(9, seed);
    farm.seedlings = 3;
    generate_problem(arena, &farm, problem);
    SearchSetup setup = {.seed = seed, .moves = MOVES};
    return search_open(arena, problem, &setup);
}

static void the_value_kept_up_is_that_of_a_fresh_sum(void **test)
{
    (void)test;
    Arena arena = {0};
    Problem problem;
    Search *search = open_search(&arena, &problem, 11);
    State *state = &search->state;
    for (int i = 0; i < MOVES; i++) {
        if (!draw(search, i)) {
            state_undo(state);
            continue;
        }
        double value = state_settle(state);
        if (value >= state->before.value - 3.0 || i % 7 == 0) {
            state_commit(state);
        } else {
            state_undo(state);
        }
        if (i % 1000 == 999) {
            double kept = state->now.value;
            state_rebuild(state);
            assert_near(kept, state->now.value, 1e-7 * (1.0 + fabs(kept)));
        }
    }
    arena_release(&arena);
}

static void undoing_leaves_no_trace(void **test)
{
    (void)test;
    Arena arena = {0};
    Problem problem;
    Search *search = open_search(&arena, &problem, 12);
    State *state = &search->state;
    while (search_step(search)) {
    }
    size_t cells = (size_t)search->index.rows.count * (size_t)state->weeks;
    size_t slots = (size_t)search->index.slot_count * (size_t)state->weeks;
    double *rows = arena_alloc(&arena, cells, sizeof *rows);
    int *holder = arena_alloc(&arena, slots, sizeof *holder);
    for (int i = 0; i < 3000; i++) {
        memcpy(rows, state->cells, cells * sizeof *rows);
        memcpy(holder, state->holder, slots * sizeof *holder);
        double value = state->now.value;
        bool is_cross = MOVES_OF[(size_t)i % 9] == search_cross;
        if (!is_cross && draw(search, i)) {
            state_settle_above(state, value);
        }
        state_undo(state);
        assert_memory_equal(rows, state->cells, cells * sizeof *rows);
        assert_memory_equal(holder, state->holder, slots * sizeof *holder);
        assert_near(value, state->now.value, 0.0);
    }
    arena_release(&arena);
}

/* Without stores the search's own sales are exact. */
static void the_value_by_parts_is_the_exact_one(void **test)
{
    (void)test;
    for (uint64_t seed = 1; seed <= 4; seed++) {
        Arena arena = {0};
        GenerateCase farm = generate_case(8, seed);
        farm.seedlings = 2;
        Problem problem;
        generate_problem(&arena, &farm, &problem);
        problem.store_room_kg = 0.0;
        SearchSetup setup = {.seed = seed, .moves = 20000};
        Search *search = search_open(&arena, &problem, &setup);
        while (search_step(search)) {
        }
        PlanSolution plan;
        double faults = 0.0;
        double value = search_take(search, &arena, &plan, &faults);
        PlanOutcome outcome;
        assert_ok(plan_evaluate(&problem, &plan, &arena, &outcome));
        assert_near(value, outcome.value, 1e-6 * (1.0 + fabs(outcome.value)));
        arena_release(&arena);
    }
}

static void heads_of_lanes_add_up_to_the_stock(void **test)
{
    (void)test;
    for (int count = 0; count < 300; count += 7) {
        int sum = 0;
        for (int b = 0; b < PLAN_LANES; b++) {
            sum += state_lane_heads(count, b);
        }
        assert_int_equal(sum, count);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_value_kept_up_is_that_of_a_fresh_sum),
        cmocka_unit_test(undoing_leaves_no_trace),
        cmocka_unit_test(the_value_by_parts_is_the_exact_one),
        cmocka_unit_test(heads_of_lanes_add_up_to_the_stock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
