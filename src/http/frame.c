/* Messages between the server and its helpers. */
#include "http/frame.h"

#include <assert.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Head: so many numbers of 64 bits, the count of parts and the length of each.
 * Server and helper are the same program on the same machine. */
enum { MAGIC = 0x4c454154 };

static size_t head_bytes(int count)
{
    return ((size_t)count + 2) * sizeof(uint64_t);
}

FramePart frame_write(const Frame *frame, Arena *arena)
{
    size_t length = head_bytes(frame->count);
    for (int i = 0; i < frame->count; i++) {
        length += frame->parts[i].length + 1;
    }
    char *bytes = arena_alloc(arena, length, 1);
    uint64_t head[FRAME_PARTS_MOST + 2] = {MAGIC, (uint64_t)frame->count};
    size_t at = head_bytes(frame->count);
    for (int i = 0; i < frame->count; i++) {
        const FramePart *part = &frame->parts[i];
        head[i + 2] = part->length;
        if (part->length > 0) {
            memcpy(bytes + at, part->bytes, part->length);
        }
        at += part->length + 1;
    }
    memcpy(bytes, head, head_bytes(frame->count));
    return (FramePart){bytes, length};
}

static Err read_head(const char *bytes, size_t length, uint64_t *head,
                     bool *out_whole)
{
    *out_whole = false;
    if (length < head_bytes(0)) {
        return ERR_NONE;
    }
    memcpy(head, bytes, head_bytes(0));
    if (head[0] != MAGIC || head[1] > FRAME_PARTS_MOST) {
        return err_make(ERR_DEFECT, "a helper's message cannot be read");
    }
    if (length < head_bytes((int)head[1])) {
        return ERR_NONE;
    }
    memcpy(head, bytes, head_bytes((int)head[1]));
    *out_whole = true;
    return ERR_NONE;
}

Err frame_read(const char *bytes, size_t length, Frame *out, size_t *out_used)
{
    uint64_t head[FRAME_PARTS_MOST + 2] = {0};
    bool is_whole = false;
    *out_used = 0;
    TRY(read_head(bytes, length, head, &is_whole));
    if (!is_whole) {
        return ERR_NONE;
    }
    Frame frame = {.count = (int)head[1]};
    size_t at = head_bytes(frame.count);
    for (int i = 0; i < frame.count; i++) {
        if (head[i + 2] > (uint64_t)FRAME_MAX_MB << 20) {
            return err_make(ERR_DEFECT, "a helper's message is too long");
        }
        frame.parts[i] = (FramePart){bytes + at, (size_t)head[i + 2]};
        at += frame.parts[i].length + 1;
    }
    if (at <= length) {
        *out = frame;
        *out_used = at;
    }
    return ERR_NONE;
}

static void put(Frame *frame, const char *text)
{
    text = text ? text : "";
    frame->parts[frame->count++] = (FramePart){text, strlen(text)};
}

static int64_t number_of(const FramePart *part)
{
    return strtoll(part->bytes, NULL, 10);
}

enum {
    REQUEST_METHOD,
    REQUEST_PATH,
    REQUEST_BODY,
    REQUEST_TODAY,
    REQUEST_TYPE,
    REQUEST_DEVICE,
    REQUEST_TONGUE,

    REQUEST_WHO,
    REQUEST_ROLE,
    REQUEST_HAND,
    REQUEST_LANGUAGE,
    REQUEST_SESSION,
    REQUEST_FLAGS,
    REQUEST_PAIRS,
};

enum { FLAG_US_UNITS = 1, FLAG_LAN = 2 };

static void put_requester(Frame *frame, const Requester *by, Arena *arena)
{
    int flags =
        (by->is_us_units ? FLAG_US_UNITS : 0) | (by->is_lan ? FLAG_LAN : 0);
    put(frame, by->who);
    put(frame, arena_text(arena, "%d", (int)by->role));
    put(frame, by->hand);
    put(frame, by->language);
    put(frame, by->session);
    put(frame, arena_text(arena, "%d", flags));
}

