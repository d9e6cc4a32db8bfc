/* The languages that sentences are made in. */
#include "check.h"

#include <string.h>

#include "base/tongue.h"

static void a_sentence_is_said_in_the_arenas_language(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    assert_string_equal(arena_say(&arena, "Dead fish in %s", "A"),
                        "Dead fish in A");
    arena_speak(&arena, tongue_named("pt"));
    assert_string_equal(arena_say(&arena, "Dead fish in %s", "A"),
                        "Peixes mortos em A");
    assert_string_equal(say(&arena, "colder"), "mais frio");
    assert_string_equal(say(&arena, "no catalogue has this"),
                        "no catalogue has this");
    /* From the right, what is filled in is isolated. */
    arena_speak(&arena, tongue_named("ar"));
    assert_string_equal(arena_say(&arena, "Dead fish in %s", "A"),
                        "أسماك نافقة في \u2068A\u2069");
    arena_release(&arena);
    assert_string_equal(arena_tongue(&arena)->code, "en");
}

/* Source: [CLDR] Language Plural Rules: Arabic has six forms, French counts
 * none as one. */
static void a_number_asks_for_its_form(void **state)
{
    (void)state;
    static const struct {
        const char *code;
        int64_t count;
        int form;
    } CASES[] = {
        {"en", 0, 1},   {"en", 1, 0},   {"en", 2, 1},   {"es", 0, 1},
        {"es", 1, 0},   {"pt", 21, 1},  {"fr", 0, 0},   {"fr", 1, 0},
        {"fr", 2, 1},   {"ar", 0, 0},   {"ar", 1, 1},   {"ar", 2, 2},
        {"ar", 3, 3},   {"ar", 10, 3},  {"ar", 11, 4},  {"ar", 99, 4},
        {"ar", 100, 5}, {"ar", 102, 5}, {"ar", 103, 3}, {"ar", 111, 4}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        const Tongue *tongue = tongue_named(CASES[i].code);
        assert_int_equal(tongue->form_of(CASES[i].count), CASES[i].form);
    }
    CLEANUP(arena_release) Arena arena = {0};
    assert_string_equal(say_n(&arena, 1, "bunch", "bunches"), "bunch");
    assert_string_equal(say_n(&arena, 17, "bunch", "bunches"), "bunches");
    arena_speak(&arena, tongue_named("es"));
    assert_string_equal(say_n(&arena, 1, "bunch", "bunches"), "manojo");
    assert_string_equal(say_n(&arena, 17, "bunch", "bunches"), "manojos");
    assert_string_equal(say_n(&arena, 17, "ounce", "ounces"), "ounces");
}

static void a_browser_is_heard_in_the_order_of_its_wishes(void **state)
{
    (void)state;
    static const struct {
        const char *wanted;
        const char *code; /* NULL: none */
    } CASES[] = {{"pt-BR,pt;q=0.9,en;q=0.8", "pt"},
                 {"de-DE,de;q=0.9,fr;q=0.7,en;q=0.5", "fr"},
                 {"en;q=0.4, ar;q=0.6", "ar"},
                 {"de", NULL},
                 {"es;q=0", NULL},
                 {"*", NULL},
                 {"", NULL},
                 {",,;q=,pt", "pt"},
                 {"ptx,e", NULL}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        const Tongue *found = tongue_wanted(CASES[i].wanted);
        assert_true(found ? CASES[i].code &&
                                strcmp(found->code, CASES[i].code) == 0
                          : CASES[i].code == NULL);
    }
    assert_null(tongue_wanted(NULL));
    assert_null(tongue_named("xx"));
}

static void each_catalogue_lies_in_order_and_is_a_draft(void **state)
{
    (void)state;
    size_t count = 0;
    const Tongue *tongues = tongues_all(&count);
    assert_int_equal(count, 5);
    for (size_t t = 1; t < count; t++) {
        const Tongue *tongue = &tongues[t];
        assert_true(tongue->catalogue->is_draft &&
                    tongue->catalogue->count > 300);
        assert_int_equal(tongue->is_rtl, strcmp(tongue->code, "ar") == 0);
        const TongueText *texts = tongue->catalogue->texts;
        for (size_t i = 1; i < tongue->catalogue->count; i++) {
            assert_true(strcmp(texts[i - 1].english, texts[i].english) < 0);
            assert_true(!texts[i].said == !!texts[i].forms);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sentence_is_said_in_the_arenas_language),
        cmocka_unit_test(a_number_asks_for_its_form),
        cmocka_unit_test(a_browser_is_heard_in_the_order_of_its_wishes),
        cmocka_unit_test(each_catalogue_lies_in_order_and_is_a_draft),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
