/* What was told, folded onto the tables: the plan's steps come from entries,
 * counts and kilos of fish balance, and what does not is a doubt. */
#include "journal/state.h"

#include <stdlib.h>

#include "base/rng.h"
#include "check.h"
#include "journal/checkpoint.h"
#include "journal/lanes.h"
#include "told_farm.h"

typedef struct Bench {
    ToldFarm farm;
    Arena arena;
    Told told[400];
    Tolds tolds;
} Bench;

static Bench *bench_make(void)
{
    Bench *bench = calloc(1, sizeof *bench);
    told_farm_make(&bench->farm);
    bench->tolds.items = bench->told;
    return bench;
}

static void bench_free(Bench *bench)
{
    arena_release(&bench->arena);
    free(bench);
}

static Told *tell(Bench *bench, ToldKind kind, int32_t day, const char *place)
{
    Told *told = &bench->told[bench->tolds.count++];
    *told = told_blank(kind, day);
    told->number = bench->tolds.count;
    told->place = place;
    return told;
}

static JournalState state_on(Bench *bench, int32_t day)
{
    JournalAsk ask = {
        .opening = &bench->farm.farm, .tolds = &bench->tolds, .day = day};
    JournalState state;
    assert_ok(journal_state(&ask, &bench->arena, &state));
    return state;
}

static const Plant *plant_of(const JournalState *state, const char *id)
{
    for (int32_t i = 0; i < state->farm.plants_count; i++) {
        if (strcmp(state->farm.plants[i].id, id) == 0) {
            return &state->farm.plants[i];
        }
    }
    return NULL;
}

static const PlanPlant *row_of(const JournalState *state, const char *id)
{
    for (int32_t i = 0; i < state->farm.plan_plants_count; i++) {
        if (strcmp(state->farm.plan_plants[i].id, id) == 0) {
            return &state->farm.plan_plants[i];
        }
    }
    return NULL;
}

static int32_t fish_in(const JournalState *state, int32_t tank)
{
    int32_t count = 0;
    for (int32_t i = 0; i < state->farm.fish_count; i++) {
        count +=
            state->farm.fish[i].tank == tank ? state->farm.fish[i].count : 0;
    }
    return count;
}

static void assert_balanced(const JournalState *state)
{
    const FishAccount *a = &state->fish;
    assert_int_equal(a->standing, a->opened + a->stocked + a->found - a->died -
                                      a->sold - a->lost);
    double all_g = a->opened_g + a->stocked_g + a->found_g + a->growth_g;
    assert_near(a->standing_g + a->died_g + a->sold_g + a->lost_g, all_g,
                1e-9 * (all_g + a->sold_g) + 1e-6);
}

/* ---- Plants ---------------------------------------------------------------
 */

static void a_batch_set_a_week_late_is_picked_and_cleared_late(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *set = tell(bench, TOLD_SET, START + 30, "S2");
    set->batch = "second";
    set->sections = 2;
    set->count = 30;
    JournalState on = state_on(bench, START + 37);
    const Plant *plant = plant_of(&on, "second");
    assert_non_null(plant);
    assert_int_equal(plant->bed, 1);
    assert_int_equal(plant->set_on, START + 30);
    const PlanPlant *row = row_of(&on, "second");
    assert_int_equal(row->set_on, START + 30);
    assert_int_equal(row->pick_from, START + 56 + 7);
    assert_int_equal(row->clear_on, START + 70 + 7);
    assert_int_equal(row->plants, 30);
    assert_int_equal(on.farm.plants[row->standing].sections, 2);
    bench_free(bench);
}

static void steps_that_nobody_told_of_are_done_and_to_settle(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    JournalState on = state_on(bench, START + 15);
    assert_true(on.is_assumed);
    assert_null(plant_of(&on, "lettuce-1"));
    assert_non_null(plant_of(&on, "third"));
    assert_int_equal(on.unsettled_count, 3);        /* sown, set, cleared */
    assert_int_equal(on.farm.plan_cleans_count, 1); /* of this week: to come */
    bench_free(bench);
}

