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
#include "desk/farm_page.h"
#include "desk/folder_stamp.h"
#include "desk/journal.h"
#include "http/exchange.h"
#include "http/pages.h"

/* No TLS older than 1.2. */
#define TLS_KINDS "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2"

enum {
    LOOP_MS = 500, /* the longest wait of the loop */
    CONNECTION_IDLE_S = 60,
    CONNECTION_BYTES = 32 * 1024, /* for headers */
    FILES_WANTED = 2048,
    BACKLOG = 256,
    CLOSING_TURNS = 50,
    POLLS_MOST = 2 + 2 * HELPERS_MOST + 2 * WORKS_MOST,
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

/* ---- Listening ------------------------------------------------------------
 */

typedef union ListenAddress {
    struct sockaddr any;
    struct sockaddr_in four;
    struct sockaddr_in6 six;
} ListenAddress;

/* The loopback alone; with --lan every address of the machine. */
static ListenAddress address_to_listen(const ServeAsk *ask)
{
    uint16_t port = htons((uint16_t)ask->port);
    if (ask->is_lan) {
        return (ListenAddress){.six = {.sin6_family = AF_INET6,
                                       .sin6_port = port,
                                       .sin6_addr = IN6ADDR_ANY_INIT}};
    }
    return (ListenAddress){.four = {.sin_family = AF_INET,
                                    .sin_port = port,
                                    .sin_addr.s_addr = htonl(INADDR_LOOPBACK)}};
}

static Err say_why_not(const ServeAsk *ask, int reason)
{
    return reason == EADDRINUSE
               ? err_make(ERR_BUSY,
                          "port %d is taken: is another Leat open? Choose one "
                          "with --port",
                          ask->port)
               : err_make(ERR_IO, "cannot listen on port %d: %s", ask->port,
                          reason ? strerror(reason)
                                 : "is the certificate one for its key?");
}

static Err start(Server *server)
{
    const ServeAsk *ask = server->ask;
    ListenAddress address = address_to_listen(ask);
    unsigned flags =
        MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME | MHD_USE_ERROR_LOG;
    flags |= ask->is_lan ? MHD_USE_TLS | MHD_USE_DUAL_STACK : 0;
    struct MHD_OptionItem tls[] = {
        {MHD_OPTION_HTTPS_MEM_CERT, 0, (void *)server->identity.certificate},
        {MHD_OPTION_HTTPS_MEM_KEY, 0, (void *)server->identity.key},
        {MHD_OPTION_HTTPS_PRIORITIES, 0, (void *)TLS_KINDS},
        {MHD_OPTION_PER_IP_CONNECTION_LIMIT, WATCH_PER_ADDRESS, NULL},
        {MHD_OPTION_END, 0, NULL}};
    struct MHD_OptionItem none[] = {{MHD_OPTION_END, 0, NULL}};
    errno = 0;
    server->daemon = MHD_start_daemon(
        flags, (uint16_t)ask->port, NULL, NULL, exchange_handle, server,
        MHD_OPTION_EXTERNAL_LOGGER, drop_log, NULL, MHD_OPTION_SOCK_ADDR,
        &address.any, MHD_OPTION_NOTIFY_COMPLETED, exchange_completed, server,
        MHD_OPTION_NOTIFY_CONNECTION, exchange_connection, server,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)WATCH_HARD_MOST,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)CONNECTION_IDLE_S,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)CONNECTION_BYTES,
        MHD_OPTION_LISTEN_BACKLOG_SIZE, (unsigned)BACKLOG,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_SIGPIPE_HANDLED_BY_APP, 1,
        MHD_OPTION_ARRAY, ask->is_lan ? tls : none, MHD_OPTION_END);
    return server->daemon ? ERR_NONE : say_why_not(ask, errno);
}

/* ---- Other devices --------------------------------------------------------
 */

static Err check_people(const ServeAsk *ask, Arena *arena)
{
    People people;
    TRY(people_read(ask->dir, arena, &people));
    for (int32_t i = 0; i < people.count; i++) {
        if (people.items[i].role == ROLE_OWNER && !people.items[i].is_gone) {
            return ERR_NONE;
        }
    }
    return err_make(ERR_CONFLICT,
                    "--lan asks who it is, and nobody is known yet: leat "
                    "people %.80s add name=.. role=owner",
                    ask->dir);
}

