/* The one table of routes. `GET /api`, the documentation and the contract test
 * are made from it; to add a route, write http/api_NAME.c, declare its two
 * functions below and give it a row in routes.c. */
#ifndef LEAT_HTTP_ROUTES_H
#define LEAT_HTTP_ROUTES_H

#include "http/request.h"

/* A key that may stand after the ? of an address. */
typedef struct RouteKey {
    const char *name;    /* "week"; a list ends with NULL */
    const char *value;   /* an example: "2027-W14" */
    const char *meaning; /* one line */
    bool is_needed;
} RouteKey;

/* What a route costs, and how long its answer holds. */
typedef enum RouteCost {
    ROUTE_HERE,   /* within a millisecond, in the server's own loop */
    ROUTE_KEPT,   /* in a helper; the answer is kept while the farm's folder and
                     the quarter of an hour stay as they are */
    ROUTE_MINUTE, /* the same, but by the minute: it depends on the hour */
    ROUTE_ONCE,   /* in a helper; never kept: it changes something */
    ROUTE_LOGIN,  /* the same, and only so often */
    ROUTE_WORK,   /* the server itself: plans and many years (http/works.h) */
} RouteCost;

/* Reads query and body into the route's question. What is wrong with them is
 * ERR_USAGE, ERR_INPUT or ERR_RANGE. Touches no file and no clock. */
typedef Err RouteDecode(const Request *request, Arena *arena, void *question);

/* Calls one function of desk/ and writes its answer as JSON. */
typedef Err RouteAnswer(const void *question, Arena *arena, Reply *out);

typedef struct Route {
    const char *method;
    const char *path;
    PeopleRole role; /* the least that may ask */
    RouteCost cost;
    const char *purpose; /* one line */
    const RouteKey *keys;
    bool is_of_tables;     /* the answer does not depend on what was told */
    bool by_person;        /* the answer depends on who asks */
    bool takes_media;      /* its body is a picture or a sound, not JSON */
    bool takes_any_key;    /* the route checks its keys itself */
    size_t body_max_bytes; /* 0: takes no body */
    RouteDecode *decode;
    RouteAnswer *answer;
} Route;

/* No route's question is larger (checked where it is declared). */
enum { ROUTE_QUESTION_MOST = 1024 };
#define ROUTE_QUESTION(type)                                                   \
    _Static_assert(sizeof(type) <= ROUTE_QUESTION_MOST, "question too large")

const Route *routes_all(size_t *out_count);

/* The route of a method and path. ERR_NOT_FOUND: no such path; ERR_USAGE: the
 * path is there, but not for that method. HEAD is taken as GET. */
NODISCARD Err route_find(const char *method, const char *path,
                         const Route **out);

/* Whether the query's keys are the route's, each once. ERR_USAGE with the
 * nearest key. */
NODISCARD Err route_check_keys(const Route *route, const Request *request);

/* Checks keys and decodes; question holds ROUTE_QUESTION_MOST bytes, aligned
 * for anything. */
NODISCARD Err route_decode(const Route *route, const Request *request,
                           Arena *arena, void *question);

/* Decodes and answers; errors become replies. The whole of a request but
 * socket, headers and rights. */
Reply route_reply(const Route *route, const Request *request, Arena *arena);

/* Keys of all routes that name a day. */
#define KEY_TODAY                                                              \
    {                                                                          \
        "today", "2027-04-07", "as if it were that day", false                 \
    }

/* The key that every route takes: what its sentences are said in. */
#define KEY_LANGUAGE "language"

/* Every route's two functions, api_NAME_decode and api_NAME_answer. */
/* clang-format off */
#define ROUTE_FUNCTIONS(R)                                                     \
    R(routes) R(farm) R(jobs) R(check) R(sums) R(sum) R(foresee) R(carry)      \
    R(heat) R(year) R(alter) R(compare) R(plans) R(card) R(card_page) R(emergency) R(reading) R(dose)       \
    R(round) R(tables) R(table) R(put_table) R(vent) R(login)       \
    R(logout) R(me) R(post_me) R(people) R(journal) R(post_journal) R(settle) \
    R(blob) R(post_blob) R(work) R(post_work) R(delete_work) R(accept) \
    R(beds) R(bed) R(fish) R(orders) R(lots) R(sheets) R(print) R(water) R(working)
/* clang-format on */
#define ROUTE_PROTOTYPES(name)                                                 \
    RouteDecode api_##name##_decode;                                           \
    RouteAnswer api_##name##_answer;
ROUTE_FUNCTIONS(ROUTE_PROTOTYPES)
#undef ROUTE_PROTOTYPES

#endif