static void what_was_told_as_undone_is_due_now(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    tell(bench, TOLD_UNDONE, START + 9, "S2")->batch = "third";
    JournalState on = state_on(bench, START + 15);
    assert_null(plant_of(&on, "third"));
    assert_int_equal(row_of(&on, "third")->set_on, START + 14);
    assert_int_equal(row_of(&on, "third")->clear_on, START + 70);
    Told *sown = tell(bench, TOLD_SOWN, START + 16, "S2");
    sown->way = "rocket";
    on = state_on(bench, START + 17);
    assert_int_equal(plant_of(&on, "third")->set_on, START + 16);
    bench_free(bench);
}

static void a_poor_tray_gives_fewer_plants_to_the_rows_it_is_for(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *sown = tell(bench, TOLD_SOWN, START + 1, "");
    sown->way = "lettuce";
    sown->quantity = 1.0;
    sown->unit = "tray";
    Told *emerged = tell(bench, TOLD_EMERGED, START + 9, "");
    emerged->batch = "lettuce";
    emerged->count = 16;
    JournalState on = state_on(bench, START + 10);
    assert_int_equal(on.doubt_count, 0);
    assert_int_equal(row_of(&on, "second")->plants, 16);
    assert_int_equal(row_of(&on, "second")->sections, 1);
    assert_int_equal(row_of(&on, "second")->sow_on, START + 1);
    bench_free(bench);
}

static void what_is_cleared_but_does_not_stand_is_a_doubt(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    tell(bench, TOLD_CLEARED, START + 2, "")->batch = "lettuce-1";
    tell(bench, TOLD_CLEARED, START + 3, "S1");
    JournalState on = state_on(bench, START + 4);
    assert_null(plant_of(&on, "lettuce-1"));
    assert_null(row_of(&on, "lettuce-1"));
    assert_int_equal(on.doubt_count, 1);
    assert_int_equal(on.doubts[0].number, 2);
    bench_free(bench);
}

static void a_batch_that_nothing_planned_stands_where_it_was_set(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    tell(bench, TOLD_CLEARED, START + 2, "S2");
    Told *set = tell(bench, TOLD_SET, START + 3, "S2");
    set->way = "lettuce";
    set->section = 2;
    JournalState on = state_on(bench, START + 4);
    const Plant *plant = plant_of(&on, "s2-2027-03-04");
    assert_non_null(plant);
    assert_int_equal(plant->sections, 1);
    bench_free(bench);
}

static void a_clean_bed_is_clean_and_no_longer_planned(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    tell(bench, TOLD_CLEANED, START + 11, "S1");
    JournalState on = state_on(bench, START + 11);
    assert_int_equal(on.farm.beds[0].cleaned_on, START + 11);
    assert_int_equal(on.farm.plan_cleans_count, 0);
    bench_free(bench);
}

/* ---- Fish -----------------------------------------------------------------
 */

static void a_cut_takes_the_heaviest_and_both_kilos_add_up(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *graded = tell(bench, TOLD_GRADED, START + 27, "A");
    graded->to_place = "B";
    graded->count = 90;
    JournalState on = state_on(bench, START + 30);
    assert_int_equal(fish_in(&on, 0), 310);
    assert_int_equal(fish_in(&on, 1), 90);
    assert_true(on.farm.fish[2].mean_g > 1.25 * 251.25);
    assert_true(on.farm.fish[0].mean_g < 251.25);
    assert_string_equal(on.farm.fish[2].id, "june-B");
    assert_true(on.is_move_over[0]); /* the planned grading is this one */
    assert_false(on.is_move_over[1]);
    assert_balanced(&on);
    bench_free(bench);
}

