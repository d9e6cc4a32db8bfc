/* The one table of routes. */
#include "http/routes.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "json/compare.h"
#include "json/table.h"
#include "json/told.h"
#include "json/work.h"
#include "store/store.h"

#define KEYS(...)                                                              \
    (const RouteKey[])                                                         \
    {                                                                          \
        __VA_ARGS__,                                                           \
        {                                                                      \
            NULL, NULL, NULL, false                                            \
        }                                                                      \
    }
#define CALLS(name) .decode = api_##name##_decode, .answer = api_##name##_answer

#define WATER_KEYS                                                             \
    {"tank", "A", "where it was read, or", false},                             \
        {"loop", "loop-1", "where", false},                                    \
        {"tan_mg_l", "1.5", "total ammonia nitrogen", false},                  \
        {"nitrite_mg_l", "0.3", "nitrite nitrogen", false},                    \
        {"nitrate_mg_l", "60", "nitrate nitrogen", false},                     \
        {"chloride_mg_l", "60", "chloride", false},                            \
        {"ph", "6.4", "pH", false},                                            \
        {"alkalinity_mg_l", "30", "alkalinity, as CaCO3", false},              \
        {"temp_degc", "24", "temperature", false},                             \
        {"oxygen_mg_l", "5.8", "oxygen", false},                               \
        {"iron_mg_l", "1", "iron", false},                                     \
        {"at", "07:30", "when; or 2027-03-02T07:30; without: now", false},     \
        KEY_TODAY

#define CARD_KEYS                                                              \
    {"pump", "pump-1", "this pump stands still, or", false},                   \
        {"heater", "pellets-1", "this heater is cold, or", false},             \
        {"aerator", "blower-1", "this blower has stopped, or", false},         \
        {"power", "all", "there is no power", false},                          \
        {"at", "02:10", "when; without: now", false},                          \
        {"tank", "A", "the tank of the next two; without: all", false},        \
        {"oxygen_mg_l", "5.8", "oxygen as just read", false},                  \
        {"temp_degc", "26", "water as just read", false},                      \
        {"fed_hours_ago", "9", "since the last meal", false},                  \
        {"outside_degc", "-2", "the night's air", false}, KEY_TODAY

enum { SMALL_BODY_BYTES = 4096 };

#define NO_BLOB                                                                \
    "0000000000000000000000000000000000000000000000000000000000000000"

/* A sheet for paper. */
#define PRINT(kind, what)                                                      \
    {                                                                          \
        "GET", "/print/" kind, ROLE_HAND, ROUTE_KEPT,                          \
            "a sheet for paper: " what,                                        \
            KEYS({"day", "2027-04-07", "of that day", false}), CALLS(print)    \
    }

