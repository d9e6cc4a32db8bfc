/* How often an address may try to log in. */
#include "check.h"
#include "http/sessions.h"

enum { BACK_MS = 15 * 1000, AT_ONCE = 10 };

static void an_address_has_ten_tries_and_gets_them_back_slowly(void **state)
{
    (void)state;
    static Sessions sessions;
    const unsigned char address[ADDRESS_SIZE] = {192, 168, 7, 31};
    int64_t now_ms = 5000;
    for (int i = 0; i < AT_ONCE; i++) {
        assert_true(sessions_may_login(&sessions, address, now_ms));
    }
    assert_false(sessions_may_login(&sessions, address, now_ms));
    now_ms += BACK_MS - 1;
    assert_false(sessions_may_login(&sessions, address, now_ms));
    now_ms += BACK_MS;
    assert_true(sessions_may_login(&sessions, address, now_ms));
    assert_false(sessions_may_login(&sessions, address, now_ms));
}

static void another_address_has_its_own(void **state)
{
    (void)state;
    static Sessions sessions;
    const unsigned char one[ADDRESS_SIZE] = {10, 0, 0, 1};
    const unsigned char other[ADDRESS_SIZE] = {10, 0, 0, 2};
    for (int i = 0; i < 2 * AT_ONCE; i++) {
        (void)sessions_may_login(&sessions, one, 1000);
    }
    assert_true(sessions_may_login(&sessions, other, 1000));
}

/* Memory does not grow with the number of addresses: the stalest makes room. */
static void more_addresses_than_there_is_room_for_do_no_harm(void **state)
{
    (void)state;
    static Sessions sessions;
    for (int i = 0; i < 4 * ADDRESSES_MOST; i++) {
        unsigned char address[ADDRESS_SIZE] = {10, 0, (unsigned char)(i / 256),
                                               (unsigned char)(i % 256)};
        assert_true(sessions_may_login(&sessions, address, i));
    }
}

static void a_token_of_the_wrong_length_is_nobodys(void **state)
{
    (void)state;
    static Sessions sessions;
    const unsigned char address[ADDRESS_SIZE] = {0};
    SessionAsk ask = {
        .dir = "/nowhere", .token = "77", .address = address, .now_ms = 1000};
    Requester requester;
    assert_ok(sessions_find(&sessions, &ask, &requester));
    assert_int_equal(requester.role, ROLE_ANYONE);
    sessions_release(&sessions);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_address_has_ten_tries_and_gets_them_back_slowly),
        cmocka_unit_test(another_address_has_its_own),
        cmocka_unit_test(more_addresses_than_there_is_room_for_do_no_harm),
        cmocka_unit_test(a_token_of_the_wrong_length_is_nobodys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