static void more_fish_than_stand_there_is_a_doubt_and_takes_all(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *sold = tell(bench, TOLD_SOLD, START + 3, "C");
    sold->count = 25;
    JournalState on = state_on(bench, START + 4);
    assert_int_equal(fish_in(&on, 2), 0);
    assert_int_equal(on.fish.sold, 21);
    assert_int_equal(on.fish.missing, 4);
    assert_int_equal(on.doubt_count, 1);
    assert_non_null(strstr(on.doubts[0].text, "only 21"));
    assert_balanced(&on);
    bench_free(bench);
}

static void a_sample_weighs_the_batch_anew(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *sampled = tell(bench, TOLD_SAMPLED, START + 20, "A");
    sampled->count = 30;
    sampled->grams = 30 * 305.5;
    sampled->quantity = 396.0;
    JournalState on = state_on(bench, START + 20);
    assert_near(on.farm.fish[0].mean_g, 305.5, 1e-9);
    assert_int_equal(on.farm.fish[0].counted_on, START + 20);
    assert_int_equal(on.fish.lost, 4);
    assert_int_equal(on.doubt_count, 1); /* four fish are unaccounted for */
    assert_balanced(&on);
    bench_free(bench);
}

static void weights_that_leave_nothing_to_the_others_are_a_doubt(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *sold = tell(bench, TOLD_SOLD, START + 3, "A");
    sold->count = 300;
    sold->mean_g = 600.0;
    JournalState on = state_on(bench, START + 4);
    assert_int_equal(on.doubt_count, 1);
    assert_true(on.farm.fish[0].mean_g > 100.0);
    assert_balanced(&on);
    bench_free(bench);
}

static double half_more(void *self, const Fish *row, int32_t day)
{
    (void)self;
    return 1.0 + 0.01 * (day - row->counted_on);
}

static void told_weights_are_of_the_day_told(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *sold = tell(bench, TOLD_SOLD, START + 20, "A");
    sold->count = 100;
    sold->mean_g = 251.25 * 1.2; /* the mean, twenty days on */
    JournalAsk ask = {.opening = &bench->farm.farm,
                      .tolds = &bench->tolds,
                      .day = START + 20,
                      .grow = {half_more, NULL}};
    JournalState on;
    assert_ok(journal_state(&ask, &bench->arena, &on));
    assert_near(on.farm.fish[0].mean_g, 251.25, 1e-9);
    assert_near(on.fish.sold_g, 100 * 251.25, 1e-6);
    bench_free(bench);
}

static void struck_entries_change_nothing(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    Told *died = tell(bench, TOLD_DIED, START + 1, "A");
    died->count = 50;
    died->struck_by = 2;
    JournalState on = state_on(bench, START + 4);
    assert_int_equal(fish_in(&on, 0), 400);
    bench_free(bench);
}

static void entries_in_the_tables_already_are_not_told_again(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    tell(bench, TOLD_DIED, START, "A")->count = 3;
    Told *counted = tell(bench, TOLD_COUNTED, START, "");
    counted->text = journal_standing_mark(&bench->farm.farm, &bench->arena);
    tell(bench, TOLD_DIED, START - 2, "A")->count = 5; /* told late */
    JournalState on = state_on(bench, START + 1);
    assert_int_equal(on.fish.died, 5);
    bench_free(bench);
}

/* ---- Properties -----------------------------------------------------------
 */