/* clang-format off */
static const Route ROUTES[] = {
    {"GET", "/api", ROLE_ANYONE, ROUTE_KEPT,
     "what can be asked here", NULL, CALLS(routes), .is_of_tables = true},
    {"GET", "/api/me", ROLE_ANYONE, ROUTE_HERE,
     "who asks, and whether somebody has to log in", NULL, CALLS(me)},
    {"POST", "/api/me", ROLE_READER, ROUTE_ONCE,
     "one's own language and units", NULL, CALLS(post_me),
     .body_max_bytes = SMALL_BODY_BYTES},
    {"POST", "/api/login", ROLE_ANYONE, ROUTE_LOGIN,
     "begin a session, with name and passphrase", NULL, CALLS(login),
     .body_max_bytes = SMALL_BODY_BYTES},
    {"POST", "/api/logout", ROLE_ANYONE, ROUTE_ONCE,
     "end it", NULL, CALLS(logout), .body_max_bytes = SMALL_BODY_BYTES},
    {"GET", "/api/people", ROLE_GROWER, ROUTE_KEPT,
     "who may log in, and as what", NULL, CALLS(people)},
    {"GET", "/api/farm", ROLE_READER, ROUTE_KEPT,
     "name, day, the walk: tunnels, beds, tanks, pumps, people",
     KEYS(KEY_TODAY), CALLS(farm), .is_of_tables = true},
    {"GET", "/api/round", ROLE_HAND, ROUTE_KEPT,
     "the day's walk: stops, what to look at, do, feed and test",
     KEYS({"day", "2027-04-07", "that day; without: today", false}),
     CALLS(round)},
    {"GET", "/api/jobs", ROLE_READER, ROUTE_KEPT,
     "the jobs of a week, people's hours, what goes in the van",
     KEYS({"week", "2027-W14", "that week", false},
          {"day", "2027-04-07", "the week of that day", false},
          KEY_TODAY), CALLS(jobs)},
    {"GET", "/api/check", ROLE_READER, ROUTE_KEPT,
     "every fault of the farm's tables, with its place",
     KEYS({"all", "yes", "all of them, not only the first 1,000", false}),
     CALLS(check), .is_of_tables = true},
    {"GET", "/api/sums", ROLE_READER, ROUTE_KEPT,
     "the calculations there are, with their keys", NULL, CALLS(sums),
     .is_of_tables = true},
    {"GET", "/api/sum", ROLE_READER, ROUTE_HERE,
     "one calculation, with its working; its own keys besides name",
     KEYS({"name", "unionised-ammonia", "of /api/sums", true}), CALLS(sum),
     .takes_any_key = true},
    {"GET", "/api/foresee", ROLE_READER, ROUTE_KEPT,
     "what the weeks bring: picks, fish, feed, water, air",
     KEYS({"way", "lettuce-head", "and its days by month and bed", false},
          {"tank", "A", "one tank", false},
          {"loop", "loop-1", "one loop", false},
          {"over_g", "450", "fish are ready from this weight", false},
          {"weeks", "26", "1 to 104", false}, KEY_TODAY), CALLS(foresee)},
    {"GET", "/api/carry", ROLE_READER, ROUTE_KEPT,
     "whether the fish carry the beds: what runs short, when",
     KEYS({"loop", "loop-1", "one loop", false},
          {"weeks", "52", "1 to 104", false},
          {"iron", "yes", "as if iron is given every three weeks", false},
          {"spell_k", "-8", "other weather: so much warmer, below 0 colder",
           false},
          {"spell_d", "7", "for so many days", false},
          {"spell_from", "2027-05-01", "from then", false}),
     CALLS(carry)},
    {"GET", "/api/heat", ROLE_READER, ROUTE_KEPT,
     "floors of the water compared, plants in a hot spell",
     KEYS({"floors", "16,18,20,22", "water floors in degC, up to 8", false},
          {"spell_k", "6", "a hot spell: so many K over the usual", false},
          {"spell_d", "14", "for so many days", false},
          {"spell_from", "2027-06-21", "from then", false},
          {"weeks", "52", "4 to 104", false}, KEY_TODAY), CALLS(heat)},
    {"GET", "/api/vent", ROLE_READER, ROUTE_KEPT,
     "when to open each tunnel and how wide, and what the moulds make of it",
     KEYS({"day", "2027-04-07", "that day; without: today", false}),
     CALLS(vent)},
    {"GET", "/api/year", ROLE_READER, ROUTE_KEPT,
     "the accepted plan: promises by week, batches, fish, money",
     KEYS({"plan", "accepted", "or before, draft, changed: of those kept",
           false}, KEY_TODAY), CALLS(year)},
    {"GET", "/api/plans", ROLE_READER, ROUTE_KEPT,
     "the plans there are: accepted, before, draft, changed", NULL,
     CALLS(plans)},
    {"GET", "/api/compare", ROLE_READER, ROUTE_KEPT,
     "two plans side by side: value, orders' weeks, batches by week",
     KEYS({"one", "accepted", "without: before", false},
          {"two", "accepted", "without: accepted", false},
          KEY_TODAY), CALLS(compare)},
    {"POST", "/api/alter", ROLE_GROWER, ROUTE_ONCE,
     "change a plan by hand: what breaks, which weeks turn, what it earns",
     NULL, CALLS(alter), .body_max_bytes = ALTER_JSON_MAX_BYTES},
    {"GET", "/api/beds", ROLE_HAND, ROUTE_KEPT,
     "the walk's stops with their beds: what stands, its age, what comes next",
     KEYS(KEY_TODAY), CALLS(beds)},
    {"GET", "/api/bed", ROLE_HAND, ROUTE_KEPT, "one bed, with its history",
     KEYS({"id", "H1-S1", "the bed", true}, KEY_TODAY), CALLS(bed)},
    {"GET", "/api/fish", ROLE_HAND, ROUTE_KEPT,
     "tanks and fish batches; a grading with its balance before it is told",
     KEYS({"tank", "A", "one tank", false},
          {"sale_g", "450", "fish are ready from this weight", false},
          {"cut_g", "300", "grade that tank: those heavier go", false},
          {"to", "B", "to this tank", false}, KEY_TODAY), CALLS(fish)},
    {"GET", "/api/orders", ROLE_READER, ROUTE_KEPT,
     "orders, closures, what is kept and short, what can be offered",
     KEYS({"weeks", "10", "1 to 26", false},
          {"product", "basil", "of which there is less than ordered", false},
          {"have", "4", "so many units of it", false}, KEY_TODAY),
     CALLS(orders)},
    {"GET", "/api/lots", ROLE_READER, ROUTE_KEPT,
     "what is left in the cold store; where lots came from and went",
     KEYS({"lot", "basil-bunch.H1-S1.2027-04-06", "one lot", false},
          {"way", "basil-bunch", "of one way", false},
          {"place", "H1-S1", "picked at that bed", false},
          {"buyer", "hotel", "of which that buyer got", false},
          {"from", "2027-03-01", "picked on that day or later", false},
          {"until", "2027-03-31", "picked on that day or before", false},
          KEY_TODAY), CALLS(lots)},
    {"GET", "/api/sheets", ROLE_HAND, ROUTE_KEPT,
     "the rows of the day's sheets, to key a filled one in",
     KEYS({"kinds", "round,pick", "round, sow, pick, feed, water", false},
          {"day", "2027-04-07", "of that day", false}), CALLS(sheets)},
    PRINT("round", "the round"), PRINT("sow", "the sowings"),
    PRINT("pick", "the picks"), PRINT("feed", "the feed"),
    PRINT("water", "the water"), PRINT("all", "all five"),
    {"GET", "/api/tables", ROLE_READER, ROUTE_KEPT,
     "the tables that describe the farm", NULL, CALLS(tables), .is_of_tables = true},
    {"GET", "/api/table", ROLE_READER, ROUTE_KEPT,
     "one table: its fields, its rows as text, its hash",
     KEYS({"name", "beds", "of /api/tables", true}), CALLS(table), .is_of_tables = true},
    {"PUT", "/api/table", ROLE_GROWER, ROUTE_ONCE,
     "write it anew, with the hash that it was read with",
     KEYS({"name", "beds", "of /api/tables", true}), CALLS(put_table),
     .body_max_bytes = TABLE_JSON_MAX_BYTES},
    {"GET", "/api/journal", ROLE_HAND, ROUTE_KEPT,
     "what was told, the newest day first; a hand sees the own entries",
     KEYS({"from", "2027-03-01", "happened on that day or later", false},
          {"until", "2027-03-31", "or earlier", false},
          {"kind", "picked", "of that kind", false},
          {"place", "A", "there, or moved there", false},
          {"who", "ana", "told by", false},
          {"batch", "fish-1", "of that batch", false},
          {"job", "job-1", "that answer that job", false},
          {"uid", "u-1", "of that device's own number", false},
          {"without_struck", "yes", "leave out what was struck", false},
          {"before", "1200", "numbers below", false},
          {"limit", "100", "at most so many, up to 5000", false}),
     CALLS(journal), .by_person = true},
    {"POST", "/api/journal", ROLE_HAND, ROUTE_ONCE,
     "tell entries; told twice with one uid they are kept once", NULL,
     CALLS(post_journal), .body_max_bytes = TOLD_JSON_MAX_BYTES},
    {"GET", "/api/settle", ROLE_GROWER, ROUTE_KEPT,
     "planned steps that nobody told of, doubts, the account of fish",
     KEYS(KEY_TODAY), CALLS(settle)},
    {"GET", "/api/blob", ROLE_HAND, ROUTE_ONCE,
     "a photo or a voice note", KEYS({"sha256", NO_BLOB, "its hash", true}),
     CALLS(blob)},
    {"POST", "/api/blob", ROLE_HAND, ROUTE_ONCE,
     "keep a photo or a voice note; gives its hash", NULL, CALLS(post_blob),
     .body_max_bytes = STORE_BLOB_MAX_BYTES, .takes_media = true},
    {"POST", "/api/work", ROLE_GROWER, ROUTE_WORK,
     "begin a plan, an order asked about, or many years", NULL,
     CALLS(post_work), .body_max_bytes = WORK_JSON_MAX_BYTES},
    {"GET", "/api/work", ROLE_GROWER, ROUTE_WORK,
     "how far it is, and its answer; without id: all that there are",
     KEYS({"id", "0123456789abcdef", "of POST /api/work", false}),
     CALLS(work)},
    {"DELETE", "/api/work", ROLE_GROWER, ROUTE_WORK,
     "stop it: it answers with the best it has",
     KEYS({"id", "0123456789abcdef", "of POST /api/work", true}),
     CALLS(delete_work)},
    {"POST", "/api/plan/accept", ROLE_GROWER, ROUTE_WORK,
     "accept a plan that was found, as it was shown", NULL, CALLS(accept),
     .body_max_bytes = SMALL_BODY_BYTES},
    {"GET", "/api/emergency", ROLE_ANYONE, ROUTE_KEPT,
     "what can stop: pumps, heaters, blowers", NULL, CALLS(emergency)},
    {"GET", "/api/card", ROLE_ANYONE, ROUTE_MINUTE,
     "what to do, in order, when a pump, heater, blower or all stops",
     KEYS(CARD_KEYS), CALLS(card)},
    {"GET", "/print/card", ROLE_ANYONE, ROUTE_MINUTE,
     "the same as a page for an A4 sheet", KEYS(CARD_KEYS), CALLS(card_page)},
    {"GET", "/api/water", ROLE_HAND, ROUTE_MINUTE,
     "readings against what suits the fish and what was foreseen",
     KEYS({"tank", "A", "one tank", false},
          {"at", "07:30", "when; without: now", false}, KEY_TODAY),
     CALLS(water)},
    {"GET", "/api/working", ROLE_HAND, ROUTE_MINUTE,
     "how a shown figure was made: equation, inputs, sources",
     KEYS({"of", "tank", "what it is of", true}, {"id", "A", "which", false},
          {"figure", "feed_g", "its name in the page's answer; without: all",
           false},
          KEY_TODAY),
     CALLS(working)},
    {"GET", "/api/reading", ROLE_READER, ROUTE_MINUTE,
     "what readings of the water mean, and what to stop",
     KEYS(WATER_KEYS), CALLS(reading)},
    {"GET", "/api/dose", ROLE_READER, ROUTE_MINUTE,
     "grams of base by day and portion, of salts and iron",
     KEYS(WATER_KEYS,
          {"target_ph", "6.8", "pH wanted", false},
          {"yours_g", "200", "so many grams of the first base ..", false},
          {"yours_ph", "0.1", ".. moved pH by so much here", false},
          {"potassium_mg_l", "10", "rise of potassium wanted", false},
          {"calcium_mg_l", "10", "rise of calcium wanted", false},
          {"iron_rise_mg_l", "2", "rise of iron wanted", false}),
     CALLS(dose)},
};
/* clang-format on */

