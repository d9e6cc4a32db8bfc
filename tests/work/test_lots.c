/* Lots: nothing is lost between pick and buyer; the oldest goes first. */
#include "small_farm.h"

#include "base/rng.h"
#include "journal/told.h"
#include "work/lots.h"

enum { FACTS_MOST = 400 };

typedef struct Case {
    SmallFarm small;
    Told items[FACTS_MOST];
    Tolds facts;
    int32_t day;
} Case;

static void open_case(Case *is)
{
    small_farm_open(&is->small, true);
    is->facts = (Tolds){is->items, 0};
    is->day = small_week(1);
}

static Told *add(Case *is, ToldKind kind, int32_t day)
{
    Told *told = &is->items[is->facts.count++];
    *told = told_blank(kind, day);
    return told;
}

static Told *pick(Case *is, int32_t day, const char *way, const char *bed,
                  double units)
{
    Told *told = add(is, TOLD_PICKED, day);
    told->way = way;
    told->place = bed;
    told->quantity = units;
    return told;
}

static Told *hand_over(Case *is, int32_t day, const char *buyer,
                       const char *product, double units)
{
    Told *told = add(is, TOLD_DELIVERED, day);
    told->buyer = buyer;
    told->product = product;
    told->quantity = units;
    return told;
}

static LotsAsk ask_of(Case *is)
{
    return (LotsAsk){is->small.farm, &is->small.book, &is->facts, is->day};
}

static Lots make(Case *is)
{
    LotsAsk ask = ask_of(is);
    Lots lots;
    lots_make(&ask, &is->small.arena, &lots);
    return lots;
}

static void the_oldest_that_keeps_goes_first_and_is_marked(void **state)
{
    (void)state;
    Case is;
    open_case(&is);
    int32_t day = small_week(0);
    pick(&is, day, "lettuce-head", "t1", 30.0);
    pick(&is, day, "lettuce-head", "t1", 5.0); /* the same lot */
    pick(&is, day + 2, "lettuce-head", "t2", 20.0);
    hand_over(&is, day + 2, "inn", "head", 41.0);
    Lots lots = make(&is);
    assert_int_equal(lots.count, 2);
    assert_string_equal(lots.lots[0].id, "lettuce-head.t1.2027-03-01");
    assert_near(lots.lots[0].picked, 35.0, 1e-12);
    assert_near(lots.lots[0].left, 0.0, 1e-12);
    assert_near(lots.lots[1].left, 14.0, 1e-12);
    assert_int_equal(lots.lots[1].to_count, 1);
    assert_string_equal(lots.lots[1].to[0].buyer, "inn");
    assert_near(lots.lots[1].to[0].units, 6.0, 1e-12);
    assert_true(lots.lots[1].to[0].is_assumed);
    assert_near(lots_left(&lots, lots.lots[1].way, false), 14.0, 1e-12);
    assert_int_equal(lots.lack_count, 0);
    small_farm_release(&is.small);
}

static void a_lot_that_is_told_is_taken_whatever_is_older(void **state)
{
    (void)state;
    Case is;
    open_case(&is);
    int32_t day = small_week(0);
    pick(&is, day, "lettuce-head", "t1", 30.0);
    pick(&is, day + 1, "lettuce-head", "t2", 20.0)->lot = "L7";
    hand_over(&is, day + 1, "inn", "head", 18.0)->lot = "L7";
    hand_over(&is, day + 1, "inn", "head", 5.0)->lot = "L7";
    Lots lots = make(&is);
    assert_string_equal(lots.lots[1].id, "L7");
    assert_near(lots.lots[1].left, 0.0, 1e-12);
    assert_false(lots.lots[1].to[0].is_assumed);
    assert_near(lots.lots[0].left, 30.0, 1e-12);
    /* 3 heads more than L7 had are told as such, not taken from another. */
    assert_int_equal(lots.lack_count, 1);
    assert_near(lots.lacks[0].units, 3.0, 1e-12);
    small_farm_release(&is.small);
}

static void what_is_past_keeping_is_told_apart_and_given_to_nobody(void **state)
{
    (void)state;
    Case is;
    open_case(&is);
    int32_t day = small_week(0);
    pick(&is, day, "rocket-cut", "t3", 4.0);
    Lots fresh = make(&is);
    int32_t keeps = fresh.lots[0].keeps_until;
    assert_true(keeps > day);
    assert_false(fresh.lots[0].is_past && is.day <= keeps);
    hand_over(&is, keeps + 1, "inn", "rocket", 1.0);
    is.day = keeps + 1;
    Lots lots = make(&is);
    assert_true(lots.lots[0].is_past);
    assert_near(lots.lots[0].left, 4.0, 1e-12);
    assert_near(lots_left(&lots, lots.lots[0].way, false), 0.0, 1e-12);
    assert_near(lots_left(&lots, lots.lots[0].way, true), 4.0, 1e-12);
    assert_int_equal(lots.lack_count, 1);
    small_farm_release(&is.small);
}