static void tell_at_random(Bench *bench, Rng *rng, int count, int days)
{
    static const char *const TANKS[] = {"A", "B", "C"};
    static const char *const BEDS[] = {"S1", "S2"};
    static const ToldKind KINDS[] = {
        TOLD_STOCKED, TOLD_MOVED,   TOLD_GRADED, TOLD_SAMPLED, TOLD_DIED,
        TOLD_DIED,    TOLD_SOLD,    TOLD_SOLD,   TOLD_PURGED,  TOLD_SET,
        TOLD_CLEARED, TOLD_CLEANED, TOLD_SOWN,   TOLD_UNDONE};
    int32_t day = START;
    for (int i = 0; i < count; i++) {
        ToldKind kind = KINDS[rng_below(rng, sizeof KINDS / sizeof *KINDS)];
        day = START + (int32_t)((int64_t)days * i / count);
        uint32_t from = rng_below(rng, 3);
        bool is_plant = kind == TOLD_SET || kind == TOLD_CLEARED ||
                        kind == TOLD_CLEANED || kind == TOLD_UNDONE;
        Told *told = tell(bench, kind, day,
                          is_plant            ? BEDS[rng_below(rng, 2)]
                          : kind == TOLD_SOWN ? ""
                                              : TANKS[from]);
        told->way = kind == TOLD_SET    ? "rocket"
                    : kind == TOLD_SOWN ? "lettuce"
                                        : "";
        if (!is_plant && kind != TOLD_SOWN) {
            told->count = (int64_t)rng_below(rng, 120);
            told->to_place =
                kind == TOLD_MOVED || kind == TOLD_GRADED || kind == TOLD_PURGED
                    ? TANKS[(from + 1) % 3]
                    : "";
            if (rng_below(rng, 3) == 0) {
                told->mean_g = 20.0 + 600.0 * rng_f64(rng);
            }
            if (kind == TOLD_SAMPLED && rng_below(rng, 2) == 0) {
                told->quantity = rng_below(rng, 500);
            }
        }
    }
}

static void counts_and_kilos_balance_whatever_is_told(void **state)
{
    (void)state;
    for (uint64_t seed = 0; seed < 400; seed++) {
        Bench *bench = bench_make();
        Rng rng = rng_make(seed, 11);
        tell_at_random(bench, &rng, 5 + (int)rng_below(&rng, 120), 180);
        JournalState on = state_on(bench, START + 180);
        assert_balanced(&on);
        for (int32_t i = 0; i < on.farm.fish_count; i++) {
            assert_true(on.farm.fish[i].count > 0);
            assert_true(on.farm.fish[i].mean_g > 0.0);
            assert_true(on.farm.fish[i].cv_frac >= 0.0);
        }
        lanes_follow(&bench->farm.farm, &bench->arena, &on);
        for (int32_t i = 0; i < on.farm.plan_moves_count; i++) {
            const PlanMove *move = &on.farm.plan_moves[i];
            assert_in_range(move->fish, 0, on.farm.plan_fish_count - 1);
            assert_true(move->started <=
                        on.farm.plan_fish[move->fish].count + 1);
        }
        bench_free(bench);
    }
}

static void assert_same(const JournalState *a, const JournalState *b)
{
    assert_int_equal(a->farm.fish_count, b->farm.fish_count);
    for (int32_t i = 0; i < a->farm.fish_count; i++) {
        assert_string_equal(a->farm.fish[i].id, b->farm.fish[i].id);
        assert_int_equal(a->farm.fish[i].count, b->farm.fish[i].count);
        assert_near(a->farm.fish[i].mean_g, b->farm.fish[i].mean_g, 0.0);
        assert_near(a->farm.fish[i].cv_frac, b->farm.fish[i].cv_frac, 0.0);
    }
    assert_int_equal(a->farm.plants_count, b->farm.plants_count);
    for (int32_t i = 0; i < a->farm.plants_count; i++) {
        assert_string_equal(a->farm.plants[i].id, b->farm.plants[i].id);
        assert_int_equal(a->farm.plants[i].set_on, b->farm.plants[i].set_on);
        assert_int_equal(a->farm.plants[i].plants, b->farm.plants[i].plants);
    }
    for (int32_t i = 0; i < a->farm.beds_count; i++) {
        assert_int_equal(a->farm.beds[i].cleaned_on,
                         b->farm.beds[i].cleaned_on);
    }
    assert_int_equal(a->farm.plan_plants_count, b->farm.plan_plants_count);
    assert_int_equal(a->farm.plan_cleans_count, b->farm.plan_cleans_count);
    assert_int_equal(a->unsettled_count, b->unsettled_count);
    assert_int_equal(a->doubt_count, b->doubt_count);
    assert_memory_equal(&a->fish, &b->fish, sizeof a->fish);
}

