/* Heavy work in child processes: this same program as `leat child`. */
#define _GNU_SOURCE
#include "desk/child_pool.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <sched.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

enum { LINE_MAX_BYTES = 256 * 1024 * 1024, READ_BYTES = 64 * 1024 };

/* One running child; job is PLACE_FREE where the place is free. */
enum { PLACE_FREE = -1 };
typedef struct Running {
    int job;
    pid_t pid;
    int in;  /* its standard input, -1 once all is written */
    int out; /* its standard output */
    size_t written;
    size_t length;
    char *text; /* what it wrote since the last newline; grows in the arena */
    size_t text_length;
    size_t text_room;
    bool is_asked_to_stop;
} Running;

int child_pool_cores(void)
{
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) != 0) {
        return 1;
    }
    int count = CPU_COUNT(&set);
    return count < 1 ? 1 : count;
}

static void close_end(int *fd)
{
    if (*fd >= 0) {
        close(*fd);
        *fd = -1;
    }
}

static Err start(Running *child, int job, const char *problem)
{
    int in[2] = {-1, -1};
    int out[2] = {-1, -1};
    if (pipe2(in, O_CLOEXEC) != 0 || pipe2(out, O_CLOEXEC) != 0) {
        Err err = err_make(ERR_IO, "no pipe to a child: %s", strerror(errno));
        close_end(&in[0]);
        close_end(&in[1]);
        return err;
    }
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, in[0], STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions, out[1], STDOUT_FILENO);
    char *const words[] = {"leat", "child", NULL};
    /* Interrupts wait until the child is ready to hear them. */
    posix_spawnattr_t attributes;
    posix_spawnattr_init(&attributes);
    sigset_t interrupt;
    sigemptyset(&interrupt);
    sigaddset(&interrupt, SIGINT);
    posix_spawnattr_setsigmask(&attributes, &interrupt);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
    pid_t pid = 0;
    int failed = posix_spawn(&pid, "/proc/self/exe", &actions, &attributes,
                             words, environ);
    posix_spawnattr_destroy(&attributes);
    posix_spawn_file_actions_destroy(&actions);
    close_end(&in[0]);
    close_end(&out[1]);
    if (failed) {
        close_end(&in[1]);
        close_end(&out[0]);
        return err_make(ERR_IO, "a child cannot be started: %s",
                        strerror(failed));
    }
    fcntl(in[1], F_SETFL, O_NONBLOCK);
    fcntl(out[0], F_SETFL, O_NONBLOCK);
    *child = (Running){.job = job,
                       .pid = pid,
                       .in = in[1],
                       .out = out[0],
                       .length = strlen(problem)};
    return ERR_NONE;
}

/* Writes what the pipe takes; a child that no longer reads is found out by
 * its missing answer. */
static void feed(Running *child, const char *problem)
{
    while (child->written < child->length) {
        ssize_t put = write(child->in, problem + child->written,
                            child->length - child->written);
        if (put < 0 && errno == EINTR) {
            continue;
        }
        if (put < 0 && errno == EAGAIN) {
            return;
        }
        if (put < 0) {
            break;
        }
        child->written += (size_t)put;
    }
    close_end(&child->in);
}

/* Appends bytes and hands over every whole line but keeps the last. */
static void take_bytes(Running *child, const ChildPool *pool, const char *bytes,
                       size_t count, Arena *arena)
{
    if (child->text_length + count + 1 > child->text_room) {
        size_t room = 2 * (child->text_length + count + 1);
        child->text =
            arena_grow(arena, child->text, child->text_length, room, 1);
        child->text_room = room;
    }
    memcpy(child->text + child->text_length, bytes, count);
    child->text_length += count;
    child->text[child->text_length] = '\0';
    for (;;) {
        char *end = memchr(child->text, '\n', child->text_length);
        if (!end || end + 1 == child->text + child->text_length) {
            return;
        }
        *end = '\0';
        if (pool->progress) {
            pool->progress(pool->context, child->job, child->text);
        }
        child->text_length -= (size_t)(end + 1 - child->text);
        memmove(child->text, end + 1, child->text_length + 1);
    }
}

/* True once the child has closed its output. */
static bool drain(Running *child, const ChildPool *pool, Arena *arena)
{
    char bytes[READ_BYTES];
    for (;;) {
        ssize_t got = read(child->out, bytes, sizeof bytes);
        if (got > 0) {
            take_bytes(child, pool, bytes, (size_t)got, arena);
            if (child->text_length > LINE_MAX_BYTES) {
                return true;
            }
        } else if (got == 0) {
            return true;
        } else if (errno != EINTR) {
            return errno != EAGAIN;
        }
    }
}

