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

static void text_is_plain_up_to_what_could_steer_a_terminal(void **state)
{
    (void)state;
    assert_int_equal(text_plain("pak choi", 8), 8);
    assert_int_equal(text_plain("ma\xc3\xa7\xc3\xa3\xc2\xa0", 8), 8);
    assert_int_equal(text_plain("a\x1b[2J", 5), 1);
    assert_int_equal(text_plain("ab\x7f", 3), 2);
    assert_int_equal(text_plain("ab\tc", 4), 2);
    assert_int_equal(text_plain("a\xc2\x9b", 3), 1);
    assert_int_equal(text_plain("a\xe2\x80\xae", 4), 1);
    assert_int_equal(text_plain("a\xe2\x81\xa9", 4), 1);
    assert_int_equal(text_plain("a\xff", 2), 1);
    assert_int_equal(text_plain("a\0b", 3), 1);
}

static void escaped_text_is_plain_and_says_which_byte(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const char *plain = "ma\xc3\xa7\xc3\xa3";
    assert_ptr_equal(text_escaped(plain, &arena), plain);
    assert_string_equal(
        text_escaped("\x1b[1m\xc2\x85\xe2\x80\xa9\xe3\r", &arena),
        "\\x1b[1m\\u0085\\u2029\\xe3\\x0d");
    char worst[256];
    for (int i = 0; i < 255; i++) {
        worst[i] = (char)(i + 1);
    }
    worst[255] = '\0';
    const char *shown = text_escaped(worst, &arena);
    assert_int_equal(text_plain(shown, strlen(shown)), strlen(shown));
}

static void escaping_cuts_between_characters(void **state)
{
    (void)state;
    char out[6];
    assert_int_equal(text_escape("ab\x1b", 3, out, sizeof out), 2);
    assert_string_equal(out, "ab");
    assert_int_equal(text_escape("a\x1b", 2, out, sizeof out), 5);
    assert_string_equal(out, "a\\x1b");
    assert_int_equal(text_escape("abcd\xc3\xa3", 6, out, sizeof out), 4);
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
        cmocka_unit_test(text_is_plain_up_to_what_could_steer_a_terminal),
        cmocka_unit_test(escaped_text_is_plain_and_says_which_byte),
        cmocka_unit_test(escaping_cuts_between_characters),
        cmocka_unit_test(origins_are_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
