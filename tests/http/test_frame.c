/* Messages between the server and its helpers. */
#include <string.h>

#include "check.h"
#include "http/frame.h"

static Request request_made(Arena *arena)
{
    Request request = {.dir = "farm",
                       .method = "PUT",
                       .path = "/api/table",
                       .body = "a\0b",
                       .body_length = 3,
                       .content_type = "application/json",
                       .today = -12345,
                       .requester = {.who = "Ana",
                                     .role = ROLE_GROWER,
                                     .hand = "ana",
                                     .language = "pt",
                                     .session = "77",
                                     .is_us_units = true,
                                     .is_lan = true},
                       .device = "a phone",
                       .tongue = tongue_named("fr")};
    Err err = request_add(&request, "name", 4, "beds", 4, arena);
    assert_int_equal(err.kind, ERR_OK);
    err = request_add(&request, "all", 3, NULL, 0, arena);
    assert_int_equal(err.kind, ERR_OK);
    return request;
}

static void a_request_comes_back_as_it_went(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Request request = request_made(&arena);
    Frame frame = frame_of_request(&request, &arena);
    FramePart message = frame_write(&frame, &arena);
    Frame read;
    size_t used = 0;
    Request again = {.dir = "elsewhere"};
    assert_int_equal(
        frame_read(message.bytes, message.length, &read, &used).kind, ERR_OK);
    assert_int_equal(used, message.length);
    assert_int_equal(frame_to_request(&read, &arena, &again).kind, ERR_OK);
    assert_ptr_equal(again.tongue, request.tongue);
    assert_string_equal(again.dir, "elsewhere");
    assert_string_equal(again.method, "PUT");
    assert_int_equal(again.body_length, 3);
    assert_memory_equal(again.body, "a\0b", 4);
    assert_int_equal(again.today, -12345);
    assert_int_equal(again.requester.role, ROLE_GROWER);
    assert_string_equal(again.requester.language, "pt");
    assert_true(again.requester.is_us_units && again.requester.is_lan);
    assert_string_equal(request_text(&again, "name"), "beds");
    assert_string_equal(request_text(&again, "all"), "");
    assert_null(request_text(&again, "nam"));
}

static void a_message_is_read_only_once_it_is_whole(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Reply reply = {.status = 409,
                   .type = "application/json",
                   .body = "{\"x\":1}",
                   .length = 7,
                   .session = ""};
    Frame frame = frame_of_reply(&reply, &arena);
    FramePart message = frame_write(&frame, &arena);
    for (size_t length = 0; length < message.length; length++) {
        size_t used = 7;
        Frame read;
        assert_int_equal(frame_read(message.bytes, length, &read, &used).kind,
                         ERR_OK);
        assert_int_equal(used, 0);
    }
    Frame read;
    Reply again;
    size_t used = 0;
    Err err = frame_read(message.bytes, message.length, &read, &used);
    assert_int_equal(err.kind, ERR_OK);
    assert_int_equal(frame_to_reply(&read, &again).kind, ERR_OK);
    assert_int_equal(again.status, 409);
    assert_string_equal(again.session, "");
}

static void bytes_that_are_no_message_are_a_defect(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Frame read;
    size_t used = 0;
    const char noise[64] = "HTTP/1.1 200 OK and more that is no head";
    assert_int_equal(frame_read(noise, sizeof noise, &read, &used).kind,
                     ERR_DEFECT);
    Request request = request_made(&arena);
    Frame frame = frame_of_request(&request, &arena);
    frame.count--; /* a key without its value */
    assert_int_equal(frame_to_request(&frame, &arena, &request).kind,
                     ERR_DEFECT);
    frame.count = 2;
    Reply reply;
    assert_int_equal(frame_to_reply(&frame, &reply).kind, ERR_DEFECT);
}

static void an_address_is_plain_text_and_not_endless(void **state)
{
    (void)state;
    CLEANUP(arena_release) Arena arena = {0};
    Request request = {.dir = ""};
    assert_int_equal(request_add(&request, "a\x07", 2, "b", 1, &arena).kind,
                     ERR_USAGE);
    assert_int_equal(request_add(&request, "a", 1, "\xff", 1, &arena).kind,
                     ERR_USAGE);
    for (int i = 0; i < QUERY_PAIRS_MOST; i++) {
        assert_int_equal(request_add(&request, "a", 1, "b", 1, &arena).kind,
                         ERR_OK);
    }
    assert_int_equal(request_add(&request, "a", 1, "b", 1, &arena).kind,
                     ERR_USAGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_request_comes_back_as_it_went),
        cmocka_unit_test(a_message_is_read_only_once_it_is_whole),
        cmocka_unit_test(bytes_that_are_no_message_are_a_defect),
        cmocka_unit_test(an_address_is_plain_text_and_not_endless),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
