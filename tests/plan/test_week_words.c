/* Weeks of a plan as people write them. */
#include "check.h"

#include "base/date.h"
#include "plan/week_words.h"

static void weeks_are_told_by_the_calendar(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    int32_t from = 0;
    assert_ok(week_parse("2027-W09", &from));
    assert_string_equal(
        week_words("basil of week 35 stands on b1 in week 36", from, &arena),
        "basil of week 2027-W44 stands on b1 in week 2027-W45");
    assert_string_equal(
        week_words("starts in week -1, outside weeks 0 to 51", from, &arena),
        "starts in week 2027-W08, outside weeks 2027-W09 to 2028-W08");
    assert_string_equal(
        week_words("moves in week 3, between week 5 and 7 only", from, &arena),
        "moves in week 2027-W12, between week 2027-W14 and 2027-W16 only");
}

static void other_numbers_stay(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const char *plain = "3 beds a week and 5 to 7 of 12 weeks; week end";
    assert_string_equal(week_words(plain, 20878, &arena), plain);
    assert_string_equal(week_words("", 20878, &arena), "");
    assert_string_equal(week_words("week 123456789", 20878, &arena),
                        "week 123456789");
    assert_string_equal(week_words("week 99999999999999999999", 0, &arena),
                        "week 99999999999999999999");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(weeks_are_told_by_the_calendar),
        cmocka_unit_test(other_numbers_stay),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
