/* The server: one thread, one loop. */
#define _GNU_SOURCE
#include "http/serve.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netinet/in.h>
#include <poll.h>
#include <string.h>
#include <sys/resource.h>

#include <microhttpd.h>

#include "desk/child_pool.h"
#include "desk/folder_stamp.h"
#include "http/exchange.h"

enum {
    LOOP_MS = 500, /* the longest wait of the loop */
    CONNECTION_IDLE_S = 60,
    CONNECTION_BYTES = 32 * 1024, /* for headers */
    FILES_WANTED = 2048,
    BACKLOG = 256,
    CLOSING_TURNS = 50,
    POLLS_MOST = 1 + 2 * HELPERS_MOST,
};

/* The library complains of bad clients; nobody needs to read that. */
static void drop_log(void *context, const char *format, va_list args)
{
    (void)context;
    (void)format;
    (void)args;
}

static void widen_file_limit(void)
{
    struct rlimit limit;
    if (getrlimit(RLIMIT_NOFILE, &limit) == 0 &&
        limit.rlim_cur < FILES_WANTED) {
        limit.rlim_cur =
            limit.rlim_max < FILES_WANTED ? limit.rlim_max : FILES_WANTED;
        setrlimit(RLIMIT_NOFILE, &limit);
    }
}

static Err start(Server *server)
{
    const ServeAsk *ask = server->ask;
    struct sockaddr_in address = {.sin_family = AF_INET,
                                  .sin_port = htons((uint16_t)ask->port),
                                  .sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
    unsigned flags =
        MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME | MHD_USE_ERROR_LOG;
    errno = 0;
    server->daemon = MHD_start_daemon(
        flags, (uint16_t)ask->port, NULL, NULL, exchange_handle, server,
        MHD_OPTION_EXTERNAL_LOGGER, drop_log, NULL, MHD_OPTION_SOCK_ADDR,
        &address, MHD_OPTION_NOTIFY_COMPLETED, exchange_completed, server,
        MHD_OPTION_NOTIFY_CONNECTION, exchange_connection, server,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)WATCH_HARD_MOST,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)CONNECTION_IDLE_S,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)CONNECTION_BYTES,
        MHD_OPTION_LISTEN_BACKLOG_SIZE, (unsigned)BACKLOG,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_SIGPIPE_HANDLED_BY_APP, 1,
        MHD_OPTION_END);
    if (!server->daemon) {
        return errno == EADDRINUSE
                   ? err_make(ERR_BUSY,
                              "port %d is taken: is another Leat open? Choose "
                              "one with --port",
                              ask->port)
                   : err_make(ERR_IO, "cannot listen on port %d: %s", ask->port,
                              errno ? strerror(errno) : "no reason given");
    }
    return ERR_NONE;
}

static int epoll_of(struct MHD_Daemon *daemon)
{
    const union MHD_DaemonInfo *info =
        MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_EPOLL_FD);
    return info->epoll_fd;
}

/* Waits until a connection or a helper has something, then serves both. */
static void turn(Server *server)
{
    struct pollfd polls[POLLS_MOST];
    polls[0] =
        (struct pollfd){.fd = epoll_of(server->daemon), .events = POLLIN};
    int count = 1 + helpers_polls(&server->helpers, polls + 1);
    MHD_UNSIGNED_LONG_LONG wanted_ms = LOOP_MS;
    bool has_limit = MHD_get_timeout(server->daemon, &wanted_ms) == MHD_YES;
    int wait_ms =
        has_limit && wanted_ms < LOOP_MS ? (int)wanted_ms : (int)LOOP_MS;
    poll(polls, (nfds_t)count, server->has_woken ? 0 : wait_ms);
    server->has_woken = false;
    int64_t now_ms = server_now_ms();
    helpers_step(&server->helpers, now_ms); /* wakes connections .. */
    MHD_run_wait(server->daemon, 0);        /* .. that ask new questions */
    helpers_step(&server->helpers, now_ms);
    watch_sweep(&server->watches, now_ms);
}

/* All that wait get an answer before the library is stopped. */
static void stop(Server *server)
{
    helpers_close(&server->helpers);
    MHD_quiesce_daemon(server->daemon);
    for (int i = 0; i < CLOSING_TURNS; i++) {
        MHD_run_wait(server->daemon, 0);
    }
    MHD_stop_daemon(server->daemon);
    kept_release(&server->kept);
}

Err serve_run(const ServeAsk *ask, FILE *out)
{
    CLEANUP(arena_release) Arena arena = {0};
    Server *server = ARENA_NEW(&arena, Server);
    FolderStamp stamp;
    TRY(folder_stamp(ask->dir, &stamp));
    server->ask = ask;
    guard_init(&server->guard, ask->port, ask->is_lan);
    widen_file_limit();
    TRY(start(server));
    helpers_open(&server->helpers, ask->dir, child_pool_cores() + 1);
    fprintf(out, "http://localhost:%d/\n", ask->port);
    fflush(out);
    while (!*ask->stop) {
        turn(server);
    }
    stop(server);
    return ERR_NONE;
}