/* Who may come, by which names this is reached, and the certificate. */
static Err prepare_lan(Server *server, Arena *arena)
{
    const ServeAsk *ask = server->ask;
    FarmPage page;
    TRY(check_people(ask, arena));
    identity_names(ask->host, arena, &server->names);
    for (int i = 0; i < server->names.count; i++) {
        guard_add_name(&server->guard, server->names.names[i]);
    }
    if (ask->cert) {
        return identity_given(ask->cert, ask->key, arena, &server->identity);
    }
    TRY(farm_page_make(ask->dir, ask->today, arena, &page));
    const char *name = page.farm->farm_count > 0 ? page.farm->farm[0].name : "";
    return identity_own(ask->dir, name && *name ? name : "farm", &server->names,
                        server_now_s(), arena, &server->identity);
}

static void print_addresses(const Server *server, FILE *out)
{
    const ServeAsk *ask = server->ask;
    if (!ask->is_lan) {
        fprintf(out, "http://localhost:%d/\n", ask->port);
    }
    for (int i = 0; ask->is_lan && i < server->names.count; i++) {
        fprintf(out, "https://%s:%d/\n", server->names.names[i], ask->port);
    }
    if (server->trust.daemon) {
        fprintf(out,
                "A device that does not trust it yet: http://%s:%d/\n"
                "SHA-256 %s\n",
                server->names.names[server->names.count - 1], ask->port + 1,
                server->identity.print);
    }
    if (!pages_are_built()) {
        fputs("(built without its pages; /api answers)\n", out);
    }
    fputs("Ctrl-C closes it.\n", out);
    fflush(out);
}

/* ---- The loop -------------------------------------------------------------
 */

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
    polls[1] =
        (struct pollfd){.fd = trust_socket(&server->trust), .events = POLLIN};
    int count = 2 + helpers_polls(&server->helpers, polls + 2);
    count += works_polls(&server->works, polls + count);
    MHD_UNSIGNED_LONG_LONG wanted_ms = LOOP_MS;
    bool has_limit = MHD_get_timeout(server->daemon, &wanted_ms) == MHD_YES;
    int wait_ms =
        has_limit && wanted_ms < LOOP_MS ? (int)wanted_ms : (int)LOOP_MS;
    poll(polls, (nfds_t)count, server->has_woken ? 0 : wait_ms);
    server->has_woken = false;
    server->is_stamp_fresh = false;
    int64_t now_ms = server_now_ms();
    works_step(&server->works, now_ms); /* wakes connections, as the next .. */
    helpers_step(&server->helpers, now_ms);
    MHD_run_wait(server->daemon, 0); /* .. that ask new questions */
    helpers_step(&server->helpers, now_ms);
    trust_step(&server->trust);
    watch_sweep(&server->watches, now_ms);
}

/* All that wait get an answer before the library is stopped. */
static void stop(Server *server)
{
    helpers_close(&server->helpers);
    works_close(&server->works);
    MHD_quiesce_daemon(server->daemon);
    for (int i = 0; i < CLOSING_TURNS; i++) {
        MHD_run_wait(server->daemon, 0);
    }
    MHD_stop_daemon(server->daemon);
    trust_close(&server->trust);
    kept_release(&server->kept);
    sessions_release(&server->sessions);
}

Err serve_run(const ServeAsk *ask, FILE *out)
{
    CLEANUP(arena_release) Arena arena = {0};
    Server *server = ARENA_NEW(&arena, Server);
    FolderStamp stamp;
    TRY(folder_stamp(ask->dir, &stamp));
    TRY(journal_look_through(ask->dir));
    server->ask = ask;
    guard_init(&server->guard, ask->port, ask->is_lan);
    if (ask->is_lan) {
        TRY(prepare_lan(server, &arena));
    }
    widen_file_limit();
    TRY(start(server));
    if (server->identity.authority) {
        Err err = trust_open(&server->trust, ask->port + 1,
                             server->identity.authority);
        if (err.kind != ERR_OK) {
            MHD_stop_daemon(server->daemon);
            return err;
        }
    }
    helpers_open(&server->helpers, ask->dir, child_pool_cores() + 1);
    works_open(&server->works, ask->dir, ask->today);
    print_addresses(server, out);
    while (!*ask->stop) {
        turn(server);
    }
    stop(server);
    return ERR_NONE;
}
