/* The emergency as one page. */
#include "work/emergency_card.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/emergency_lines.h"
#include "work/emergency_parts.h"

enum { NAMES_USUAL = 8, CONTACTS_MAX = 8 };

/* ---- Lines ----------------------------------------------------------------
 */

static void add(const CardWork *work, CardPart part, const char *text,
                bool is_row)
{
    CardStep *step = &work->card->steps[part];
    if (step->count < CARD_LINES_MAX && *text) {
        step->lines[step->count++] = (CardLine){text, is_row};
    }
}

void card_say(const CardWork *work, CardPart part, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    add(work, part,
        arena_text_list(work->arena, say(work->arena, format), args), false);
    va_end(args);
}

void card_row(const CardWork *work, CardPart part, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = arena_text_list(work->arena, say(work->arena, format), args);
    va_end(args);
    size_t length = strlen(text);
    while (length > 0 && text[length - 1] == ' ') {
        text[--length] = '\0';
    }
    add(work, part, text, true);
}

int card_columns(const char *text)
{
    int columns = 0;
    for (const char *at = text; *at; at++) {
        columns += ((unsigned char)*at & 0xc0u) != 0x80u;
    }
    return columns;
}

const char *card_cell(const CardWork *work, const char *text, int width)
{
    int gap = abs(width) - card_columns(text);
    return arena_text(work->arena, "%*s%s%*s", width < 0 && gap > 0 ? gap : 0,
                      "", say_apart(work->arena, text),
                      width > 0 && gap > 0 ? gap : 0, "");
}

const char *card_names(const CardWork *work, const CardNames *names)
{
    const char *text = "";
    int told = 0;
    int32_t all = hangs_count(names->marked, names->count);
    for (int32_t i = 0; i < names->count && told < names->most; i++) {
        if (names->marked[i]) {
            text = arena_text(work->arena, "%s%s%.40s", text,
                              told > 0 ? ", " : "", names->id(work->farm, i));
            told++;
        }
    }
    return all > told
               ? arena_say(work->arena, "%s and %d more", text, (int)all - told)
               : text;
}

const char *card_tank_id(const Farm *farm, int32_t row)
{
    return *farm->tanks[row].id ? farm->tanks[row].id : "(no id)";
}

static const char *zone_id(const Farm *farm, int32_t row)
{
    return farm->zones[row].id;
}

static const char *loop_id(const Farm *farm, int32_t row)
{
    return farm->loops[row].id;
}

/* ---- Air and water --------------------------------------------------------
 */

static void tell_aerator(const CardWork *work, int32_t row)
{
    const Emergency *e = work->e;
    const Aerator *air = &work->farm->aerators[row];
    bool *served = ARENA_ARRAY(work->arena, bool, work->farm->tanks_count);
    for (int i = 0; i < e->with_fish; i++) {
        int32_t tank = e->tanks[i].tank;
        served[tank] = hangs_aerator_serves(work->farm, row, tank);
    }
    CardNames names = {card_tank_id, served, work->farm->tanks_count,
                       NAMES_USUAL};
    if (hangs_count(served, work->farm->tanks_count) == 0) {
        return;
    }
    const BookAlarm *alarm = e->ask.book->alarm;
    const char *power = "";
    bool has_battery = isfinite(air->battery_h) && air->battery_h > 0.0;
    if (e->hangs.aerators[row] && has_battery) {
        power = arena_say(
            work->arena, ": battery, told %.3g h, reckon with %.2g to %.2g h",
            air->battery_h, air->battery_h * alarm->battery_frac.low,
            air->battery_h * alarm->battery_frac.high);
    } else if (e->hangs.aerators[row]) {
        power = say(work->arena, ": without power, no battery");
    } else if (has_battery) {
        power = arena_say(work->arena, " (battery %.3g h)", air->battery_h);
    }
    card_say(work, CARD_AIR, "%s gives air to %s%s.", air->id,
             card_names(work, &names), power);
}

void card_tell_air(const CardWork *work)
{
    const Emergency *e = work->e;
    if (e->ask.on != HANGS_HEATER && e->with_fish > 0) {
        card_say(work, CARD_AIR,
                 "Bubbles in every tank? If not, start air before anything "
                 "else.");
    }
    int before = work->card->steps[CARD_AIR].count;
    for (int32_t i = 0; i < work->farm->aerators_count; i++) {
        if (e->ask.on != HANGS_HEATER &&
            work->card->steps[CARD_AIR].count < 6) {
            tell_aerator(work, i);
        }
    }
    if (e->ask.on != HANGS_HEATER && e->with_fish > 0 &&
        work->card->steps[CARD_AIR].count == before) {
        card_say(work, CARD_AIR,
                 "The tables name no aerator for these tanks. None at hand: "
                 "pour tank water back from waist height with a bucket, "
                 "standing dry outside.");
    }
}

