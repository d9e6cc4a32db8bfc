/* The program: finds the command, runs it, prints its error, says by the exit
 * code how it went. Answers go to stdout, errors to stderr. */
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <unistd.h>

#include "base/tongue.h"
#include "cli/commands.h"

/* A stream that came closed is opened so that it cannot be written (stdin:
 * read); else the next file opened would take its number and be written to. */
static void guard_streams(void)
{
    for (int stream = 0; stream <= STDERR_FILENO; stream++) {
        if (fcntl(stream, F_GETFD) < 0 && errno == EBADF) {
            int mode = stream == STDIN_FILENO ? O_WRONLY : O_RDONLY;
            if (open("/dev/null", mode) != stream) {
                exit(err_exit_code(ERR_IO));
            }
        }
    }
    signal(SIGPIPE, SIG_IGN);
}

/* Whether the reader of stdout has gone, as in `leat help | head -1`. */
static bool reader_is_gone(void)
{
    struct pollfd end = {.fd = STDOUT_FILENO, .events = POLLOUT};
    return poll(&end, 1, 0) == 1 && (end.revents & POLLERR) != 0;
}

/* A reader who left has what he wanted; any other failed write is an error. */
static Err output_finish(void)
{
    bool has_failed = ferror(stdout) != 0;
    errno = 0;
    if (fflush(stdout) != 0 || has_failed) {
        int reason = errno;
        if (reason == EPIPE || reader_is_gone()) {
            return ERR_NONE;
        }
        return err_make(ERR_IO, "cannot write the output: %s",
                        reason ? strerror(reason) : "the write failed");
    }
    return ERR_NONE;
}

/* Where the command takes --language, all that it says is in that one. */
static Err choose_tongue(const Arguments *arguments)
{
    const char *code = arguments_takes(arguments, "language")
                           ? arguments_option(arguments, "language")
                           : NULL;
    const Tongue *tongue = code ? tongue_named(code) : NULL;
    if (code && !tongue) {
        return err_make(ERR_USAGE,
                        "--language: \"%.20s\" is not en, es, fr, pt "
                        "or ar",
                        code);
    }
    arena_speak(arguments->arena, tongue);
    return ERR_NONE;
}

/* out_command: the command that was called, NULL before it is known. */
static Err run(int argc, char **argv, Arena *arena, const Command **out_command)
{
    if (argc < 2 || strcmp(argv[1], "--help") == 0 ||
        strcmp(argv[1], "-h") == 0) {
        command_print_overview(stdout);
        return ERR_NONE;
    }
    const char *name = argv[1];
    if (strcmp(name, "--version") == 0) {
        name = "version";
    }
    if (name[0] == '-') {
        return err_make(ERR_USAGE, "a command comes first, not \"%.60s\"",
                        name);
    }
    TRY(commands_find(name, out_command));
    Arguments arguments = {0};
    TRY(arguments_parse(&(*out_command)->takes, (size_t)argc - 2, argv + 2,
                        arena, &arguments));
    if (arguments.is_help) {
        command_print_help(*out_command, stdout);
        return ERR_NONE;
    }
    TRY(choose_tongue(&arguments));
    return (*out_command)->run(&arguments, stdout);
}

static void print_error(const Err *err, const Command *command)
{
    fprintf(stderr, "leat: %s\n", err->text);
    if (err->kind == ERR_USAGE) {
        fprintf(stderr, "(see: leat help%s%s)\n", command ? " " : "",
                command ? command->name : "");
    }
}

int main(int argc, char **argv)
{
    guard_streams();
    CLEANUP(arena_release) Arena arena = {0};
    const Command *command = NULL;
    Err err = run(argc, argv, &arena, &command);
    Err closing = output_finish();
    if (err.kind == ERR_OK) {
        err = closing;
    }
    if (err.kind != ERR_OK) {
        print_error(&err, command);
    }
    return err_exit_code(err.kind);
}
