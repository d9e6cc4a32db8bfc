/* What the server's parts share. */
#ifndef LEAT_HTTP_SERVER_H
#define LEAT_HTTP_SERVER_H

#include "desk/folder_stamp.h"
#include "desk/identity.h"
#include "http/guard.h"
#include "http/helpers.h"
#include "http/kept.h"
#include "http/routes.h"
#include "http/serve.h"
#include "http/sessions.h"
#include "http/trust.h"
#include "http/watch.h"
#include "http/works.h"

struct MHD_Daemon;
struct MHD_Connection;

typedef struct Server {
    const ServeAsk *ask; /* Borrowed. */
    struct MHD_Daemon *daemon;
    Guard guard;
    CertificateNames names; /* of this machine; with --lan, as the next two */
    Identity identity;
    Trust trust;
    Helpers helpers;
    Works works;
    KeptAll kept;
    Sessions sessions;
    Watches watches;
    size_t body_bytes;   /* of bodies that are coming in */
    FolderStamp stamp;   /* of the farm's folder, once a turn of the loop */
    bool is_stamp_fresh; /* */
    uint64_t told;       /* writes that went through this server: two within a
                            tick of the file system's clock are told apart */
    bool has_woken;      /* a connection goes on: do not wait */
} Server;

/* One request on its way. */
struct Exchange {
    Arena arena;
    Server *server; /* Borrowed, as the next two. */
    struct MHD_Connection *connection;
    Watch *watch;
    const Route *route; /* NULL: a page */
    Request request;
    char *body;
    size_t body_room;
    bool is_body_too_long;
    bool is_answered;              /* the answer is in one of the next two */
    Kept *kept;                    /* Borrowed: counted among its users. */
    struct MHD_Response *response; /* Owned. */
    int status;
    size_t answer_bytes;
    Exchange *next_waiting; /* for the same kept answer */
};

int64_t server_now_ms(void);
int64_t server_now_s(void);

#endif