/* A checkpoint, written and read again, leads to the very same state. */
static void a_checkpoint_leads_to_the_same_state(void **state)
{
    (void)state;
    int used = 0;
    for (uint64_t seed = 0; seed < 300; seed++) {
        Bench *bench = bench_make();
        Rng rng = rng_make(seed, 12);
        tell_at_random(bench, &rng, 5 + (int)rng_below(&rng, 120), 180);
        int32_t day = START + 60 + (int32_t)rng_below(&rng, 120);
        JournalState whole = state_on(bench, day);
        JournalAsk ask = {.opening = &bench->farm.farm,
                          .tolds = &bench->tolds,
                          .day = day - CHECKPOINT_AHEAD_D -
                                 (int32_t)rng_below(&rng, 20)};
        JournalPoint point;
        assert_ok(journal_point(&ask, &bench->arena, &point));
        size_t length = 0;
        const char *bytes = checkpoint_write(&point, 2, &bench->arena, &length);
        JournalPoint again;
        assert_ok(checkpoint_read(bytes, length, &bench->farm.farm,
                                  &bench->arena, &again));
        ask.day = day;
        ask.point = &again;
        JournalState on;
        Err err = journal_state(&ask, &bench->arena, &on);
        if (err.kind == ERR_OK) {
            assert_same(&on, &whole);
            used++;
        } else {
            assert_int_equal(err.kind, ERR_CONFLICT);
        }
        bench_free(bench);
    }
    assert_true(used > 200);
}

static void bytes_that_are_no_checkpoint_are_refused(void **state)
{
    (void)state;
    Bench *bench = bench_make();
    JournalPoint point;
    static const char *const BAD[] = {
        "",
        "leat-state\t1\t20000\t99\n",
        "leat-state\t1\t20000\t8",
        "leat-state\t1\t20000\t8\nplant\tx\t9\t0\n",
        "leat-state\t1\t20000\t8\nfish\tx\ty\t7\t1\t1\t0x1p+3\t0x0p+0\t0\t0\n",
        "leat-state\t1\t20000\t8\nstep\t77\tt\t1\n"};
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++) {
        assert_err(checkpoint_read(BAD[i], strlen(BAD[i]), &bench->farm.farm,
                                   &bench->arena, &point),
                   ERR_INPUT, "checkpoint");
    }
    bench_free(bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_batch_set_a_week_late_is_picked_and_cleared_late),
        cmocka_unit_test(steps_that_nobody_told_of_are_done_and_to_settle),
        cmocka_unit_test(what_was_told_as_undone_is_due_now),
        cmocka_unit_test(a_poor_tray_gives_fewer_plants_to_the_rows_it_is_for),
        cmocka_unit_test(what_is_cleared_but_does_not_stand_is_a_doubt),
        cmocka_unit_test(a_batch_that_nothing_planned_stands_where_it_was_set),
        cmocka_unit_test(a_clean_bed_is_clean_and_no_longer_planned),
        cmocka_unit_test(a_cut_takes_the_heaviest_and_both_kilos_add_up),
        cmocka_unit_test(more_fish_than_stand_there_is_a_doubt_and_takes_all),
        cmocka_unit_test(a_sample_weighs_the_batch_anew),
        cmocka_unit_test(weights_that_leave_nothing_to_the_others_are_a_doubt),
        cmocka_unit_test(told_weights_are_of_the_day_told),
        cmocka_unit_test(struck_entries_change_nothing),
        cmocka_unit_test(entries_in_the_tables_already_are_not_told_again),
        cmocka_unit_test(counts_and_kilos_balance_whatever_is_told),
        cmocka_unit_test(a_checkpoint_leads_to_the_same_state),
        cmocka_unit_test(bytes_that_are_no_checkpoint_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
