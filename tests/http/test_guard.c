/* Which requests are let in at all. */
#include "check.h"
#include "http/guard.h"

enum { PORT = 8137 };

static ErrKind checked(const Guard *guard, GuardHeaders headers)
{
    headers.method = headers.method ? headers.method : "GET";
    return guard_check(guard, &headers).kind;
}

static void only_own_names_with_the_port_are_hosts(void **state)
{
    (void)state;
    static const char *const OWN[] = {"localhost:8137", "LOCALHOST:8137",
                                      "127.0.0.1:8137", "[::1]:8137"};
    static const char *const FOREIGN[] = {"",
                                          "localhost",
                                          "localhost:",
                                          ":8137",
                                          "localhost:81370",
                                          "localhost:8137.example.org",
                                          "example.org:8137",
                                          "xlocalhost:8137",
                                          "127.0.0.1.example.org:8137",
                                          "127.0.0.2:8137",
                                          "localhost:8137:8137"};
    Guard guard;
    guard_init(&guard, PORT, false);
    for (size_t i = 0; i < sizeof OWN / sizeof *OWN; i++) {
        assert_int_equal(checked(&guard, (GuardHeaders){.host = OWN[i]}),
                         ERR_OK);
    }
    for (size_t i = 0; i < sizeof FOREIGN / sizeof *FOREIGN; i++) {
        assert_int_equal(checked(&guard, (GuardHeaders){.host = FOREIGN[i]}),
                         ERR_USAGE);
    }
    assert_int_equal(checked(&guard, (GuardHeaders){0}), ERR_USAGE);
}

static void the_schemes_own_port_may_be_left_out(void **state)
{
    (void)state;
    Guard guard;
    guard_init(&guard, 443, true);
    guard_add_name(&guard, "fe80::7");
    assert_int_equal(checked(&guard, (GuardHeaders){.host = "localhost"}),
                     ERR_OK);
    assert_int_equal(checked(&guard, (GuardHeaders){.host = "[fe80::7]:443"}),
                     ERR_OK);
    guard_init(&guard, 443, false);
    assert_int_equal(checked(&guard, (GuardHeaders){.host = "localhost"}),
                     ERR_USAGE);
}

static void a_page_of_another_place_is_told_apart(void **state)
{
    (void)state;
    Guard guard;
    guard_init(&guard, PORT, false);
    GuardHeaders asked = {.host = "localhost:8137",
                          .origin = "http://localhost:8137"};
    assert_int_equal(checked(&guard, asked), ERR_OK);
    static const char *const ORIGINS[] = {"null",
                                          "",
                                          "https://localhost:8137",
                                          "http://localhost",
                                          "http://localhost:8137.example.org",
                                          "http://example.org"};
    for (size_t i = 0; i < sizeof ORIGINS / sizeof *ORIGINS; i++) {
        asked.origin = ORIGINS[i];
        assert_int_equal(checked(&guard, asked), ERR_CONFLICT);
    }
    asked = (GuardHeaders){
        .method = "POST", .host = "localhost:8137", .fetch_site = "cross-site"};
    assert_int_equal(checked(&guard, asked), ERR_CONFLICT);
    asked.fetch_site = "same-site";
    assert_int_equal(checked(&guard, asked), ERR_CONFLICT);
    asked.fetch_site = "same-origin";
    assert_int_equal(checked(&guard, asked), ERR_OK);
}

static void content_types_are_whole_words(void **state)
{
    (void)state;
    assert_true(guard_is_json("application/json"));
    assert_true(guard_is_json("Application/JSON; charset=utf-8"));
    assert_false(guard_is_json("application/jsonp"));
    assert_false(guard_is_json("text/plain"));
    assert_false(guard_is_json(NULL));
    assert_true(guard_is_media("image/jpeg"));
    assert_true(guard_is_media("audio/webm;codecs=opus"));
    assert_false(guard_is_media("image/svg+xml"));
    assert_false(guard_is_media("text/html"));
}

static void names_beyond_what_it_holds_are_left_out(void **state)
{
    (void)state;
    Guard guard;
    guard_init(&guard, PORT, false);
    for (int i = 0; i < 2 * GUARD_NAMES_MOST; i++) {
        guard_add_name(&guard, "farm.local");
    }
    assert_int_equal(guard.name_count, GUARD_NAMES_MOST);
    guard_init(&guard, PORT, false);
    guard_add_name(&guard,
                   "a-name-that-is-longer-than-any-machine-of-a-farm-would-"
                   "ever-have-in-all-its-years.local");
    assert_int_equal(guard.name_count, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_own_names_with_the_port_are_hosts),
        cmocka_unit_test(the_schemes_own_port_may_be_left_out),
        cmocka_unit_test(a_page_of_another_place_is_told_apart),
        cmocka_unit_test(content_types_are_whole_words),
        cmocka_unit_test(names_beyond_what_it_holds_are_left_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
