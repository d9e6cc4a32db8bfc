/* Errors: a text that is too long is cut, kinds have words and exit codes. */
#include "check.h"

static Err fails(void)
{
    return err_make(ERR_NOT_FOUND, "tank %s does not exist", "Q");
}

static Err passes_up(bool *out_reached)
{
    TRY(fails());
    *out_reached = true;
    return ERR_NONE;
}

static void an_error_is_passed_up_with_its_text(void **state)
{
    (void)state;
    bool reached = false;
    assert_err(passes_up(&reached), ERR_NOT_FOUND, "tank Q");
    assert_false(reached);
}

static void a_long_text_is_cut(void **state)
{
    (void)state;
    char text[600];
    memset(text, 'x', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    Err err = err_make(ERR_INPUT, "%s", text);
    assert_int_equal(strlen(err.text), ERR_TEXT_SIZE - 1);
}

static void a_cut_never_splits_a_letter(void **state)
{
    (void)state;
    char text[600] = "x";
    for (size_t i = 1; i + 2 < sizeof text; i += 2) {
        memcpy(text + i, "\xc3\xa3", 3);
    }
    Err err = err_make(ERR_INPUT, "%s", text);
    assert_int_equal(strlen(err.text), ERR_TEXT_SIZE - 1);
    err = err_make(ERR_INPUT, ".%s", text);
    assert_int_equal(strlen(err.text), ERR_TEXT_SIZE - 2);
    assert_null(strchr(err.text, '\\'));
}

static void what_would_steer_a_terminal_is_escaped(void **state)
{
    (void)state;
    Err err = err_make(ERR_INPUT, "%s is no name", "a\x1b[31m\nb\xff");
    assert_string_equal(err.text, "a\\x1b[31m\\x0ab\\xff is no name");
}

static void kinds_have_words_and_exit_codes(void **state)
{
    (void)state;
    assert_string_equal(err_kind_word(ERR_RANGE), "range");
    assert_int_equal(err_exit_code(ERR_USAGE), 2);
    assert_int_equal(err_exit_code(ERR_OK), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_error_is_passed_up_with_its_text),
        cmocka_unit_test(a_long_text_is_cut),
        cmocka_unit_test(a_cut_never_splits_a_letter),
        cmocka_unit_test(what_would_steer_a_terminal_is_escaped),
        cmocka_unit_test(kinds_have_words_and_exit_codes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