enum { ROUTE_COUNT = sizeof ROUTES / sizeof *ROUTES };

const Route *routes_all(size_t *out_count)
{
    *out_count = ROUTE_COUNT;
    return ROUTES;
}

Err route_find(const char *method, const char *path, const Route **out)
{
    bool is_there = false;
    const char *wanted = strcmp(method, "HEAD") == 0 ? "GET" : method;
    for (size_t i = 0; i < ROUTE_COUNT; i++) {
        bool is_path = strcmp(ROUTES[i].path, path) == 0;
        is_there = is_there || is_path;
        if (is_path && strcmp(ROUTES[i].method, wanted) == 0) {
            *out = &ROUTES[i];
            return ERR_NONE;
        }
    }
    return is_there
               ? err_make(ERR_USAGE, "%.80s does not take %.20s", path, method)
               : err_make(ERR_NOT_FOUND,
                          "there is no %.80s; /api tells "
                          "what there is",
                          path);
}

static Err tell_unknown(const Route *route, const char *key)
{
    const char *names[QUERY_PAIRS_MOST] = {NULL};
    size_t count = 0;
    for (const RouteKey *k = route->keys; k && k->name; k++) {
        assert(count < QUERY_PAIRS_MOST);
        names[count++] = k->name;
    }
    const char *nearest = text_nearest(key, names, count);
    return err_make(ERR_USAGE, "%s does not know \"%.60s\"%s%s%s", route->path,
                    key, nearest ? "; did you mean " : "",
                    nearest ? nearest : "", nearest ? "?" : "");
}