static Err finish(Running *child, ChildJob *jobs)
{
    close_end(&child->in);
    close_end(&child->out);
    int status = 0;
    while (waitpid(child->pid, &status, 0) < 0 && errno == EINTR) {
    }
    int job = child->job;
    child->job = PLACE_FREE;
    if (WIFSIGNALED(status)) {
        return err_make(ERR_DEFECT, "child %d was ended by signal %d", job,
                        WTERMSIG(status));
    }
    if (WEXITSTATUS(status) != 0 || child->text_length == 0) {
        return err_make(ERR_DEFECT, "child %d gave no answer (exit %d)", job,
                        WEXITSTATUS(status));
    }
    if (child->text[child->text_length - 1] == '\n') {
        child->text[child->text_length - 1] = '\0';
    }
    jobs[job].answer = child->text;
    return ERR_NONE;
}

static void end_all(Running *children, int count)
{
    for (int i = 0; i < count; i++) {
        if (children[i].job != PLACE_FREE) {
            kill(children[i].pid, SIGKILL);
            close_end(&children[i].in);
            close_end(&children[i].out);
            while (waitpid(children[i].pid, NULL, 0) < 0 && errno == EINTR) {
            }
            children[i].job = PLACE_FREE;
        }
    }
}

static void ask_to_stop(const ChildPool *pool, Running *children)
{
    for (int i = 0; pool->stop && *pool->stop && i < pool->at_once; i++) {
        if (children[i].job != PLACE_FREE && !children[i].is_asked_to_stop) {
            kill(children[i].pid, SIGINT);
            children[i].is_asked_to_stop = true;
        }
    }
}

/* Waits until some child can take or give something, at most a tenth of a
 * second: a stop may be asked for just before. */
static void wait_for_any(const Running *children, int at_once,
                         struct pollfd *polls)
{
    for (int i = 0; i < at_once; i++) {
        bool is_free = children[i].job == PLACE_FREE;
        polls[2 * i] = (struct pollfd){.fd = is_free ? -1 : children[i].in,
                                       .events = POLLOUT};
        polls[2 * i + 1] = (struct pollfd){.fd = is_free ? -1 : children[i].out,
                                           .events = POLLIN};
    }
    poll(polls, 2 * (nfds_t)at_once, 100);
}

/* Serves every child once; *done counts the answers. */
static Err serve(const ChildPool *pool, Running *children, ChildJob *jobs,
                 int *done, Arena *arena)
{
    for (int i = 0; i < pool->at_once; i++) {
        Running *child = &children[i];
        if (child->job == PLACE_FREE) {
            continue;
        }
        if (child->in >= 0) {
            feed(child, jobs[child->job].problem);
        }
        if (drain(child, pool, arena)) {
            TRY(finish(child, jobs));
            (*done)++;
        }
    }
    return ERR_NONE;
}

static Err run(const ChildPool *pool, Running *children, ChildJob *jobs,
               int count, Arena *arena)
{
    struct pollfd *polls = ARENA_ARRAY(arena, struct pollfd, 2 * pool->at_once);
    int next = 0;
    int done = 0;
    while (done < count) {
        for (int i = 0; i < pool->at_once && next < count; i++) {
            if (children[i].job == PLACE_FREE) {
                TRY(start(&children[i], next, jobs[next].problem));
                next++;
            }
        }
        ask_to_stop(pool, children);
        wait_for_any(children, pool->at_once, polls);
        TRY(serve(pool, children, jobs, &done, arena));
    }
    return ERR_NONE;
}

Err child_pool_run(const ChildPool *pool, ChildJob *jobs, int count,
                   Arena *arena)
{
    Running *children = ARENA_ARRAY(arena, Running, pool->at_once);
    for (int i = 0; i < pool->at_once; i++) {
        children[i] = (Running){.job = PLACE_FREE, .in = -1, .out = -1};
    }
    struct sigaction ignore = {.sa_handler = SIG_IGN};
    struct sigaction before;
    sigaction(SIGPIPE, &ignore, &before);
    Err err = run(pool, children, jobs, count, arena);
    end_all(children, pool->at_once);
    sigaction(SIGPIPE, &before, NULL);
    return err;
}