static Requester requester_of(const Frame *frame)
{
    int64_t role = number_of(&frame->parts[REQUEST_ROLE]);
    int64_t flags = number_of(&frame->parts[REQUEST_FLAGS]);
    return (Requester){
        .who = frame->parts[REQUEST_WHO].bytes,
        .role = role >= ROLE_ANYONE && role <= ROLE_OWNER ? (PeopleRole)role
                                                          : ROLE_ANYONE,
        .hand = frame->parts[REQUEST_HAND].bytes,
        .language = frame->parts[REQUEST_LANGUAGE].bytes,
        .session = frame->parts[REQUEST_SESSION].bytes,
        .is_us_units = (flags & FLAG_US_UNITS) != 0,
        .is_lan = (flags & FLAG_LAN) != 0,
    };
}

Frame frame_of_request(const Request *request, Arena *arena)
{
    Frame frame = {.count = 0};
    put(&frame, request->method);
    put(&frame, request->path);
    frame.parts[frame.count++] =
        (FramePart){request->body, request->body_length};
    put(&frame, arena_text(arena, "%" PRId32, request->today));
    put(&frame, request->content_type);
    put(&frame, request->device);
    put(&frame, request->tongue ? request->tongue->code : "");
    put_requester(&frame, &request->requester, arena);
    for (int i = 0; i < request->query_count; i++) {
        put(&frame, request->query[i].key);
        put(&frame, request->query[i].value);
    }
    return frame;
}

Err frame_to_request(const Frame *frame, Arena *arena, Request *out)
{
    if (frame->count < REQUEST_PAIRS || (frame->count - REQUEST_PAIRS) % 2) {
        return err_make(ERR_DEFECT, "a message that is no request");
    }
    Request request = {
        .dir = out->dir,
        .method = frame->parts[REQUEST_METHOD].bytes,
        .path = frame->parts[REQUEST_PATH].bytes,
        .body = frame->parts[REQUEST_BODY].bytes,
        .body_length = frame->parts[REQUEST_BODY].length,
        .today = (int32_t)number_of(&frame->parts[REQUEST_TODAY]),
        .requester = requester_of(frame),
        .content_type = frame->parts[REQUEST_TYPE].bytes,
        .device = frame->parts[REQUEST_DEVICE].bytes,
        .tongue = tongue_named(frame->parts[REQUEST_TONGUE].bytes),
    };
    for (int i = REQUEST_PAIRS; i < frame->count; i += 2) {
        const FramePart *key = &frame->parts[i];
        const FramePart *value = &frame->parts[i + 1];
        TRY(request_add(&request, key->bytes, key->length, value->bytes,
                        value->length, arena));
    }
    *out = request;
    return ERR_NONE;
}

enum { REPLY_STATUS, REPLY_TYPE, REPLY_BODY, REPLY_SESSION, REPLY_PARTS };

Frame frame_of_reply(const Reply *reply, Arena *arena)
{
    Frame frame = {.count = 0};
    put(&frame, arena_text(arena, "%d", reply->status));
    put(&frame, reply->type);
    frame.parts[frame.count++] = (FramePart){reply->body, reply->length};
    if (reply->session) {
        put(&frame, reply->session);
    }
    return frame;
}

Err frame_to_reply(const Frame *frame, Reply *out)
{
    if (frame->count < REPLY_SESSION || frame->count > REPLY_PARTS) {
        return err_make(ERR_DEFECT, "a message that is no reply");
    }
    int64_t status = number_of(&frame->parts[REPLY_STATUS]);
    if (status < 100 || status > 599) {
        return err_make(ERR_DEFECT, "a reply without a status");
    }
    *out = (Reply){.status = (int)status,
                   .type = frame->parts[REPLY_TYPE].bytes,
                   .body = frame->parts[REPLY_BODY].bytes,
                   .length = frame->parts[REPLY_BODY].length,
                   .session = frame->count > REPLY_SESSION
                                  ? frame->parts[REPLY_SESSION].bytes
                                  : NULL};
    return ERR_NONE;
}
