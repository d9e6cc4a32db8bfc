/* Numbers from text, near words, UTF-8. */
#include "check.h"

#include "base/figure.h"
#include "base/text.h"

static void numbers_fill_the_whole_text(void **state)
{
    (void)state;
    double value = 0.0;
    assert_ok(text_to_f64("-2.385", &value));
    assert_near(value, -2.385, 1e-12);
    const char *const bad[] = {"",   "1,5",  "0x10", "nan", "inf", " 1",
                               "1 ", "12kg", "--3",  "1e",  "."};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        assert_err(text_to_f64(bad[i], &value), ERR_INPUT, bad[i]);
    }
    assert_err(text_to_f64("1e999", &value), ERR_INPUT, "too large");
}

static void slips_are_counted(void **state)
{
    (void)state;
    assert_int_equal(text_distance("basil", "basil"), 0);
    assert_int_equal(text_distance("basil", "bsail"), 1);
    assert_int_equal(text_distance("chard", "card"), 1);
    assert_int_equal(text_distance("kitten", "sitting"), 3);
}

static void the_nearest_word_is_near_or_none(void **state)
{
    (void)state;
    const char *const words[] = {"parsley", NULL, "paprika", "papaya"};
    assert_string_equal(text_nearest("parsly", words, 4), "parsley");
    assert_null(text_nearest("xylophone", words, 4));
}

static void utf8_is_valid_up_to_the_first_fault(void **state)
{
    (void)state;
    assert_int_equal(text_utf8_valid("ma\xc3\xa7\xc3\xa3", 6), 6);
    assert_int_equal(text_utf8_valid("ab\xff", 3), 2);
    assert_int_equal(text_utf8_valid("a\xc0\x80", 3), 1);
    assert_int_equal(text_utf8_valid("a\xed\xa0\x80", 4), 1);
    assert_int_equal(text_utf8_valid("a\xe2\x82", 3), 1);
}

static void origins_are_words(void **state)
{
    (void)state;
    FigureOrigin origin = FIGURE_BOOK;
    assert_ok(figure_origin_parse("guess", &origin));
    assert_string_equal(figure_origin_word(origin), "guess");
    assert_err(figure_origin_parse("sure", &origin), ERR_INPUT, "sure");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_fill_the_whole_text),
        cmocka_unit_test(slips_are_counted),
        cmocka_unit_test(the_nearest_word_is_near_or_none),
        cmocka_unit_test(utf8_is_valid_up_to_the_first_fault),
        cmocka_unit_test(origins_are_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