void card_tell_water(const CardWork *work)
{
    const Emergency *e = work->e;
    const Farm *farm = work->farm;
    if (e->ask.on == HANGS_PUMP) {
        const Pump *pump = &farm->pumps[e->ask.row];
        const char *size =
            isfinite(pump->flow_m3_h) && isfinite(pump->head_m)
                ? arena_say(work->arena, "about %.3g m3/h at %.2g m; ",
                            pump->flow_m3_h, pump->head_m)
                : "";
        card_say(work, CARD_WATER,
                 "Spare pump: %sfitted with the circuit off. %s", size,
                 say(work->arena,
                     e->hangs.other_pumps > 0
                         ? "The loop's other pump runs on: give its flow to "
                           "the tanks."
                         : "No other pump serves this loop."));
    }
    int month = date_month(e->ask.day);
    for (int32_t i = 0; i < farm->links_count && i < 4; i++) {
        if (hangs_link_helps(&e->hangs, i, month)) {
            card_say(work, CARD_WATER,
                     "%s can let water of the other loop in: a little flow "
                     "brings air; watch both sumps.",
                     farm->links[i].id);
        }
    }
    for (int i = 0; i < e->with_fish && e->ask.on != HANGS_HEATER; i++) {
        const EmergencyTank *tank = &e->tanks[i];
        if (isfinite(tank->top_up_m3)) {
            card_say(work, CARD_WATER,
                     "Fresh water from the tap brings air, chlorine and cold: "
                     "into %s no more than %.0f L an hour.",
                     card_tank_id(farm, tank->tank),
                     floor(100.0 * tank->top_up_m3) * 10.0);
            return;
        }
    }
}

/* ---- Beds -----------------------------------------------------------------
 */

enum { YOUNG_DAYS = 14 };

/* Beds without water in which plants were set within the fortnight. */
static const char *young_beds(const CardWork *work)
{
    const Farm *farm = work->farm;
    int32_t day = work->e->ask.day;
    bool *young = ARENA_ARRAY(work->arena, bool, farm->beds_count);
    for (int32_t i = 0; i < farm->plants_count; i++) {
        const Plant *row = &farm->plants[i];
        bool is_bed = row->bed >= 0 && row->bed < farm->beds_count;
        if (is_bed && row->set_on > day - YOUNG_DAYS && row->set_on <= day) {
            young[row->bed] = work->e->hangs.beds[row->bed];
        }
    }
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        bool is_bed = row->bed >= 0 && row->bed < farm->beds_count;
        if (is_bed && row->set_on > day - YOUNG_DAYS && row->set_on <= day) {
            young[row->bed] = work->e->hangs.beds[row->bed];
        }
    }
    const char *text = "";
    int told = 0;
    for (int32_t i = 0; i < farm->beds_count && told < NAMES_USUAL; i++) {
        if (young[i]) {
            text = arena_text(work->arena, "%s%s%.40s", text,
                              told++ > 0 ? ", " : "", farm->beds[i].id);
        }
    }
    int32_t all = hangs_count(young, farm->beds_count);
    return all > told
               ? arena_say(work->arena, "%s and %d more", text, (int)all - told)
               : text;
}

static const char *plant_hours(double hours, bool is_up, Arena *arena)
{
    if (hours < 36.0) {
        return arena_text(arena, "%.0f h", is_up ? ceil(hours) : floor(hours));
    }
    double days = hours / 24.0;
    return arena_say(arena, "%.0f days", is_up ? ceil(days) : floor(days));
}

static const char *days_text(const AlarmSpan *span, Arena *arena)
{
    return arena_say(arena, "%s to %s", plant_hours(span->low_h, false, arena),
                     plant_hours(span->high_h, true, arena));
}

void card_tell_beds(const CardWork *work)
{
    const Emergency *e = work->e;
    int32_t beds = hangs_count(e->hangs.beds, work->farm->beds_count);
    if (beds == 0) {
        return;
    }
    const BookAlarm *alarm = e->ask.book->alarm;
    card_say(work, CARD_BEDS,
             "A bed that stands full: open its drain, at the outside. Flooded "
             "over %.2g h (%.2g-%.2g) it goes foul: then its first flush goes "
             "to waste, not to the fish.",
             alarm->foul_h.value, alarm->foul_h.low, alarm->foul_h.high);
    const char *young = young_beds(work);
    card_say(work, CARD_BEDS,
             "Grown plants in drained gravel last %s at this season; those set "
             "within two weeks %s%s%s.",
             days_text(&e->plants, work->arena),
             days_text(&e->young, work->arena), *young ? ": " : "", young);
}

/* ---- Head and foot --------------------------------------------------------
 */

static int by_turn(const void *left, const void *right)
{
    const Contact *a = *(const Contact *const *)left;
    const Contact *b = *(const Contact *const *)right;
    return a->turn != b->turn ? (a->turn < b->turn ? -1 : 1)
                              : (a->line > b->line) - (a->line < b->line);
}

static const char *cut(const CardWork *work, const char *text, int most)
{
    return arena_text(work->arena, "%.*s", most, text);
}

