/* What a helper does. */
#define _DEFAULT_SOURCE
#include "http/answer.h"

#include <errno.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <unistd.h>

#include "http/frame.h"
#include "http/routes.h"

enum { READ_BYTES = 64 * 1024 };

typedef struct Input {
    Arena arena;
    char *bytes;
    size_t length;
    size_t room;
} Input;

/* Reads more; false at the end of the input. */
static Err read_more(int in, Input *input, bool *out_more)
{
    if (input->length + READ_BYTES > input->room) {
        size_t room = 2 * input->room + READ_BYTES;
        input->bytes =
            arena_grow(&input->arena, input->bytes, input->length, room, 1);
        input->room = room;
    }
    ssize_t got = read(in, input->bytes + input->length, READ_BYTES);
    if (got < 0 && errno != EINTR) {
        return err_make(ERR_IO, "no question: %s", strerror(errno));
    }
    input->length += got > 0 ? (size_t)got : 0;
    *out_more = got != 0;
    return ERR_NONE;
}

static Err write_all(int out, const FramePart *message)
{
    size_t at = 0;
    while (at < message->length) {
        ssize_t put = write(out, message->bytes + at, message->length - at);
        if (put < 0 && errno != EINTR) {
            return err_make(ERR_IO, "no answer: %s", strerror(errno));
        }
        at += put > 0 ? (size_t)put : 0;
    }
    return ERR_NONE;
}

static Reply reply_to(const char *dir, const Frame *frame, Arena *arena)
{
    Request request = {.dir = dir};
    const Route *route = NULL;
    Err err = frame_to_request(frame, arena, &request);
    if (err.kind == ERR_OK) {
        err = route_find(request.method, request.path, &route);
    }
    return err.kind == ERR_OK ? route_reply(route, &request, arena)
                              : reply_error(&err, arena);
}

/* Answers what has come whole; what is left stays at the start of input. */
static Err answer_one(const char *dir, int out, Input *input, bool *out_any)
{
    Frame frame;
    size_t used = 0;
    *out_any = false;
    if (input->length == 0) {
        return ERR_NONE;
    }
    TRY(frame_read(input->bytes, input->length, &frame, &used));
    if (used == 0) {
        return ERR_NONE;
    }
    CLEANUP(arena_release) Arena arena = {0};
    Reply reply = reply_to(dir, &frame, &arena);
    Frame answer = frame_of_reply(&reply, &arena);
    FramePart message = frame_write(&answer, &arena);
    TRY(write_all(out, &message));
    memmove(input->bytes, input->bytes + used, input->length - used);
    input->length -= used;
    *out_any = true;
    return ERR_NONE;
}

static void release_input(Input *input)
{
    arena_release(&input->arena);
}

Err answer_serve(const char *dir, int in, int out)
{
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    CLEANUP(release_input) Input input = {.length = 0};
    bool has_more = true;
    while (has_more) {
        bool is_any = true;
        while (is_any) {
            TRY(answer_one(dir, out, &input, &is_any));
        }
        TRY(read_more(in, &input, &has_more));
    }
    return ERR_NONE;
}
