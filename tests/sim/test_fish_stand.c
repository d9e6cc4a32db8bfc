/* All fish of a farm: tanks, loops, and the plan's moves followed. */
#include "pond.h"

#include "sim/fish_stand.h"

enum { WEEKS = 40 };

static FishStand stand_of(Arena *arena, const Farm *farm)
{
    Book *book = ARENA_NEW(arena, Book);
    assert_ok(book_load(arena, book));
    FishStandCase is = {
        .farm = farm,
        .book = book,
        .first_week = pond_day(2027, 3, 1),
        .weeks = WEEKS,
        .tank_degc = pond_water(arena, farm),
        .sale_g = 450.0,
    };
    FishStand out;
    assert_ok(fish_stand_run(arena, &is, &out));
    return out;
}

static const FishStandBatch *find(const FishStand *stand, const char *id)
{
    for (int i = 0; i < stand->batch_count; i++) {
        if (strcmp(stand->batches[i].id, id) == 0) {
            return &stand->batches[i];
        }
    }
    fail_msg("no batch %s", id);
    return NULL;
}

/* Batches and tanks hold the same fish, whatever moves. */
static void tanks_and_batches_balance_in_every_week(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    for (int has_plan = 0; has_plan < 2; has_plan++) {
        const Farm *farm = pond(&arena, has_plan);
        FishStand stand = stand_of(&arena, farm);
        assert_int_equal(stand.batch_count, 3 + has_plan);
        for (int w = 0; w < WEEKS; w++) {
            double count = 0.0;
            double kg = 0.0;
            for (int i = 0; i < stand.batch_count; i++) {
                count += stand.batches[i].count[w];
                kg += stand.batches[i].kg[w];
            }
            double feed_kg = 0.0;
            for (int k = 0; k < farm->tanks_count; k++) {
                count -= stand.tanks[k].count[w];
                kg -= stand.tanks[k].kg[w];
                feed_kg += stand.tanks[k].feed_kg[w];
            }
            assert_near(count, 0.0, 1e-9);
            assert_near(kg, 0.0, 1e-9);
            assert_near(stand.loops[0].feed_kg[w] + stand.loops[1].feed_kg[w],
                        feed_kg, 1e-9);
        }
    }
}

static void sold_fish_leave_and_the_mean_of_those_left_falls(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    FishStand kept = stand_of(&arena, pond(&arena, false));
    FishStand planned = stand_of(&arena, pond(&arena, true));
    const FishStandBatch *old = find(&planned, "old");
    const FishStandBatch *all = find(&kept, "old");
    assert_near(old->kg[4], all->kg[4], 1e-9); /* to 29 March alike */
    assert_true(old->mean_g[7] < all->mean_g[7]);
    assert_near(all->count[7] - old->count[7], old->sold_count, 0.3);
    assert_near(old->sold_count, 63.0, 1.0);
    assert_true(old->sold_kg > 63.0 * 0.37 && old->sold_kg < 63.0 * 0.5);
    /* The growth of the whole batch is told apart from what is left. */
    assert_near(old->all.value_g[7], all->mean_g[7], 1e-9);
    assert_true(planned.loops[0].feed_kg[7] < kept.loops[0].feed_kg[7]);
}

static void a_grading_moves_its_lane_to_the_other_tank(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    FishStand planned = stand_of(&arena, pond(&arena, true));
    const FishStandTank *a = &planned.tanks[0];
    const FishStandTank *c = &planned.tanks[1];
    assert_near(a->count[3], 249.5, 0.6);
    assert_near(a->count[4], 249.5 - 62.0, 1.0);
    assert_true(c->count[4] > c->count[3] + 60.0);
    assert_true(a->mean_g[4] > a->mean_g[3]); /* the lightest went */
    assert_near(a->kg[4] + c->kg[4],
                find(&planned, "old")->kg[4] + find(&planned, "young")->kg[4],
                1e-9);
}

static void bought_fish_come_in_their_week(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    FishStand planned = stand_of(&arena, pond(&arena, true));
    const FishStandBatch *fresh = find(&planned, "new");
    assert_int_equal(fresh->start_week, 9);
    assert_near(fresh->count[8], 0.0, 0.0);
    assert_near(fresh->count[9], 300.0, 1e-9);
    assert_near(fresh->mean_g[9], 25.0, 1e-9);
    assert_near(fresh->cv_frac[9], 0.2, 2e-3);
    assert_near(planned.tanks[0].count[9] - planned.tanks[0].count[8], 300.0,
                0.5);
}

static void dates_over_a_weight_come_with_early_and_late(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    FishStand stand = stand_of(&arena, pond(&arena, false));
    const FishStandBatch *old = find(&stand, "old");
    assert_true(old->ready_early <= old->ready_on);
    assert_true(old->ready_on <= old->ready_late);
    assert_true(old->ready_on > pond_day(2027, 3, 1) &&
                old->ready_on < pond_day(2027, 12, 1));
    int week = (old->ready_on - stand.first_week) / 7;
    assert_true(old->over_count[week] > 0.35 * old->count[week]);
    assert_true(old->over_count[week] < 0.65 * old->count[week]);
}

static void crowded_tanks_are_told_with_their_week(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    FishStand stand = stand_of(&arena, pond(&arena, false));
    const FishStandTank *b = &stand.tanks[2];
    assert_true(b->over_density_week > 0); /* 23 kg/m3 at first, ceiling 25 */
    int w = b->over_density_week;
    assert_true(b->density_kg_m3[w] > 25.0 && b->density_kg_m3[w - 1] <= 25.0);
    assert_int_equal(b->over_air_week, 0); /* a stone of 5 W */
    assert_int_equal(stand.tanks[3].over_density_week, -1);
    for (int i = 0; i < WEEKS; i++) {
        assert_true(stand.loops[0].tan_g_d[i] <
                    stand.loops[0].carries_g_d[i].high);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tanks_and_batches_balance_in_every_week),
        cmocka_unit_test(sold_fish_leave_and_the_mean_of_those_left_falls),
        cmocka_unit_test(a_grading_moves_its_lane_to_the_other_tank),
        cmocka_unit_test(bought_fish_come_in_their_week),
        cmocka_unit_test(dates_over_a_weight_come_with_early_and_late),
        cmocka_unit_test(crowded_tanks_are_told_with_their_week),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
