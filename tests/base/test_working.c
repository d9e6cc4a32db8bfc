/* How a shown figure was made: what is asked for, and what is kept of it. */
#include "check.h"

#include <string.h>

#include "base/tongue.h"
#include "base/working.h"

static void only_what_is_asked_for_is_written(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Workings one = {.arena = &arena, .only = {"tank", "A", "kg"}};
    assert_null(working_begin(&one, "tank", "A", "count"));
    assert_null(working_begin(&one, "tank", "B", "kg"));
    assert_null(working_begin(&one, "fish", "A", "kg"));
    assert_non_null(working_begin(&one, "tank", "A", "kg"));
    assert_int_equal(one.count, 1);
    Workings tanks = {.arena = &arena, .only = {.of = "tank"}};
    for (int i = 0; i < 37; i++) {
        assert_non_null(working_begin(&tanks, "tank", "A", "kg"));
    }
    assert_int_equal(tanks.count, 37);
    assert_null(working_begin(NULL, "tank", "A", "kg"));
}

static void nobody_asks_and_nothing_happens(void **state)
{
    (void)state;
    working_says(NULL, "density", "kilos over water", "d = k / v");
    working_joins(NULL, " + 1");
    working_value(NULL, "k", "kilos", 2.5, (WorkingInput){.unit = "kg"});
    working_note(NULL, "%d fish", 7);
    working_source(NULL, "KEY");
    working_is(NULL, 2.5, "kg");
    working_range(NULL, 1.0, 3.0);
    assert_string_equal(working_symbol(NULL, "n", 2), "");
}

static void an_input_without_a_range_has_its_value_at_both_ends(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Workings all = {.arena = &arena};
    Working *made = working_begin(&all, "tank", "A", "kg");
    working_value(made, "k", "kilos", -2.385, (WorkingInput){.unit = "kg"});
    Figure figure = {.value = 4.5,
                     .low = 3.25,
                     .high = 6.0,
                     .origin = FIGURE_GUESS,
                     .source = "FAO589"};
    working_figure(made, "f", "limit", &figure, "mg/L");
    assert_int_equal(made->input_count, 2);
    assert_near(made->inputs[0].low, -2.385, 1e-12);
    assert_near(made->inputs[0].high, -2.385, 1e-12);
    assert_near(made->inputs[1].low, 3.25, 1e-12);
    assert_int_equal(made->inputs[1].from, WORKING_GUESS);
    assert_string_equal(working_from_word(made->inputs[1].from), "guess");
    working_is(made, 7.125, "kg");
    assert_near(made->high, 7.125, 1e-12);
    working_range(made, 6.0, 8.0);
    assert_near(made->low, 6.0, 1e-12);
    WorkingKey key = {"tank", "A", "kg"};
    assert_ptr_equal(workings_find(&all, &key), made);
    key.figure = "count";
    assert_null(workings_find(&all, &key));
}

static void it_is_told_in_the_language_of_the_arena(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    arena_speak(&arena, tongue_named("pt"));
    Workings all = {.arena = &arena};
    Working *made = working_begin(&all, "tank", "A", "density_kg_m3");
    working_says(made, "density", "kilos of fish over the tank's water",
                 "density_kg_m3 = kg / volume_m3");
    working_value(made, "kg", "kilos in the tank", 78.5,
                  (WorkingInput){.unit = "kg"});
    assert_string_equal(made->name, "densidade");
    assert_string_equal(made->inputs[0].name, "quilos no tanque");
    assert_string_equal(made->symbols, "density_kg_m3 = kg / volume_m3");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_what_is_asked_for_is_written),
        cmocka_unit_test(nobody_asks_and_nothing_happens),
        cmocka_unit_test(an_input_without_a_range_has_its_value_at_both_ends),
        cmocka_unit_test(it_is_told_in_the_language_of_the_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
