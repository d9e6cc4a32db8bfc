/* Words, facts and options from what was typed. */
#include "check.h"

#include "base/date.h"
#include "cli/arguments.h"

static const ArgumentSpecs SPECS = {
    .words = (const ArgumentSpec[]){{"DIR", NULL, "the farm's folder", true},
                                    {NULL, NULL, NULL, false}},
    .facts = (const ArgumentSpec[]){{"product", "basil", "what", true},
                                    {"until", "DAY", "last day", false},
                                    {NULL, NULL, NULL, false}},
    .options = (const ArgumentSpec[]){{"json", NULL, "as JSON", false},
                                      {"weeks", "52", "how many", false},
                                      {"today", "DAY", "the day", false},
                                      {NULL, NULL, NULL, false}},
};

enum { TEXTS_MAX = 8 };

/* Parses the texts up to NULL; the arena lives as long as the test. */
static Err parse(Arena *arena, const char *const *texts, Arguments *out)
{
    size_t count = 0;
    char *copies[TEXTS_MAX] = {0};
    for (; texts[count]; count++) {
        copies[count] = arena_copy_text(arena, texts[count]);
    }
    return arguments_parse(&SPECS, count, copies, arena, out);
}

#define TYPED(...) ((const char *const[]){__VA_ARGS__, NULL})

static void each_argument_finds_its_place_in_any_order(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Arguments got = {0};
    assert_ok(parse(
        &arena, TYPED("--weeks", "17", "product=a=b", "farm", "--json"), &got));
    assert_string_equal(arguments_word(&got, 0), "farm");
    assert_null(arguments_word(&got, 1));
    assert_string_equal(arguments_fact(&got, "product"), "a=b");
    assert_null(arguments_fact(&got, "until"));
    assert_true(arguments_has(&got, "json"));
    assert_false(arguments_has(&got, "today"));
    int64_t weeks = 52;
    assert_ok(arguments_integer(&got, "weeks", 1, 104, &weeks));
    assert_int_equal(weeks, 17);
    assert_ok(parse(&arena, TYPED("farm", "product=x", "--weeks=31"), &got));
    assert_ok(arguments_integer(&got, "weeks", 1, 104, &weeks));
    assert_int_equal(weeks, 31);
}

static void after_two_dashes_everything_is_a_word(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Arguments got = {0};
    assert_ok(parse(&arena, TYPED("product=x", "--", "--help=me"), &got));
    assert_string_equal(arguments_word(&got, 0), "--help=me");
    assert_false(got.is_help);
    assert_ok(parse(&arena, TYPED("product=x", "./a=b"), &got));
    assert_string_equal(arguments_word(&got, 0), "./a=b");
}

static void help_is_heard_whatever_else_is_wrong(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Arguments got = {0};
    assert_ok(parse(&arena, TYPED("--nonsense", "--help"), &got));
    assert_true(got.is_help);
}

static void what_no_spec_names_is_refused_with_a_near_name(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Arguments got = {0};
    const struct {
        const char *const *texts;
        const char *words;
    } wrong[] = {
        {TYPED("farm", "product=x", "--wekes", "3"), "did you mean --weeks"},
        {TYPED("farm", "prodcut=x"), "did you mean product"},
        {TYPED("farm", "product=x", "--zzzzzzzz"), "unknown option --zzzz"},
        {TYPED("farm", "product=x", "-j"), "two dashes"},
        {TYPED("farm", "product=x", "more"), "one word too many"},
        {TYPED("product=x"), "DIR is missing"},
        {TYPED("farm"), "product= is missing"},
        {TYPED("farm", "product=x", "product=y"), "given twice"},
        {TYPED("farm", "product=x", "--json", "--json"), "given twice"},
        {TYPED("farm", "product=x", "--weeks"), "wants a value"},
        {TYPED("farm", "product=x", "--weeks", "--json"), "wants a value"},
        {TYPED("farm", "product=x", "--json=yes"), "takes no value"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_err(parse(&arena, wrong[i].texts, &got), ERR_USAGE,
                   wrong[i].words);
    }
}

static void option_values_are_checked(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Arguments got = {0};
    const char *const bad[] = {"0", "105", "7.5", "",
                               "x", "-",   "1e2", "99999999999999999999999"};
    int64_t weeks = 0;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        const char *text = arena_text(&arena, "--weeks=%s", bad[i]);
        assert_ok(parse(&arena, TYPED("farm", "product=x", text), &got));
        assert_err(arguments_integer(&got, "weeks", 1, 104, &weeks), ERR_USAGE,
                   "--weeks wants");
    }
    int32_t today = 0;
    assert_ok(parse(&arena, TYPED("farm", "product=x", "--today", "2027-03-01"),
                    &got));
    assert_ok(arguments_day(&got, "today", &today));
    assert_int_equal(today, date_from_civil((CivilDate){2027, 3, 1}));
    assert_ok(
        parse(&arena, TYPED("farm", "product=x", "--today", "1.3.2027"), &got));
    assert_err(arguments_day(&got, "today", &today), ERR_USAGE, "--today");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_argument_finds_its_place_in_any_order),
        cmocka_unit_test(after_two_dashes_everything_is_a_word),
        cmocka_unit_test(help_is_heard_whatever_else_is_wrong),
        cmocka_unit_test(what_no_spec_names_is_refused_with_a_near_name),
        cmocka_unit_test(option_values_are_checked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
