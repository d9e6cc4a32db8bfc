/* Messages between the server and its helpers: a list of byte strings, each as
 * long as its head says. */
#ifndef LEAT_HTTP_FRAME_H
#define LEAT_HTTP_FRAME_H

#include <stddef.h>

#include "http/request.h"

enum {
    FRAME_PARTS_MOST = 16 + 2 * QUERY_PAIRS_MOST,
    FRAME_MAX_MB = 256, /* of one message */
};

typedef struct FramePart {
    const char *bytes; /* Borrowed; a NUL behind them once read */
    size_t length;
} FramePart;

typedef struct Frame {
    FramePart parts[FRAME_PARTS_MOST];
    int count;
} Frame;

/* The whole message in the arena. */
FramePart frame_write(const Frame *frame, Arena *arena);

/* Reads the message at the start of bytes; *out_used is its length, 0 while it
 * is not yet whole. Its parts lie in bytes. ERR_DEFECT: these are no message.
 */
NODISCARD Err frame_read(const char *bytes, size_t length, Frame *out,
                         size_t *out_used);

/* A request as a message, and back (dir is left as it is). */
Frame frame_of_request(const Request *request, Arena *arena);
NODISCARD Err frame_to_request(const Frame *frame, Arena *arena, Request *out);

/* The same for a reply. */
Frame frame_of_reply(const Reply *reply, Arena *arena);
NODISCARD Err frame_to_reply(const Frame *frame, Reply *out);

#endif
