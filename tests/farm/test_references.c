/* Sources in full. */
#include "check.h"

#include <string.h>

#include "farm/references.h"

static void a_key_has_its_whole_reference_on_one_line(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    const char *text = reference_of("EMERSON1975", &arena);
    assert_non_null(text);
    assert_non_null(strstr(text, "Emerson"));
    assert_null(strchr(text, '\n'));
    assert_null(strstr(text, "- **["));
    assert_null(strstr(text, "  "));
}

static void an_unknown_key_has_none(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    assert_null(reference_of("NOBODY1900", &arena));
    assert_null(reference_of("", &arena));
    assert_null(reference_of("EMERSON", &arena));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_key_has_its_whole_reference_on_one_line),
        cmocka_unit_test(an_unknown_key_has_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
