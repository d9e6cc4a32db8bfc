/* Starting this same program as a child. */
#define _GNU_SOURCE
#include "http/launch.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

static Err spawn(char *const *words, int in, int out, pid_t *out_pid)
{
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, in, STDIN_FILENO);
    posix_spawn_file_actions_adddup2(&actions, out, STDOUT_FILENO);
    posix_spawn_file_actions_addclosefrom_np(&actions, STDERR_FILENO + 1);
    posix_spawnattr_t attributes;
    posix_spawnattr_init(&attributes);
    sigset_t none;
    sigemptyset(&none);
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setpgroup(&attributes, 0);
    posix_spawnattr_setflags(&attributes,
                             POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETPGROUP);
    int failed = posix_spawn(out_pid, "/proc/self/exe", &actions, &attributes,
                             words, environ);
    posix_spawnattr_destroy(&attributes);
    posix_spawn_file_actions_destroy(&actions);
    return failed ? err_make(ERR_IO, "a child cannot be started: %s",
                             strerror(failed))
                  : ERR_NONE;
}

Err launch_leat(char *const *words, LaunchPlace place, Launched *out)
{
    int in[2];
    int answer[2];
    if (pipe2(in, O_CLOEXEC) != 0) {
        return err_make(ERR_IO, "no pipe to a child: %s", strerror(errno));
    }
    if (pipe2(answer, O_CLOEXEC) != 0) {
        Err err = err_make(ERR_IO, "no pipe to a child: %s", strerror(errno));
        close(in[0]);
        close(in[1]);
        return err;
    }
    pid_t pid = 0;
    Err err = spawn(words, in[0], answer[1], &pid);
    close(in[0]);
    close(answer[1]);
    if (err.kind != ERR_OK) {
        close(in[1]);
        close(answer[0]);
        return err;
    }
    setpriority(PRIO_PROCESS, (id_t)pid, (int)place);
    fcntl(in[1], F_SETFL, O_NONBLOCK);
    fcntl(answer[0], F_SETFL, O_NONBLOCK);
    *out = (Launched){pid, in[1], answer[0]};
    return ERR_NONE;
}

void launch_end(pid_t pid)
{
    kill(-pid, SIGKILL);
    kill(pid, SIGKILL);
    while (waitpid(pid, NULL, 0) < 0 && errno == EINTR) {
    }
}
