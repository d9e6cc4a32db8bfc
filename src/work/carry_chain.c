/* What a spell of other weather does through feed and nutrients to the plants:
 * the same hours with and without it, told in words. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "sim/plant_rule.h"
#include "work/carry.h"

enum { LOOK_D = 28, SETTLE_D = 14, RUNNING_D = 2, SHOWN_WAYS = 3 };

static const double SHORT_FRAC = 0.95; /* of what is enough; as carry.c */
static const double ASKED_LEAST_G = 1e-4;
static const double TOLD_D = 1.0;
static const double TOLD_KWH = 1.0;
static const double TOLD_FEED_FRAC = 0.02;

typedef struct Chains {
    const CarryAsk *ask;
    const Carry *carry;
    int loop;
    int first, last; /* days of the spell, from 0 */
    int until;       /* looked at until this day */
} Chains;

static const HourLoopDay *day_of(const Chains *c, const HourDays *days, int day)
{
    return &days->loops[day * c->ask->farm->loops_count + c->loop];
}

static bool is_short(const Chains *c, const HourDays *days, int day, int e)
{
    const HourLoopDay *is = day_of(c, days, day);
    return is->asked_g[e] > ASKED_LEAST_G &&
           is->taken_g[e] < SHORT_FRAC * c->carry->enough_frac * is->asked_g[e];
}

/* The first of so many days running with too little of it; -1. */
static int short_from(const Chains *c, const HourDays *days, int e)
{
    int running = 0;
    for (int day = c->first; day < c->until; day++) {
        running = is_short(c, days, day, e) ? running + 1 : 0;
        if (running == RUNNING_D) {
            return day - RUNNING_D + 1;
        }
    }
    return -1;
}

/* What runs short by the spell: earlier than without it. */
static void find_short(const Chains *c, CarryChain *to)
{
    to->element = to->short_day = to->usual_short_day = -1;
    for (int e = 0; e < HOUR_ELEMENTS; e++) {
        int with = short_from(c, c->ask->spelled, e);
        int without = short_from(c, c->ask->days, e);
        bool is_by_it = with >= 0 && (without < 0 || with < without);
        if (is_by_it && (to->element < 0 || with < to->short_day)) {
            to->element = e;
            to->short_day = with;
            to->usual_short_day = without;
        }
    }
}

static void find_feed(const Chains *c, CarryChain *to)
{
    double with = 0.0, without = 0.0;
    for (int day = c->first; day <= c->last; day++) {
        with += day_of(c, c->ask->spelled, day)->feed_kg;
        without += day_of(c, c->ask->days, day)->feed_kg;
        to->heater_kwh += day_of(c, c->ask->spelled, day)->heater_kwh -
                          day_of(c, c->ask->days, day)->heater_kwh;
        to->water_k += (day_of(c, c->ask->spelled, day)->temp_degc -
                        day_of(c, c->ask->days, day)->temp_degc) /
                       (c->last - c->first + 1);
    }
    to->feed_frac = without > 0.0 ? with / without - 1.0 : 0.0;
}

static double grown(const Chains *c, const HourDays *days, int day, int plant)
{
    return days->plants[day * hour_plant_count(c->ask->hours) + plant]
        .grown_frac;
}

/* Days by which a batch is later at what it would have been a fortnight after
 * the spell; NAN where it is not there or does not grow. */
static double later_d(const Chains *c, int plant)
{
    HourPlantName name = hour_plant_name(c->ask->hours, plant);
    int32_t first_day = c->carry->first_week;
    int at = c->last + SETTLE_D;
    int end = c->ask->days->count - 1;
    at = at > end ? end : at;
    if (name.loop != c->loop || name.set_day > first_day + c->first) {
        return NAN;
    }
    while (at > c->first && (grown(c, c->ask->days, at, plant) >= 1.0 ||
                             first_day + at >= name.clear_day)) {
        at--;
    }
    double wanted = grown(c, c->ask->days, at, plant);
    if (at <= c->first || !(wanted > grown(c, c->ask->days, c->first, plant))) {
        return NAN;
    }
    /* What is cleared before it is ready is late by so much at least. */
    int clear = name.clear_day - first_day;
    end = clear < end ? clear : end;
    for (int day = c->first + 1; day <= end; day++) {
        double is = grown(c, c->ask->spelled, day, plant);
        double was = grown(c, c->ask->spelled, day - 1, plant);
        if (is >= wanted) {
            double part = is > was ? fmax(0.0, (wanted - was) / (is - was)) : 1;
            return day - 1 + part - at;
        }
    }
    return end - at;
}

static void add_way(CarryChain *to, int way, double days)
{
    int at = to->later_count;
    bool is_room = at < CARRY_LATER_MOST;
    if (!is_room && fabs(to->later[at - 1].days) >= fabs(days)) {
        return;
    }
    to->later_count += is_room ? 1 : 0;
    at = to->later_count - 1;
    while (at > 0 && fabs(to->later[at - 1].days) < fabs(days)) {
        to->later[at] = to->later[at - 1];
        at--;
    }
    to->later[at] = (CarryLater){way, days};
}

static void find_later(const Chains *c, CarryChain *to)
{
    int plants = hour_plant_count(c->ask->hours);
    for (int way = 0; way < c->ask->farm->ways_count; way++) {
        double sum = 0.0;
        int count = 0;
        for (int p = 0; p < plants; p++) {
            double days = hour_plant_name(c->ask->hours, p).way == way
                              ? later_d(c, p)
                              : NAN;
            if (!isnan(days)) {
                sum += days;
                count++;
            }
        }
        if (count > 0 && fabs(sum / count) >= TOLD_D) {
            add_way(to, way, sum / count);
        }
    }
}

