/* leat open DIR: the farm in a browser. */
#include <signal.h>

#include "cli/commands.h"
#include "farm/fields.h"
#include "http/serve.h"

enum { PORT_USUAL = 8137, PORT_LEAST = 1, PORT_MOST = 65535 };

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
                    .stop = &stop_asked};
    int64_t port = PORT_USUAL;
    TRY(arguments_integer(arguments, "port", PORT_LEAST, PORT_MOST, &port));
    TRY(arguments_day(arguments, "today", &ask.today));
    ask.port = (int)port;
    struct sigaction on_stop = {.sa_handler = ask_stop};
    sigaction(SIGINT, &on_stop, NULL);
    sigaction(SIGTERM, &on_stop, NULL);
    return serve_run(&ask, out);
}