static void tell_contacts(const CardWork *work)
{
    const Farm *farm = work->farm;
    const Contact **rows =
        ARENA_ARRAY(work->arena, const Contact *, farm->contacts_count);
    for (int32_t i = 0; i < farm->contacts_count; i++) {
        rows[i] = &farm->contacts[i];
    }
    qsort(rows, (size_t)farm->contacts_count, sizeof *rows, by_turn);
    for (int32_t i = 0; i < farm->contacts_count && i < CONTACTS_MAX; i++) {
        card_row(work, CARD_RING, "%d  %s %s %s", (int)i + 1,
                 card_cell(work, cut(work, rows[i]->name, 40), 20),
                 card_cell(work, cut(work, rows[i]->phone, 30), 18),
                 card_cell(work, cut(work, rows[i]->role, 36), 0));
    }
    if (farm->contacts_count == 0) {
        card_row(work, CARD_RING,
                 "contacts.csv names nobody. Write here: "
                 "______________________________");
    }
    card_say(work, CARD_RING,
             "Somebody hurt, smoke or fire: the emergency "
             "number first.");
}

static const char *what_hangs(const CardWork *work)
{
    const Emergency *e = work->e;
    const Farm *farm = work->farm;
    bool *tanks = ARENA_ARRAY(work->arena, bool, farm->tanks_count);
    for (int i = 0; i < e->tank_count; i++) {
        tanks[e->tanks[i].tank] = true;
    }
    int32_t beds = hangs_count(e->hangs.beds, farm->beds_count);
    if (e->ask.on == HANGS_POWER) {
        return arena_say(work->arena,
                         "On it hang all pumps, blowers and heaters: %d loops, "
                         "%d tanks, %d zones with %d beds.",
                         (int)farm->loops_count, e->tank_count,
                         (int)farm->zones_count, (int)beds);
    }
    CardNames loops = {loop_id, e->hangs.loops, farm->loops_count, 4};
    CardNames tank_names = {card_tank_id, tanks, farm->tanks_count,
                            NAMES_USUAL};
    CardNames zones = {zone_id, e->hangs.zones, farm->zones_count, NAMES_USUAL};
    const char *text =
        hangs_count(e->hangs.loops, farm->loops_count) > 0
            ? arena_text(work->arena, "%s; ", card_names(work, &loops))
            : "";
    text = e->tank_count > 0 ? arena_say(work->arena, "%stanks %s", text,
                                         card_names(work, &tank_names))
                             : arena_say(work->arena, "%sno tank", text);
    if (beds > 0) {
        text = arena_say(work->arena, "%s; zones %s (%d beds)", text,
                         card_names(work, &zones), (int)beds);
    }
    return arena_say(work->arena, "On it hang: %s.", text);
}

static const char *title_of(const CardWork *work)
{
    const EmergencyAsk *ask = &work->e->ask;
    switch (ask->on) {
    case HANGS_PUMP:
        return arena_say(work->arena, "Pump %s stands still",
                         work->farm->pumps[ask->row].id);
    case HANGS_AERATOR:
        return arena_say(work->arena, "Air of %s has stopped",
                         work->farm->aerators[ask->row].id);
    case HANGS_HEATER:
        return arena_say(work->arena, "Heater %s is cold",
                         work->farm->heaters[ask->row].id);
    case HANGS_POWER:
        return say(work->arena, "Power is out");
    }
    return "";
}

static void tell_lines(const CardWork *work, CardPart part)
{
    const Emergency *e = work->e;
    bool has_beds = hangs_count(e->hangs.beds, work->farm->beds_count) > 0 ||
                    (e->ask.on == HANGS_HEATER && work->farm->beds_count > 0);
    for (const EmergencyLine *line = EMERGENCY_LINES; line->text; line++) {
        bool is_for = line->part == part && (line->on >> e->ask.on & 1) != 0;
        bool is_told = (has_beds || !line->needs_beds) &&
                       (e->with_fish > 0 || !line->needs_fish);
        if (is_for && is_told) {
            add(work, part, say(work->arena, line->text), false);
        }
    }
}

void emergency_card(const CardAsk *ask, Arena *arena, Card *out)
{
    *out = (Card){
        .when = ask->when,
        .foot = say(arena, "Made from tables and ranges, not from your tanks: "
                           "what you see comes first. Leat is no electrician "
                           "and no vet.")};
    CardWork work = {ask, ask->emergency, ask->emergency->ask.farm, arena, out};
    out->title = title_of(&work);
    out->what = what_hangs(&work);
    for (int part = 0; part < CARD_PARTS; part++) {
        out->steps[part].title = say(arena, EMERGENCY_TITLES[part]);
    }
    if (work.e->ask.on == HANGS_HEATER) {
        out->steps[CARD_TIME].title =
            say(arena, "How long the water keeps warm");
    }
    for (int part = 0; part < CARD_PARTS; part++) {
        if (part == CARD_AIR) {
            card_tell_air(&work);
        } else if (part == CARD_TIME) {
            card_tell_time(&work);
            card_tell_cold(&work);
        } else if (part == CARD_BEDS) {
            card_tell_beds(&work);
        } else if (part == CARD_RING) {
            tell_contacts(&work);
        }
        tell_lines(&work, (CardPart)part);
        if (part == CARD_WATER) {
            card_tell_water(&work);
        }
    }
}
