/* leat open DIR: the farm in a browser. */
#include <signal.h>

#include "cli/commands.h"
#include "farm/fields.h"
#include "http/serve.h"

enum { PORT_USUAL = 8137, PORT_LEAST = 1, PORT_MOST = 65534 };

static volatile sig_atomic_t stop_asked;

static void ask_stop(int number)
{
    (void)number;
    stop_asked = 1;
}

Err cmd_open(const Arguments *arguments, FILE *out)
{
    ServeAsk ask = {.dir = arguments_word(arguments, 0),
                    .today = DATE_ALWAYS,
                    .is_lan = arguments_has(arguments, "lan"),
                    .cert = arguments_option(arguments, "cert"),
                    .key = arguments_option(arguments, "key"),
                    .host = arguments_option(arguments, "host"),
                    .stop = &stop_asked};
    if ((ask.cert == NULL) != (ask.key == NULL)) {
        return err_make(ERR_USAGE, "--cert and --key go together");
    }
    if (!ask.is_lan && (ask.cert || ask.host)) {
        return err_make(ERR_USAGE, "--cert, --key and --host go with --lan");
    }
    int64_t port = PORT_USUAL;
    TRY(arguments_integer(arguments, "port", PORT_LEAST, PORT_MOST, &port));
    TRY(arguments_day(arguments, "today", &ask.today));
    ask.port = (int)port;
    struct sigaction on_stop = {.sa_handler = ask_stop};
    sigaction(SIGINT, &on_stop, NULL);
    sigaction(SIGTERM, &on_stop, NULL);
    return serve_run(&ask, out);
}
