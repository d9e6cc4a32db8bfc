/* Helpers that answer what takes longer than the loop may wait. */
#define _GNU_SOURCE
#include "http/helpers.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "http/frame.h"
#include "http/launch.h"

enum { READ_BYTES = 64 * 1024, ANSWERS_MOST = 500 };

struct HelperAsk {
    Arena arena;
    FramePart message;
    HelperDone *done;
    void *context; /* Borrowed from who asked. */
    HelperAsk *next;
};

void helpers_open(Helpers *helpers, const char *dir, int count)
{
    *helpers = (Helpers){.dir = dir, .count = count};
    for (int i = 0; i < HELPERS_MOST; i++) {
        helpers->of[i] = (Helper){.in = -1, .out = -1};
    }
}

static void release_ask(HelperAsk *ask)
{
    Arena arena = ask->arena;
    arena_release(&arena);
}

static void finish(HelperAsk *ask, const Reply *reply)
{
    ask->done(ask->context, reply);
    release_ask(ask);
}

static void finish_with_error(HelperAsk *ask, ErrKind kind, const char *text)
{
    Err err = err_make(kind, "%s", text);
    Reply reply = reply_error(&err, &ask->arena);
    finish(ask, &reply);
}

/* Ends the child; what it was asked is not touched. */
static void end_child(Helper *helper)
{
    if (helper->pid == 0) {
        return;
    }
    launch_end(helper->pid);
    close(helper->in);
    close(helper->out);
    arena_release(&helper->arena);
    HelperAsk *ask = helper->ask;
    *helper = (Helper){.in = -1, .out = -1, .ask = ask};
}

static void put_last(HelperLine *line, HelperAsk *ask)
{
    if (line->first) {
        line->last->next = ask;
    } else {
        line->first = ask;
    }
    line->last = ask;
}

/* The next in turn; NULL: nobody waits. */
static HelperAsk *take_first(Helpers *helpers)
{
    HelperLine *line =
        helpers->urgent.first ? &helpers->urgent : &helpers->rest;
    HelperAsk *ask = line->first;
    if (ask) {
        line->first = ask->next;
        ask->next = NULL;
        helpers->waiting--;
    }
    return ask;
}

void helpers_close(Helpers *helpers)
{
    for (int i = 0; i < helpers->count; i++) {
        Helper *helper = &helpers->of[i];
        end_child(helper);
        if (helper->ask) {
            finish_with_error(helper->ask, ERR_STOPPED, "Leat is closing");
            helper->ask = NULL;
        }
    }
    for (HelperAsk *ask = take_first(helpers); ask; ask = take_first(helpers)) {
        finish_with_error(ask, ERR_STOPPED, "Leat is closing");
    }
    *helpers = (Helpers){.dir = NULL};
}

Err helpers_ask(Helpers *helpers, const Request *request, HelperDone *done,
                void *context)
{
    if (helpers->waiting >= HELPERS_QUEUE_MOST) {
        return err_make(ERR_BUSY, "too many questions at once; ask again");
    }
    Arena arena = {0};
    HelperAsk *ask = ARENA_NEW(&arena, HelperAsk);
    Frame frame = frame_of_request(request, &arena);
    FramePart message = frame_write(&frame, &arena);
    *ask = (HelperAsk){
        .arena = arena, .message = message, .done = done, .context = context};
    bool is_look = strcmp(request->method, "GET") == 0 ||
                   strcmp(request->method, "HEAD") == 0;
    put_last(is_look ? &helpers->rest : &helpers->urgent, ask);
    helpers->waiting++;
    return ERR_NONE;
}

int helpers_polls(const Helpers *helpers, struct pollfd *out)
{
    int count = 0;
    for (int i = 0; i < helpers->count; i++) {
        const Helper *helper = &helpers->of[i];
        if (helper->ask) {
            bool is_all = helper->written == helper->ask->message.length;
            out[count++] = (struct pollfd){.fd = helper->out, .events = POLLIN};
            out[count++] = (struct pollfd){.fd = is_all ? -1 : helper->in,
                                           .events = POLLOUT};
        }
    }
    return count;
}