static const RouteKey *key_of(const Route *route, const char *name)
{
    for (const RouteKey *k = route->keys; k && k->name; k++) {
        if (strcmp(k->name, name) == 0) {
            return k;
        }
    }
    return NULL;
}

Err route_check_keys(const Route *route, const Request *request)
{
    for (int i = 0; i < request->query_count; i++) {
        const char *key = request->query[i].key;
        bool is_known = key_of(route, key) || strcmp(key, KEY_LANGUAGE) == 0;
        if (!route->takes_any_key && !is_known) {
            return tell_unknown(route, key);
        }
        for (int j = 0; j < i; j++) {
            if (strcmp(request->query[j].key, key) == 0) {
                return err_make(ERR_USAGE, "\"%.60s\" is asked twice", key);
            }
        }
    }
    for (const RouteKey *k = route->keys; k && k->name; k++) {
        if (k->is_needed && !request_text(request, k->name)) {
            return err_make(ERR_USAGE, "%s: \"%s\" is missing: %s", route->path,
                            k->name, k->meaning);
        }
    }
    return ERR_NONE;
}

Err route_decode(const Route *route, const Request *request, Arena *arena,
                 void *question)
{
    TRY(route_check_keys(route, request));
    return route->decode(request, arena, question);
}

Reply route_reply(const Route *route, const Request *request, Arena *arena)
{
    arena_speak(arena, request->tongue);
    void *question = arena_alloc(arena, ROUTE_QUESTION_MOST, 1);
    Err err = route_decode(route, request, arena, question);
    Reply reply = {.status = 500};
    if (err.kind == ERR_OK) {
        err = route->answer(question, arena, &reply);
    }
    return err.kind == ERR_OK ? reply : reply_error(&err, arena);
}
