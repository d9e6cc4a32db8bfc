/* Feed conversion from what was told: the dead, the sold and the moved are in
 * it. */
#include "small_farm.h"

#include <math.h>

#include "work/conversion.h"

enum { FACTS_MAX = 8 };

typedef struct Book8 {
    SmallFarm small;
    Told facts[FACTS_MAX];
    int32_t count;
} Book8;

static Told *tell(Book8 *book, ToldKind kind, int day)
{
    Told *told = &book->facts[book->count++];
    *told = told_blank(kind, small_week(0) + day);
    told->number = book->count;
    told->place = "A";
    return told;
}

static Conversion made(const Book8 *book)
{
    return conversion_of(book->small.farm, 0, book->facts, book->count);
}

/* 400 of 180 g: 72 kg. 63 kg fed in 30 days, then 390 left of 262 g. */
static void deaths_and_sales_are_weight_gained(void **state)
{
    (void)state;
    Book8 book = {0};
    small_farm_open(&book.small, true);
    assert_false(made(&book).is_known);
    assert_non_null(strstr(made(&book).lacking, "sample"));
    tell(&book, TOLD_FED, 2)->grams = 40000.0;
    tell(&book, TOLD_FED, 2)->grams = 3000.0;
    tell(&book, TOLD_FED, 20)->grams = 20000.0;
    Told *dead = tell(&book, TOLD_DIED, 12);
    dead->count = 4;
    dead->grams = 800.0;
    Told *sold = tell(&book, TOLD_SOLD, 25);
    sold->count = 6;
    sold->mean_g = 300.0;
    Told *sample = tell(&book, TOLD_SAMPLED, 30);
    sample->mean_g = 262.0;
    Conversion conversion = made(&book);
    double gain = 390.0 * 0.262 - 72.0 + 0.8 + 1.8;
    assert_true(conversion.is_known);
    assert_near(conversion.gain_kg, gain, 1e-9);
    assert_near(conversion.feed_kg, 63.0, 1e-9);
    assert_near(conversion.value, 63.0 / gain, 1e-9);
    assert_int_equal(conversion.fed_days, 2);
    assert_int_equal(conversion.until - conversion.from, 30);
    /* Without the dead and the sold it would look worse. */
    assert_true(conversion.value < 63.0 / (390.0 * 0.262 - 72.0));
    arena_release(&book.small.arena);
}

static void the_last_two_samples_count(void **state)
{
    (void)state;
    Book8 book = {0};
    small_farm_open(&book.small, true);
    tell(&book, TOLD_FED, 1)->grams = 90000.0;
    tell(&book, TOLD_SAMPLED, 10)->mean_g = 200.0;
    tell(&book, TOLD_FED, 11)->grams = 12000.0;
    Told *sample = tell(&book, TOLD_SAMPLED, 20);
    sample->count = 30;
    sample->grams = 30.0 * 221.5;
    Conversion conversion = made(&book);
    assert_near(conversion.feed_kg, 12.0, 1e-9);
    assert_near(conversion.gain_kg, 400.0 * 0.0215, 1e-9);
    arena_release(&book.small.arena);
}

static void fish_that_move_take_their_weight_with_them(void **state)
{
    (void)state;
    Book8 book = {0};
    small_farm_open(&book.small, true);
    tell(&book, TOLD_FED, 1)->grams = 20000.0;
    Told *graded = tell(&book, TOLD_GRADED, 14);
    graded->to_place = "B";
    graded->count = 100;
    graded->mean_g = 250.0;
    tell(&book, TOLD_SAMPLED, 20)->mean_g = 178.0;
    Conversion conversion = made(&book);
    assert_near(conversion.gain_kg, 300.0 * 0.178 - 72.0 + 25.0, 1e-9);
    /* Tank B: nothing was sampled there. */
    assert_false(
        conversion_of(book.small.farm, 1, book.facts, book.count).is_known);
    arena_release(&book.small.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(deaths_and_sales_are_weight_gained),
        cmocka_unit_test(the_last_two_samples_count),
        cmocka_unit_test(fish_that_move_take_their_weight_with_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
