/* The farm at a glance as JSON. */
#include "json/farm_page.h"

#include <math.h>
#include <stdlib.h>

#include <jansson.h>

#include "base/date.h"
#include "farm/read.h"
#include "json/text.h"

/* The languages of the pages. */
static const char *const LANGUAGES[] = {"en", "es", "fr", "pt", "ar"};

static json_t *text_or_null(const char *text)
{
    json_t *value = text && *text ? json_string(text) : json_null();
    return value ? value : json_null();
}

static json_t *number_or_null(double number)
{
    return isfinite(number) ? json_real(number) : json_null();
}

static json_t *day_or_null(int32_t day)
{
    if (day == DATE_ALWAYS || day == DATE_NEVER) {
        return json_null();
    }
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return json_string(text);
}

/* The id of a row that a reference leads to. */
#define ID_OF(farm, table, row)                                                \
    text_or_null((row) >= 0 && (row) < (farm)->table##_count                   \
                     ? (farm)->table[row].id                                   \
                     : NULL)

static json_t *word_or_null(WordListId list, int32_t word)
{
    bool is_there = word >= 0 && word < FARM_WORDS[list].count;
    return text_or_null(is_there ? FARM_WORDS[list].words[word] : NULL);
}

static json_t *named(const char *id, const char *name)
{
    json_t *item = json_object();
    json_put(item, "id", text_or_null(id));
    json_put(item, "name", text_or_null(name));
    return item;
}

#define PUT_NAMED(page_, key, farm, table, member)                             \
    do {                                                                       \
        json_t *list_ = json_array();                                          \
        for (int32_t row_ = 0; row_ < (farm)->table##_count; row_++) {         \
            json_array_append_new(list_, named((farm)->table[row_].id,         \
                                               (farm)->table[row_].member));   \
        }                                                                      \
        json_put(page_, key, list_);                                           \
    } while (0)

static json_t *walk_of(const FarmPage *page)
{
    json_t *walk = json_array();
    for (int32_t i = 0; i < page->walk_count; i++) {
        const FarmStop *stop = &page->walk[i];
        bool is_tank = stop->kind == STOP_TANK;
        json_t *item = json_object();
        json_put(item, "kind", json_string(is_tank ? "tank" : "tunnel"));
        json_put(item, "id",
                 text_or_null(is_tank ? page->farm->tanks[stop->row].id
                                      : page->farm->tunnels[stop->row].id));
        json_array_append_new(walk, item);
    }
    return walk;
}

static json_t *beds_of(const FarmPage *page)
{
    const Farm *farm = page->farm;
    json_t *beds = json_array();
    for (int32_t i = 0; i < page->bed_count; i++) {
        const Bed *bed = &farm->beds[page->beds[i]];
        bool has_zone = bed->zone >= 0 && bed->zone < farm->zones_count;
        int32_t loop = has_zone ? farm->zones[bed->zone].loop : REF_BLANK;
        json_t *item = json_object();
        json_put(item, "id", text_or_null(bed->id));
        json_put(item, "tunnel", ID_OF(farm, tunnels, bed->tunnel));
        json_put(item, "side", text_or_null(bed->side));
        json_put(item, "zone", ID_OF(farm, zones, bed->zone));
        json_put(item, "loop", ID_OF(farm, loops, loop));
        json_put(item, "length_m", number_or_null(bed->length_m));
        json_put(item, "width_m", number_or_null(bed->width_m));
        json_put(item, "sections", json_integer(bed->sections));
        json_put(item, "edge", word_or_null(WORDS_EDGE_KINDS, bed->edge));
        json_put(item, "edge_m", number_or_null(bed->edge_m));
        json_put(item, "cleaned_on", day_or_null(bed->cleaned_on));
        json_array_append_new(beds, item);
    }
    return beds;
}

static json_t *tanks_of(const Farm *farm)
{
    json_t *tanks = json_array();
    for (int32_t i = 0; i < farm->tanks_count; i++) {
        const Tank *tank = &farm->tanks[i];
        json_t *item = json_object();
        json_put(item, "id", text_or_null(tank->id));
        json_put(item, "loop", ID_OF(farm, loops, tank->loop));
        json_put(item, "tunnel", ID_OF(farm, tunnels, tank->tunnel));
        json_put(item, "use", word_or_null(WORDS_TANK_USES, tank->use));
        json_put(item, "volume_m3", number_or_null(tank->volume_m3));
        json_array_append_new(tanks, item);
    }
    return tanks;
}

static void put_houses(json_t *object, const Farm *farm)
{
    json_t *loops = json_array();
    for (int32_t i = 0; i < farm->loops_count; i++) {
        json_t *item = named(farm->loops[i].id, farm->loops[i].name);
        json_put(item, "sump_m3", number_or_null(farm->loops[i].sump_m3));
        json_array_append_new(loops, item);
    }
    json_put(object, "loops", loops);
    json_t *tunnels = json_array();
    for (int32_t i = 0; i < farm->tunnels_count; i++) {
        const Tunnel *tunnel = &farm->tunnels[i];
        json_t *item = named(tunnel->id, tunnel->name);
        json_put(item, "length_m", number_or_null(tunnel->length_m));
        json_put(item, "width_m", number_or_null(tunnel->width_m));
        json_array_append_new(tunnels, item);
    }
    json_put(object, "tunnels", tunnels);
}