static double crop_least_degc(const Chains *c, int day, int tunnel)
{
    return c->ask->spelled->tunnels[day * c->ask->farm->tunnels_count + tunnel]
        .crop_least_degc;
}

/* The day of the spell on which it is colder than a batch bears; -1. */
static int frozen_day(const Chains *c, const HourPlantName *name, int tunnel,
                      double kill_degc)
{
    for (int day = c->first; day <= c->last; day++) {
        int32_t date = c->carry->first_week + day;
        bool stands = date >= name->set_day && date < name->clear_day;
        if (stands && crop_least_degc(c, day, tunnel) < kill_degc) {
            return day;
        }
    }
    return -1;
}

/* The first night in which frost kills a batch in a tunnel. */
static Err find_frozen(const Chains *c, CarryChain *to)
{
    const Farm *farm = c->ask->farm;
    to->frozen_way = to->frozen_day = -1;
    for (int p = 0; p < hour_plant_count(c->ask->hours); p++) {
        HourPlantName name = hour_plant_name(c->ask->hours, p);
        int32_t tunnel = farm->beds[name.bed].tunnel;
        if (name.loop != c->loop || tunnel < 0) {
            continue;
        }
        PlantRule rule;
        TRY(plant_rule_of_farm(c->ask->book, farm, name.way, &rule));
        int day = frozen_day(c, &name, tunnel, rule.frost_kill_degc);
        if (day < 0) {
            continue;
        }
        to->frozen_count++;
        if (to->frozen_way < 0 || day < to->frozen_day) {
            to->frozen_way = name.way;
            to->frozen_day = day;
            to->frozen_degc = crop_least_degc(c, day, tunnel);
        }
    }
    return ERR_NONE;
}

Err carry_chain_find(const CarryAsk *ask, const Carry *carry, int loop,
                     CarryChain *out)
{
    Chains c = {.ask = ask, .carry = carry, .loop = loop};
    c.first = ask->spell.from_day - carry->first_week;
    c.last = c.first + ask->spell.days - 1;
    int days = ask->days->count;
    c.until = c.last + LOOK_D < days ? c.last + LOOK_D : days;
    *out = (CarryChain){.is_there = true};
    find_feed(&c, out);
    find_short(&c, out);
    find_later(&c, out);
    return find_frozen(&c, out);
}

/* ---- In words --------------------------------------------------------------
 */

static const char *date_text(const Carry *carry, int day, Arena *arena)
{
    char text[DATE_TEXT_SIZE];
    date_format(carry->first_week + day, text);
    return arena_copy_text(arena, text);
}

static const char *short_text(const Carry *carry, const CarryChain *chain,
                              Arena *arena)
{
    if (chain->element < 0) {
        return "nothing in the water runs short by it";
    }
    const char *usual =
        chain->usual_short_day < 0
            ? ""
            : arena_text(arena, " (else by %s)",
                         date_text(carry, chain->usual_short_day, arena));
    return arena_text(arena, "%s gone by %s%s",
                      carry_element_name(chain->element),
                      date_text(carry, chain->short_day, arena), usual);
}

static const char *later_text(const Carry *carry, const CarryChain *chain,
                              Arena *arena)
{
    const char *text = "";
    for (int i = 0; i < chain->later_count && i < SHOWN_WAYS; i++) {
        const CarryLater *later = &chain->later[i];
        double days = round(fabs(later->days));
        text = arena_text(arena, "%s%s%s %.0f day%s %s", text,
                          *text ? ", " : "", carry->farm->ways[later->way].id,
                          days, days > 1.0 ? "s" : "",
                          later->days > 0.0 ? "later" : "sooner");
    }
    return *text ? text : "no crop a day later";
}

/* Growth as told before it is of those that live. */
static const char *frozen_text(const Carry *carry, const CarryChain *chain,
                               Arena *arena)
{
    return chain->frozen_way < 0
               ? ""
               : arena_text(arena,
                            "; frost kills %d batch%s in its tunnels, the "
                            "first %s on %s (%.1f degC)",
                            chain->frozen_count,
                            chain->frozen_count > 1 ? "es" : "",
                            carry->farm->ways[chain->frozen_way].id,
                            date_text(carry, chain->frozen_day, arena),
                            chain->frozen_degc);
}

const char *carry_chain_text(const Carry *carry, int loop, Arena *arena)
{
    const CarryChain *chain = &carry->chains[loop];
    const CarrySpell *spell = &carry->spell;
    if (!chain->is_there) {
        return NULL;
    }
    const char *feed =
        fabs(chain->feed_frac) < TOLD_FEED_FRAC
            ? "feed as usual"
            : arena_text(arena, "feed %+.0f %%", 100.0 * chain->feed_frac);
    const char *heat =
        fabs(chain->heater_kwh) < TOLD_KWH
            ? ""
            : arena_text(arena, ", heaters %+.0f kWh", chain->heater_kwh);
    char from[DATE_TEXT_SIZE];
    date_format(spell->from_day, from);
    return arena_text(
        arena, "%d %s days from %s (%.1f K%s): water %+.1f K%s; %s; %s; %s%s.",
        spell->days, spell->warmer_k < 0.0 ? "cold" : "warm", from,
        fabs(spell->warmer_k), spell->is_forecast ? ", as forecast" : "",
        chain->water_k, heat, feed, short_text(carry, chain, arena),
        later_text(carry, chain, arena), frozen_text(carry, chain, arena));
}
