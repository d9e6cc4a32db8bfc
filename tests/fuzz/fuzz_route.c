/* Any bytes as a request: its keys and its body are read, or refused, by the
 * route that the first byte chooses; what needs no farm is answered too. The
 * same functions as behind the sockets. */
#include <assert.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "farm/fields.h"
#include "http/frame.h"
#include "http/guard.h"
#include "http/routes.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* "key=value&key=value" up to the first line end; the rest is the body. */
static Err read_query(const char *text, size_t length, Arena *arena,
                      Request *request)
{
    size_t at = 0;
    while (at < length) {
        const char *pair = text + at;
        const char *end = memchr(pair, '&', length - at);
        size_t whole = end ? (size_t)(end - pair) : length - at;
        const char *equals = memchr(pair, '=', whole);
        size_t key = equals ? (size_t)(equals - pair) : whole;
        TRY(request_add(request, pair, key, equals ? equals + 1 : NULL,
                        equals ? whole - key - 1 : 0, arena));
        at += whole + 1;
    }
    return ERR_NONE;
}

static void ask(const Route *route, const char *text, size_t length)
{
    CLEANUP(arena_release) Arena arena = {0};
    const char *line = memchr(text, '\n', length);
    size_t query = line ? (size_t)(line - text) : length;
    Request request = {.dir = "/nowhere",
                       .method = route->method,
                       .path = route->path,
                       .body = line ? line + 1 : "",
                       .body_length = line ? length - query - 1 : 0,
                       .content_type = "image/jpeg",
                       .today = DATE_ALWAYS,
                       .requester = {.who = "Ana",
                                     .role = ROLE_HAND,
                                     .hand = "ana",
                                     .language = "",
                                     .session = "",
                                     .is_lan = length % 2 == 0},
                       .device = ""};
    if (read_query(text, query, &arena, &request).kind != ERR_OK) {
        return;
    }
    void *question = arena_alloc(&arena, ROUTE_QUESTION_MOST, 1);
    Err err = route_decode(route, &request, &arena, question);
    if (err.kind != ERR_OK) {
        Reply refusal = reply_error(&err, &arena);
        assert(refusal.status >= 400 && refusal.length > 0);
        return;
    }
    if (route->cost == ROUTE_HERE) {
        Reply reply = route_reply(route, &request, &arena);
        assert(reply.status >= 200 && reply.status < 600 && reply.body);
    }
    /* What a helper gets is what was asked. */
    Frame frame = frame_of_request(&request, &arena);
    FramePart message = frame_write(&frame, &arena);
    Frame again;
    Request same = {.dir = request.dir};
    size_t used = 0;
    err = frame_read(message.bytes, message.length, &again, &used);
    assert(err.kind == ERR_OK && used == message.length);
    err = frame_to_request(&again, &arena, &same);
    assert(err.kind == ERR_OK && same.query_count == request.query_count);
    assert(same.body_length == request.body_length &&
           memcmp(same.body, request.body, same.body_length) == 0);
}

static void read_frame(const char *bytes, size_t length)
{
    CLEANUP(arena_release) Arena arena = {0};
    Frame frame;
    size_t used = 0;
    Reply reply;
    Request request = {.dir = ""};
    if (frame_read(bytes, length, &frame, &used).kind == ERR_OK && used > 0) {
        assert(used <= length);
        (void)frame_to_reply(&frame, &reply).kind;
        (void)frame_to_request(&frame, &arena, &request).kind;
    }
}

static void guard(const char *text)
{
    Guard own;
    guard_init(&own, 8137, false);
    GuardHeaders headers = {
        .method = "POST", .host = text, .origin = text, .content_type = text};
    Err err = guard_check(&own, &headers);
    assert(err.kind != ERR_OK); /* no text is both a host and an origin */
    (void)guard_is_json(text);
    (void)guard_is_media(text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    CLEANUP(arena_release) Arena arena = {0};
    size_t count = 0;
    const Route *routes = routes_all(&count);
    if (size == 0) {
        return 0;
    }
    const char *text =
        arena_copy_bytes(&arena, (const char *)data + 1, size - 1);
    ask(&routes[data[0] % count], text, size - 1);
    read_frame((const char *)data, size);
    guard(text);
    return 0;
}