static void put_site(json_t *object, const FarmPage *page)
{
    const Farm *farm = page->farm;
    const FarmSite *site = farm->farm_count > 0 ? &farm->farm[0] : NULL;
    json_put(object, "id", text_or_null(site ? site->id : NULL));
    json_put(object, "name", text_or_null(site ? site->name : NULL));
    json_put(object, "today", day_or_null(page->today));
    json_put(object, "timezone", text_or_null(site ? site->timezone : NULL));
    json_put(object, "currency", text_or_null(site ? site->currency : NULL));
    json_put(object, "latitude_deg",
             number_or_null(site ? site->latitude_deg : NAN));
    json_put(object, "longitude_deg",
             number_or_null(site ? site->longitude_deg : NAN));
    json_put(object, "records_from",
             day_or_null(site ? site->records_from : DATE_ALWAYS));
    json_put(object, "fault_count", json_integer(page->fault_count));
    json_t *plan = json_null();
    if (farm->plan_count > 0) {
        plan = json_object();
        json_put(plan, "from", day_or_null(farm->plan[0].from));
        json_put(plan, "weeks", json_integer(farm->plan[0].weeks));
        json_put(plan, "accepted_on", day_or_null(farm->plan[0].accepted_on));
    }
    json_put(object, "plan", plan);
}

const char *json_farm_page(const FarmPage *page, Arena *arena)
{
    const Farm *farm = page->farm;
    json_t *object = json_object();
    put_site(object, page);
    json_put(object, "walk", walk_of(page));
    put_houses(object, farm);
    json_put(object, "beds", beds_of(page));
    json_put(object, "tanks", tanks_of(farm));
    PUT_NAMED(object, "people", farm, hands, name);
    PUT_NAMED(object, "feeds", farm, feeds, name);
    PUT_NAMED(object, "bases", farm, bases, kind);
    PUT_NAMED(object, "products", farm, products, name);
    PUT_NAMED(object, "buyers", farm, buyers, name);
    PUT_NAMED(object, "ways", farm, ways, name);
    json_t *languages = json_array();
    for (size_t i = 0; i < sizeof LANGUAGES / sizeof *LANGUAGES; i++) {
        json_array_append_new(languages, json_string(LANGUAGES[i]));
    }
    json_put(object, "languages", languages);
    return json_text_take(object, arena);
}

static json_t *stop_of(const char *what, const char *id, Arena *arena)
{
    json_t *item = json_object();
    json_put(item, "what", json_string(what));
    json_put(item, "id", text_or_null(id));
    json_put(item, "ask",
             text_or_null(arena_text(arena, "%s=%s", what, id ? id : "")));
    return item;
}

static json_t *contacts_of(const Farm *farm)
{
    json_t *list = json_array();
    for (int32_t i = 0; i < farm->contacts_count; i++) {
        const Contact *contact = &farm->contacts[i];
        json_t *item = json_object();
        json_put(item, "turn", json_integer(contact->turn));
        json_put(item, "name", text_or_null(contact->name));
        json_put(item, "role", text_or_null(contact->role));
        json_put(item, "phone", text_or_null(contact->phone));
        json_array_append_new(list, item);
    }
    return list;
}

const char *json_farm_stops(const FarmPage *page, Arena *arena)
{
    const Farm *farm = page->farm;
    json_t *stops = json_array();
    for (int32_t i = 0; i < farm->pumps_count; i++) {
        json_t *item = stop_of("pump", farm->pumps[i].id, arena);
        json_put(item, "loop", ID_OF(farm, loops, farm->pumps[i].loop));
        json_array_append_new(stops, item);
    }
    for (int32_t i = 0; i < farm->aerators_count; i++) {
        json_t *item = stop_of("aerator", farm->aerators[i].id, arena);
        json_put(item, "loop", ID_OF(farm, loops, farm->aerators[i].loop));
        json_put(item, "tank", ID_OF(farm, tanks, farm->aerators[i].tank));
        json_array_append_new(stops, item);
    }
    for (int32_t i = 0; i < farm->heaters_count; i++) {
        json_t *item = stop_of("heater", farm->heaters[i].id, arena);
        json_put(item, "loop", ID_OF(farm, loops, farm->heaters[i].loop));
        json_put(item, "tank", ID_OF(farm, tanks, farm->heaters[i].tank));
        json_put(item, "tunnel", ID_OF(farm, tunnels, farm->heaters[i].tunnel));
        json_array_append_new(stops, item);
    }
    json_array_append_new(stops, stop_of("power", "all", arena));
    json_t *object = json_object();
    json_put(object, "name",
             text_or_null(farm->farm_count > 0 ? farm->farm[0].name : NULL));
    json_put(object, "stops", stops);
    json_put(object, "contacts", contacts_of(farm));
    return json_text_take(object, arena);
}