static void kilos_and_grams_become_the_ways_units(void **state)
{
    (void)state;
    Case is;
    open_case(&is);
    int32_t day = small_week(0);
    Told *told = pick(&is, day, "lettuce-head", "t1", 3.0);
    told->unit = "kg"; /* of heads of 200 g */
    told = pick(&is, day, "rocket-cut", "t3", NAN);
    told->grams = 2500.0;
    Lots lots = make(&is);
    assert_near(lots.lots[0].picked, 15.0, 1e-9);
    assert_near(lots.lots[1].picked, 2.5, 1e-9);
    small_farm_release(&is.small);
}

static void one_step_back_finds_seed_and_supplier_and_a_held_bed(void **state)
{
    (void)state;
    Case is;
    open_case(&is);
    int32_t day = small_week(0);
    Told *told = add(&is, TOLD_RECEIVED, day - 60);
    told->lot = "S-12";
    told->supplier = "Vale Seeds";
    told = add(&is, TOLD_SOWN, day - 50);
    told->batch = "spring";
    told->way = "lettuce-head";
    told->lot = "S-12";
    told = add(&is, TOLD_SPRAYED, day - 2);
    told->place = "t1";
    told->product = "soap";
    told->value = 5.0;
    pick(&is, day, "lettuce-head", "t1", 30.0)->batch = "spring";
    Lots lots = make(&is);
    LotsAsk ask = ask_of(&is);
    Lot lot = lots.lots[0];
    lots_trace(&ask, &is.small.arena, &lot);
    assert_int_equal(lot.sown_on, day - 50);
    assert_string_equal(lot.seed_lot, "S-12");
    assert_string_equal(lot.seed_from, "Vale Seeds");
    assert_non_null(lot.hold);
    assert_non_null(strstr(lot.hold, "soap"));
    small_farm_release(&is.small);
}

/* What is told picked is handed over or left, whatever comes in what turn. */
static void units_are_neither_made_nor_lost(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 60; seed++) {
        Case is;
        open_case(&is);
        Rng rng = rng_make(seed, 0);
        double picked = 0.0, asked = 0.0;
        for (int32_t d = 0; d < 40; d++) {
            for (int i = (int)rng_below(&rng, 4); i > 0; i--) {
                double units = 1.0 + (double)rng_below(&rng, 40);
                Told *told = pick(&is, small_week(0) + d, "lettuce-head",
                                  i % 2 ? "t1" : "t2", units);
                told->lot = rng_below(&rng, 5) == 0 ? "odd" : "";
                picked += units;
            }
            for (int i = (int)rng_below(&rng, 3); i > 0; i--) {
                double units = (double)rng_below(&rng, 50);
                Told *told =
                    hand_over(&is, small_week(0) + d, "inn", "head", units);
                told->lot = rng_below(&rng, 6) == 0 ? "odd" : "";
                asked += units;
            }
        }
        is.day = small_week(0) + 40;
        Lots lots = make(&is);
        double given = 0.0, left = 0.0, lacking = 0.0;
        for (int32_t i = 0; i < lots.count; i++) {
            const Lot *lot = &lots.lots[i];
            double of_it = 0.0;
            for (int32_t j = 0; j < lot->to_count; j++) {
                of_it += lot->to[j].units;
                assert_true(!lot->to[j].is_assumed ||
                            lot->to[j].on >= lot->picked_on);
            }
            assert_near(lot->picked, lot->left + of_it, 1e-6);
            given += of_it;
            left += lot->left;
        }
        for (int32_t i = 0; i < lots.lack_count; i++) {
            lacking += lots.lacks[i].units;
        }
        assert_near(picked, given + left, 1e-6);
        assert_near(asked, given + lacking, 1e-6);
        small_farm_release(&is.small);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_oldest_that_keeps_goes_first_and_is_marked),
        cmocka_unit_test(a_lot_that_is_told_is_taken_whatever_is_older),
        cmocka_unit_test(
            what_is_past_keeping_is_told_apart_and_given_to_nobody),
        cmocka_unit_test(kilos_and_grams_become_the_ways_units),
        cmocka_unit_test(one_step_back_finds_seed_and_supplier_and_a_held_bed),
        cmocka_unit_test(units_are_neither_made_nor_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
