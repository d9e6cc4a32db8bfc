/* A page that walks another device through trusting the farm's authority. */
#define _GNU_SOURCE
#include "http/trust.h"

#include <errno.h>
#include <netinet/in.h>
#include <stdarg.h>
#include <string.h>

#include <microhttpd.h>

#define CERTIFICATE_PATH "/leat-authority.crt"

enum {
    CONNECTIONS_MOST = 64,
    CONNECTIONS_EACH = 8,
    IDLE_S = 10,
    HEADER_BYTES = 16 * 1024,
    STATUS_OK = 200,
    STATUS_NOT_FOUND = 404,
};

static const char PAGE[] =
    "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width\">\n"
    "<title>Trust this farm's Leat</title>\n<style>body{font:18px/1.5 "
    "sans-serif;max-width:38em;margin:1em auto;padding:0 1em}a.get{display:"
    "inline-block;padding:.7em 1em;border:2px solid;border-radius:.4em;"
    "min-height:48px;box-sizing:border-box}li{margin:.5em 0}</style>\n"
    "</head>\n<body>\n<h1>Trust this farm's Leat</h1>\n"
    "<p>Your phone does not know this farm yet. Once it trusts the farm's own "
    "certificate it opens Leat without a warning, and keeps the pages when "
    "there is no signal. It takes two minutes, once.</p>\n"
    "<p><b>Before you trust it:</b> the person who started Leat sees a line "
    "\"SHA-256\" with 32 pairs of letters and digits. Your phone shows the "
    "same line when it asks. If one pair differs, stop: somebody else is in "
    "between.</p>\n"
    "<p><a class=\"get\" href=\"" CERTIFICATE_PATH "\">Get the certificate"
    "</a></p>\n"
    "<h2>Android</h2>\n<ol><li>Get the certificate; it goes to Downloads.</li>"
    "<li>Settings, search for \"CA certificate\", Install anyway, choose the "
    "file.</li><li>Open Leat at the https address.</li></ol>\n"
    "<h2>iPhone and iPad</h2>\n<ol><li>Get the certificate, Allow.</li>"
    "<li>Settings, Profile Downloaded, Install.</li><li>Settings, General, "
    "About, Certificate Trust Settings: switch this farm on.</li><li>Open Leat "
    "at the https address.</li></ol>\n"
    "<h2>Firefox on any computer</h2>\n<ol><li>Settings, search for "
    "\"certificates\", View Certificates, Authorities, Import.</li><li>Tick "
    "\"identify websites\".</li></ol>\n"
    "<h2>Other computers</h2>\n<ol><li>Windows: open the file, Install, into "
    "\"Trusted Root Certification Authorities\".</li><li>macOS: open the file, "
    "Keychain, Always Trust.</li></ol>\n"
    "<p>The certificate can vouch only for this farm's own names and for "
    "addresses of a house, not for anything on the open network. To take it "
    "back, delete it where it was installed.</p>\n"
    "<p>Without it Leat works too: accept the browser's warning each time. The "
    "pages then live only while the tab is open.</p>\n</body>\n</html>\n";

static enum MHD_Result send_text(struct MHD_Connection *connection,
                                 unsigned status, const char *type,
                                 const char *text)
{
    struct MHD_Response *response = MHD_create_response_from_buffer(
        strlen(text), (void *)text, MHD_RESPMEM_PERSISTENT);
    MHD_add_response_header(response, "Content-Type", type);
    MHD_add_response_header(response, "X-Content-Type-Options", "nosniff");
    MHD_add_response_header(response, "Referrer-Policy", "no-referrer");
    MHD_add_response_header(response, "Cache-Control", "no-store");
    MHD_add_response_header(
        response, "Content-Security-Policy",
        "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; "
        "form-action 'none'; frame-ancestors 'none'");
    enum MHD_Result sent = MHD_queue_response(connection, status, response);
    MHD_destroy_response(response);
    return sent;
}

static enum MHD_Result handle(void *context, struct MHD_Connection *connection,
                              const char *path, const char *method,
                              const char *version, const char *bytes,
                              size_t *length, void **state)
{
    (void)version;
    (void)bytes;
    (void)length;
    (void)state;
    const Trust *trust = context;
    bool is_get = strcmp(method, "GET") == 0;
    if (is_get && strcmp(path, "/") == 0) {
        return send_text(connection, STATUS_OK, "text/html; charset=utf-8",
                         PAGE);
    }
    if (is_get && strcmp(path, CERTIFICATE_PATH) == 0) {
        return send_text(connection, STATUS_OK, "application/x-x509-ca-cert",
                         trust->authority);
    }
    return send_text(connection, STATUS_NOT_FOUND, "text/plain; charset=utf-8",
                     "There is nothing else here.\n");
}

static void drop_log(void *context, const char *format, va_list args)
{
    (void)context;
    (void)format;
    (void)args;
}

Err trust_open(Trust *trust, int port, const char *authority)
{
    trust->authority = authority;
    errno = 0;
    trust->daemon = MHD_start_daemon(
        MHD_USE_EPOLL | MHD_USE_DUAL_STACK | MHD_USE_ERROR_LOG, (uint16_t)port,
        NULL, NULL, handle, trust, MHD_OPTION_EXTERNAL_LOGGER, drop_log, NULL,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS_MOST,
        MHD_OPTION_PER_IP_CONNECTION_LIMIT, (unsigned)CONNECTIONS_EACH,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)IDLE_S,
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)HEADER_BYTES,
        MHD_OPTION_SIGPIPE_HANDLED_BY_APP, 1, MHD_OPTION_END);
    return trust->daemon
               ? ERR_NONE
               : err_make(ERR_BUSY,
                          "port %d, where devices get the certificate, is "
                          "taken; choose another pair with --port",
                          port);
}

void trust_close(Trust *trust)
{
    if (trust->daemon) {
        MHD_stop_daemon(trust->daemon);
        trust->daemon = NULL;
    }
}

int trust_socket(const Trust *trust)
{
    if (!trust->daemon) {
        return -1;
    }
    const union MHD_DaemonInfo *info =
        MHD_get_daemon_info(trust->daemon, MHD_DAEMON_INFO_EPOLL_FD);
    return info->epoll_fd;
}

void trust_step(Trust *trust)
{
    if (trust->daemon) {
        MHD_run_wait(trust->daemon, 0);
    }
}
