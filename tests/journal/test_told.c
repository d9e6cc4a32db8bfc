/* One entry, checked: its kind's fields, numbers that can be, names of the
 * farm. */
#include "journal/told.h"

#include "check.h"
#include "told_farm.h"

static void every_kind_says_what_it_needs(void **state)
{
    (void)state;
    for (int i = 0; i < TOLD_KIND_COUNT; i++) {
        const ToldKindInfo *kind = &TOLD_KIND_TABLE[i];
        ToldKind found = TOLD_KIND_COUNT;
        assert_ok(told_kind_find(kind->word, &found));
        assert_int_equal(found, i);
        Told told = told_blank(found, START);
        bool needs_nothing = !kind->needs && !kind->needs_one;
        Err err = told_check_alone(&told);
        assert_int_equal(err.kind == ERR_OK, needs_nothing);
        assert_true(*kind->meaning);
    }
}

static void an_entry_without_a_day_or_with_a_foreign_field_is_told(void **state)
{
    (void)state;
    Told told = told_blank(TOLD_DIED, DATE_ALWAYS);
    told.place = "A";
    told.count = 2;
    assert_err(told_check_alone(&told), ERR_INPUT, "happened_on");
    told.happened_on = START;
    assert_ok(told_check_alone(&told));
    told.buyer = "hotel";
    assert_err(told_check_alone(&told), ERR_INPUT, "has no buyer");
    told.buyer = "";
    told.count = -3;
    assert_err(told_check_alone(&told), ERR_INPUT, "count");
    told.count = 2;
    told.strikes = 7;
    assert_err(told_check_alone(&told), ERR_INPUT, "strikes");
}

static void text_that_does_not_print_is_refused_but_in_a_note(void **state)
{
    (void)state;
    Told told = told_blank(TOLD_SEEN, START);
    told.text = "one\ntwo";
    assert_ok(told_check_alone(&told));
    told.who = "A\x1b[2Jna";
    assert_err(told_check_alone(&told), ERR_INPUT, "who");
    told.who = "Ana";
    told.text = "\xff\xfe";
    assert_err(told_check_alone(&told), ERR_INPUT, "UTF-8");
    char long_text[9000];
    memset(long_text, 'x', sizeof long_text);
    long_text[sizeof long_text - 1] = '\0';
    told.text = long_text;
    assert_err(told_check_alone(&told), ERR_INPUT, "8999 bytes");
}

static void an_unknown_place_is_told_with_the_nearest(void **state)
{
    (void)state;
    ToldFarm farm;
    told_farm_make(&farm);
    Told told = told_blank(TOLD_CLEANED, START);
    told.place = "S3";
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "did you mean S");
    told.place = "A"; /* a tank is no bed */
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "place=A");
    told.place = "S2";
    assert_ok(told_check(&farm.farm, &told));
    told = told_blank(TOLD_MOVED, START);
    told.place = "B";
    told.to_place = "B";
    told.count = 4;
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "another tank");
}

static void a_reading_that_cannot_be_or_in_another_unit_is_told(void **state)
{
    (void)state;
    ToldFarm farm;
    told_farm_make(&farm);
    Told told = told_blank(TOLD_READ, START);
    told.place = "A";
    told.quantity_key = "ph";
    told.value = 68.0;
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "from 2 to 12");
    told.quantity_key = "temp_degc";
    told.value = 24.5;
    told.unit = "degF";
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "degC");
    told.unit = "degC";
    assert_ok(told_check(&farm.farm, &told));
    told.quantity_key = "temp_degx";
    told.unit = "";
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "temp_degc");
}

static void weights_of_two_worlds_are_told(void **state)
{
    (void)state;
    ToldFarm farm;
    told_farm_make(&farm);
    Told told = told_blank(TOLD_SOLD, START);
    told.place = "A";
    told.count = 12;
    told.mean_g = 450.0;
    told.grams = 5.4; /* kilos typed for grams */
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "another unit");
    told.grams = 5400.0;
    assert_ok(told_check(&farm.farm, &told));
    told.quantity = 12.0;
    told.unit = "lbs";
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "unit=lbs");
}

static void sections_are_those_of_the_bed(void **state)
{
    (void)state;
    ToldFarm farm;
    told_farm_make(&farm);
    Told told = told_blank(TOLD_SET, START);
    told.place = "S1";
    told.way = "lettuce";
    told.section = 3;
    told.sections = 2;
    assert_ok(told_check(&farm.farm, &told));
    told.sections = 3;
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "4 sections");
    told.sections = 0;
    told.way = "lettice";
    assert_err(told_check(&farm.farm, &told), ERR_INPUT, "lettuce");
}

static void fields_are_read_as_people_type_them(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Told told = told_blank(TOLD_READ, START);
    assert_ok(told_put_text(TOLD_AT_happened_at, "07:35", &told));
    assert_int_equal(told.happened_at, 455);
    assert_string_equal(told_text(&told, TOLD_AT_happened_at, &arena), "07:35");
    assert_err(told_put_text(TOLD_AT_happened_at, "7:99", &told), ERR_INPUT,
               "07:30");
    assert_err(told_put_text(TOLD_AT_count, "2.5", &told), ERR_INPUT, "whole");
    assert_ok(told_put_text(TOLD_AT_edge, "yes", &told));
    assert_true(told.edge);
    assert_err(told_put_text(TOLD_AT_happened_on, "3.3.2027", &told), ERR_INPUT,
               "2027-03-01");
    ToldFieldId id = TOLD_AT_number;
    assert_err(told_field_find("plase", &id), ERR_USAGE, "place");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_kind_says_what_it_needs),
        cmocka_unit_test(
            an_entry_without_a_day_or_with_a_foreign_field_is_told),
        cmocka_unit_test(text_that_does_not_print_is_refused_but_in_a_note),
        cmocka_unit_test(an_unknown_place_is_told_with_the_nearest),
        cmocka_unit_test(a_reading_that_cannot_be_or_in_another_unit_is_told),
        cmocka_unit_test(weights_of_two_worlds_are_told),
        cmocka_unit_test(sections_are_those_of_the_bed),
        cmocka_unit_test(fields_are_read_as_people_type_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