static void feed(Helper *helper)
{
    const FramePart *message = &helper->ask->message;
    while (helper->written < message->length) {
        ssize_t put = write(helper->in, message->bytes + helper->written,
                            message->length - helper->written);
        if (put < 0 && errno != EINTR) {
            return; /* the pipe is full; a dead child is found by its output */
        }
        helper->written += put > 0 ? (size_t)put : 0;
    }
}

/* False once the child has closed its output. */
static bool drain(Helper *helper)
{
    for (;;) {
        if (helper->length + READ_BYTES > helper->room) {
            size_t room = 2 * helper->room + READ_BYTES;
            helper->bytes = arena_grow(&helper->arena, helper->bytes,
                                       helper->length, room, 1);
            helper->room = room;
        }
        ssize_t got =
            read(helper->out, helper->bytes + helper->length, READ_BYTES);
        if (got == 0 || helper->length > (size_t)FRAME_MAX_MB << 20) {
            return false;
        }
        if (got < 0 && errno != EINTR) {
            return errno == EAGAIN;
        }
        helper->length += got > 0 ? (size_t)got : 0;
    }
}

/* The reply, where it has come whole. */
static Err take_reply(Helper *helper, bool *out_done)
{
    Frame frame;
    size_t used = 0;
    *out_done = false;
    TRY(frame_read(helper->bytes, helper->length, &frame, &used));
    if (used == 0) {
        return ERR_NONE;
    }
    Reply reply;
    TRY(frame_to_reply(&frame, &reply));
    HelperAsk *ask = helper->ask;
    helper->ask = NULL;
    finish(ask, &reply);
    arena_release(&helper->arena);
    helper->bytes = NULL;
    helper->length = 0;
    helper->room = 0;
    helper->answered++;
    *out_done = true;
    return ERR_NONE;
}

static void fail(Helper *helper, ErrKind kind, const char *text)
{
    end_child(helper);
    HelperAsk *ask = helper->ask;
    helper->ask = NULL;
    finish_with_error(ask, kind, text);
}

static void serve(Helper *helper, int64_t now_ms)
{
    bool is_done = false;
    feed(helper);
    bool is_open = drain(helper);
    Err err = take_reply(helper, &is_done);
    if (is_done) {
        if (helper->answered >= ANSWERS_MOST) {
            end_child(helper);
        }
        return;
    }
    if (err.kind != ERR_OK || !is_open) {
        fail(helper, ERR_DEFECT, "the answer could not be worked out");
    } else if (now_ms > helper->until_ms) {
        fail(helper, ERR_BUSY, "the answer took too long and was given up");
    }
}

static Err start_child(const Helpers *helpers, Helper *helper)
{
    char *const words[] = {"leat", "answer", "--", (char *)helpers->dir, NULL};
    Launched child;
    TRY(launch_leat(words, LAUNCH_ANSWERS, &child));
    *helper = (Helper){.pid = child.pid, .in = child.in, .out = child.out};
    return ERR_NONE;
}

static void give_next(Helpers *helpers, Helper *helper, int64_t now_ms)
{
    HelperAsk *ask = take_first(helpers);
    if (!ask) {
        return;
    }
    Err err = helper->pid ? ERR_NONE : start_child(helpers, helper);
    if (err.kind != ERR_OK) {
        finish_with_error(ask, err.kind, err.text);
        return;
    }
    helper->ask = ask;
    helper->written = 0;
    helper->until_ms = now_ms + HELPER_PATIENCE_MS;
    feed(helper);
}

void helpers_step(Helpers *helpers, int64_t now_ms)
{
    for (int i = 0; i < helpers->count; i++) {
        Helper *helper = &helpers->of[i];
        if (helper->ask) {
            serve(helper, now_ms);
        }
        if (!helper->ask) {
            give_next(helpers, helper, now_ms);
        }
    }
}
