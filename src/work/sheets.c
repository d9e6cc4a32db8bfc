/* The day's sheets for paper. */
#include "work/sheets.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"

enum { MEALS_MOST = 4, FIRST_ROWS = 64 };

const char *sheet_kind_word(SheetKind kind)
{
    static const char *const WORDS[] = {
#define SHEET_WORD(kind, word, title) [kind] = (word),
        SHEET_KINDS(SHEET_WORD)
#undef SHEET_WORD
    };
    return WORDS[kind];
}

const char *sheet_kind_title(SheetKind kind)
{
    static const char *const TITLES[] = {
#define SHEET_TITLE(kind, word, title) [kind] = (title),
        SHEET_KINDS(SHEET_TITLE)
#undef SHEET_TITLE
    };
    return TITLES[kind];
}

typedef struct Work {
    const SheetsAsk *ask;
    const Farm *farm;
    const Round *round;
    Arena *arena;
    Sheet *sheet;
    int32_t room;
    int32_t number;
} Work;

/* ---- rows ----------------------------------------------------------------
 */

static SheetRow *add_row(Work *work, const SheetRow *row)
{
    Sheet *sheet = work->sheet;
    if (sheet->count == work->room) {
        int32_t room = work->room ? 2 * work->room : FIRST_ROWS;
        sheet->rows = arena_grow(work->arena, sheet->rows, (size_t)sheet->count,
                                 (size_t)room, sizeof *sheet->rows);
        work->room = room;
    }
    sheet->rows[sheet->count] = *row;
    return &sheet->rows[sheet->count++];
}

static void add_heading(Work *work, const RoundStop *stop)
{
    add_row(work,
            &(SheetRow){
                .stop = stop->id, .plate = "", .text = stop->name, .note = ""});
}

static SheetRow row_of(Work *work, const RoundStop *stop, const char *plate,
                       SheetPicture picture, const char *text)
{
    return (SheetRow){.number = ++work->number,
                      .stop = stop->id,
                      .plate = plate,
                      .picture = picture,
                      .text = text,
                      .note = ""};
}

static void add_field(SheetRow *row, const char *label, const char *fill,
                      const char *usual, const Told *entry)
{
    if (row->field_count < SHEET_FIELDS_MOST) {
        row->fields[row->field_count++] =
            (SheetField){label, fill, usual, *entry};
    }
}

/* A box that is part of another one's entry. */
static Told no_entry(const Work *work)
{
    Told none = told_blank(TOLD_SEEN, work->round->day);
    none.kind = -1;
    return none;
}

static Told entry_of(const Work *work, ToldKind kind, const RoundStop *stop,
                     const char *place)
{
    Told told = told_blank(kind, work->round->day);
    told.stop = stop->id;
    told.place = place;
    return told;
}

static void mind_caution(Work *work, const RoundItem *item)
{
    if (item->job) {
        work->sheet->has_caution[item->job->caution] = true;
    }
}

/* ---- what was last, what is usual ----------------------------------------
 */

static const char *usual_reading(const RoundItem *item, Arena *arena)
{
    const RoundValue *value = &item->value;
    if (!isnan(value->expected)) {
        return arena_say(arena, "about %.1f", value->expected);
    }
    return isnan(value->yesterday)
               ? ""
               : arena_say(arena, "last %.1f", value->yesterday);
}

/* "temp_degc" is written as degC, "tan_mg_l" as TAN mg/L. */
static const char *reading_label(const RoundItem *item, Arena *arena)
{
    static const struct {
        const char *key;
        const char *label;
    } LABELS[] = {{"temp_degc", "degC"},
                  {"oxygen_mg_l", "O2 mg/L"},
                  {"ph", "pH"},
                  {"tan_mg_l", "TAN mg/L"},
                  {"nitrite_mg_l", "NO2-N"},
                  {"nitrate_mg_l", "NO3-N"},
                  {"alkalinity_mg_l", SAY("alkal.")},
                  {"chloride_mg_l", "Cl"},
                  {"iron_mg_l", "Fe"}};
    for (size_t i = 0; i < sizeof LABELS / sizeof *LABELS; i++) {
        if (strcmp(LABELS[i].key, item->value.key) == 0) {
            return say(arena, LABELS[i].label);
        }
    }
    return arena_text(arena, "%s", item->value.key);
}

static void add_reading(Work *work, const RoundStop *stop,
                        const RoundItem *item, SheetRow *row)
{
    Told told = entry_of(work, TOLD_READ, stop, item->place);
    told.quantity_key = item->value.key;
    add_field(row, reading_label(item, work->arena), "value",
              usual_reading(item, work->arena), &told);
}

/* ---- feed ----------------------------------------------------------------
 */

/* Up to the first semicolon: paper has little room. */
static const char *first_part(const char *text, Arena *arena)
{
    size_t length = strcspn(text, ";");
    const char *arabic = strstr(text, "؛");
    bool is_earlier = arabic && (size_t)(arabic - text) < length;
    return arena_copy_bytes(arena, text,
                            is_earlier ? (size_t)(arabic - text) : length);
}

static void add_feed(Work *work, const RoundStop *stop, const RoundItem *item,
                     SheetRow *row)
{
    row->text = item->text;
    row->note = item->hold ? item->hold : first_part(item->detail, work->arena);
    if (item->hold || item->kind == ROUND_FAST) {
        return;
    }
    static const char *const MEALS[MEALS_MOST] = {SAY("meal 1"), SAY("meal 2"),
                                                  SAY("meal 3"), SAY("meal 4")};
    Told none = no_entry(work);
    for (int m = 0; m < item->meals && m < MEALS_MOST; m++) {
        add_field(row, say(work->arena, MEALS[m]), NULL, "", &none);
    }
    Told fed = entry_of(work, TOLD_FED, stop, item->place);
    fed.job = item->job ? item->job->id : "";
    add_field(row, say(work->arena, "g in all"), "grams",
              arena_text(work->arena, "%.0f", item->value.amount), &fed);
}

static void add_dead(Work *work, const RoundStop *stop, const char *tank,
                     SheetRow *row)
{
    Told died = entry_of(work, TOLD_DIED, stop, tank);
    add_field(row, say(work->arena, "dead"), "count", "", &died);
}

/* ---- the round -----------------------------------------------------------
 */

static const RoundItem *item_at(const RoundStop *stop, RoundKind kind,
                                const char *place, const char *key)
{
    for (int32_t i = 0; i < stop->item_count; i++) {
        const RoundItem *item = &stop->items[i];
        bool is_key =
            !key || (item->value.key && strcmp(item->value.key, key) == 0);
        if (item->kind == kind && is_key && strcmp(item->place, place) == 0) {
            return item;
        }
    }
    return NULL;
}

static const RoundItem *feed_at(const RoundStop *stop, const char *tank)
{
    const RoundItem *feed = item_at(stop, ROUND_FEED, tank, NULL);
    return feed ? feed : item_at(stop, ROUND_FAST, tank, NULL);
}

/* One row a tank: its feed, its readings, its dead. */
static void add_tank_rows(Work *work, const RoundStop *stop, bool has_readings)
{
    for (int32_t k = 0; k < work->farm->tanks_count; k++) {
        const char *id = work->farm->tanks[k].id;
        const RoundItem *feed = feed_at(stop, id);
        if (!feed) {
            continue;
        }
        SheetRow row = row_of(work, stop, id, PICTURE_FISH, "");
        add_feed(work, stop, feed, &row);
        static const char *const KEYS[] = {"temp_degc", "oxygen_mg_l"};
        for (int q = 0; has_readings && q < 2; q++) {
            const RoundItem *read = item_at(stop, ROUND_READ, id, KEYS[q]);
            if (read) {
                add_reading(work, stop, read, &row);
            }
        }
        add_dead(work, stop, id, &row);
        add_row(work, &row);
    }
}

static const RoundItem *vent_at(const RoundStop *stop)
{
    for (int32_t i = 0; i < stop->item_count; i++) {
        if (stop->items[i].kind == ROUND_VENT) {
            return &stop->items[i];
        }
    }
    return NULL;
}

/* The look: one box for "as usual", and room for what is not; a tunnel's vents
 * go with it. */
static void add_look(Work *work, const RoundStop *stop, const RoundItem *item)
{
    const RoundItem *vent = vent_at(stop);
    SheetRow row =
        row_of(work, stop, item->place, PICTURE_EYE,
               vent ? arena_text(work->arena, "%s. %s", item->text, vent->text)
                    : item->text);
    Told usual = entry_of(work, TOLD_AS_USUAL, stop, "");
    add_field(&row, say(work->arena, "as usual"), NULL, "", &usual);
    if (vent && vent->fact_count > 0) {
        Told vented = vent->facts[0];
        vented.stop = stop->id;
        add_field(&row, say(work->arena, "vents"), NULL, "", &vented);
    }
    Told seen = entry_of(work, TOLD_SEEN, stop, item->place);
    add_field(&row, say(work->arena, "what not"), "text", "", &seen);
    add_row(work, &row);
}

static void add_other(Work *work, const RoundStop *stop, const RoundItem *item)
{
    SheetRow row = row_of(work, stop, item->place, PICTURE_EYE, item->text);
    if (item->fact_count > 0) {
        Told told = item->facts[0];
        told.stop = stop->id;
        add_field(&row, say(work->arena, "done"), NULL, "", &told);
    } else {
        bool is_count = item->job && item->job->kind == JOB_COUNT;
        Told told = entry_of(work, is_count ? TOLD_EMERGED : TOLD_SEEN, stop,
                             item->place);
        told.job = item->job ? item->job->id : "";
        told.batch = item->batch;
        add_field(
            &row, say(work->arena, is_count ? "came up" : "seen"),
            is_count ? "count" : "text",
            isnan(item->value.expected)
                ? ""
                : arena_say(work->arena, "about %.0f", item->value.expected),
            &told);
    }
    mind_caution(work, item);
    add_row(work, &row);
}

static bool is_tank_item(const Work *work, const RoundItem *item)
{
    for (int32_t k = 0; k < work->farm->tanks_count; k++) {
        if (strcmp(work->farm->tanks[k].id, item->place) == 0) {
            return true;
        }
    }
    return false;
}

/* A row a place with its readings. */
static void add_water_row(Work *work, const RoundStop *stop, const char *place)
{
    SheetRow row = row_of(work, stop, place, PICTURE_DROP, "");
    for (int32_t i = 0; i < stop->item_count; i++) {
        const RoundItem *item = &stop->items[i];
        if (item->kind == ROUND_READ && strcmp(item->place, place) == 0) {
            add_reading(work, stop, item, &row);
            mind_caution(work, item);
        }
    }
    add_row(work, &row);
}

/* What is read at places that are no tanks: a row each. */
static void add_other_readings(Work *work, const RoundStop *stop)
{
    const char *last = "";
    for (int32_t i = 0; i < stop->item_count; i++) {
        const RoundItem *item = &stop->items[i];
        if (item->kind == ROUND_READ && !is_tank_item(work, item) &&
            strcmp(last, item->place) != 0) {
            last = item->place;
            add_water_row(work, stop, item->place);
        }
    }
}

static void make_round(Work *work)
{
    for (int32_t s = 0; s < work->round->stop_count; s++) {
        const RoundStop *stop = &work->round->stops[s];
        if (stop->is_hands) {
            continue;
        }
        add_heading(work, stop);
        for (int32_t i = 0; i < stop->item_count; i++) {
            const RoundItem *item = &stop->items[i];
            if (item->kind == ROUND_LOOK && item->troubles) {
                add_look(work, stop, item);
            }
        }
        add_tank_rows(work, stop, true);
        add_other_readings(work, stop);
        for (int32_t i = 0; i < stop->item_count; i++) {
            const RoundItem *item = &stop->items[i];
            if (item->kind != ROUND_LOOK && item->kind != ROUND_READ &&
                item->kind != ROUND_VENT && !is_tank_item(work, item)) {
                add_other(work, stop, item);
            }
        }
    }
}

/* ---- feed and water ------------------------------------------------------
 */

static void make_feed(Work *work)
{
    for (int32_t s = 0; s < work->round->stop_count; s++) {
        const RoundStop *stop = &work->round->stops[s];
        bool has_feed = false;
        for (int32_t i = 0; i < stop->item_count; i++) {
            has_feed |= stop->items[i].kind == ROUND_FEED ||
                        stop->items[i].kind == ROUND_FAST;
        }
        if (has_feed && !stop->is_hands) {
            add_heading(work, stop);
            add_tank_rows(work, stop, false);
        }
    }
}

static void make_water(Work *work)
{
    for (int32_t s = 0; s < work->round->stop_count; s++) {
        const RoundStop *stop = &work->round->stops[s];
        const char *last = NULL;
        for (int32_t i = 0; i < stop->item_count; i++) {
            const RoundItem *item = &stop->items[i];
            if (item->kind != ROUND_READ ||
                (last && strcmp(last, item->place) == 0)) {
                continue;
            }
            if (!last) {
                add_heading(work, stop);
            }
            last = item->place;
            add_water_row(work, stop, item->place);
        }
    }
}

/* ---- picking, sowing -----------------------------------------------------
 */

/* By what is sold of it: flowers, fruit; all others are leaves. */
static SheetPicture picture_of(const Farm *farm, int32_t way)
{
    if (way < 0) {
        return PICTURE_LEAF;
    }
    const char *book = farm->ways[way].book;
    static const char *const FRUITS[] = {"cucumber",  "tomato",    "pepper",
                                         "aubergine", "courgette", "paprika",
                                         "bean",      "melon"};
    for (size_t i = 0; i < sizeof FRUITS / sizeof *FRUITS; i++) {
        if (strstr(book, FRUITS[i])) {
            return PICTURE_FRUIT;
        }
    }
    return strstr(book, "flower") || strstr(book, "viola") ? PICTURE_FLOWER
                                                           : PICTURE_LEAF;
}

static const char *way_name(const Farm *farm, int32_t way)
{
    return way < 0                 ? ""
           : *farm->ways[way].name ? farm->ways[way].name
                                   : farm->ways[way].id;
}

static const Told *fact_at(const RoundItem *item, const char *place)
{
    for (int32_t f = 0; f < item->fact_count; f++) {
        if (strcmp(item->facts[f].place, place) == 0) {
            return &item->facts[f];
        }
    }
    return NULL;
}

/* A row a bed of a pick; a bed on hold has its reason and no box. */
static void add_pick_rows(Work *work, const RoundStop *stop,
                          const RoundItem *item)
{
    const Job *job = item->job;
    for (int32_t p = 0; p < item->place_count; p++) {
        const JobPlace *place = &item->places[p];
        const Told *fact = fact_at(item, place->id);
        const char *amount =
            job_quantity(place->amount, job->unit, work->arena);
        SheetRow row =
            row_of(work, stop, place->id, picture_of(work->farm, job->way),
                   arena_text(work->arena, "%s: %s %s",
                              way_name(work->farm, job->way), amount,
                              job_unit(job->unit, place->amount, work->arena)));
        row.note = !fact && item->hold ? item->hold : "";
        if (fact) {
            Told picked = *fact;
            picked.stop = stop->id;
            picked.quantity = NAN;
            Told none = no_entry(work);
            add_field(&row, say(work->arena, "done"), NULL, "", &none);
            add_field(&row, job_unit(job->unit, 2.0, work->arena), "quantity",
                      amount, &picked);
        }
        mind_caution(work, item);
        add_row(work, &row);
    }
}

static void make_pick(Work *work)
{
    for (int32_t s = 0; s < work->round->stop_count; s++) {
        const RoundStop *stop = &work->round->stops[s];
        bool is_first = true;
        for (int32_t i = 0; i < stop->item_count; i++) {
            const RoundItem *item = &stop->items[i];
            if (item->kind != ROUND_PICK || !item->job) {
                continue;
            }
            if (is_first) {
                add_heading(work, stop);
                is_first = false;
            }
            add_pick_rows(work, stop, item);
        }
    }
}

static bool is_of_sowing(const RoundItem *item)
{
    return item->job &&
           (item->job->kind == JOB_SOW || item->job->kind == JOB_SET ||
            item->job->kind == JOB_COUNT);
}

/* One row a place; a ditto under the first. */
static void add_sowing(Work *work, const RoundStop *stop, const RoundItem *item,
                       int32_t place)
{
    const Job *job = item->job;
    bool is_sow = job->kind == JOB_SOW;
    const char *plate =
        item->place_count > 0 ? item->places[place].id : item->place;
    SheetRow row =
        row_of(work, stop, plate,
               is_sow ? PICTURE_SEED : picture_of(work->farm, job->way),
               place == 0 ? item->text
                          : arena_say(work->arena, "  the same: %s",
                                      way_name(work->farm, job->way)));
    row.note = place > 0 ? "" : *item->warning ? item->warning : item->detail;
    Told told = item->fact_count > place
                    ? item->facts[place]
                    : entry_of(work, TOLD_EMERGED, stop, plate);
    double amount =
        item->place_count > 1 ? item->places[place].amount : job->amount;
    told.stop = stop->id;
    told.job = job->id;
    told.batch = *item->batch ? item->batch : told.batch;
    told.count = -1;
    add_field(&row,
              say(work->arena, is_sow                 ? "seeds"
                               : job->kind == JOB_SET ? "plants"
                                                      : "came up"),
              "count",
              amount > 0.0 ? arena_text(work->arena, "%.0f", amount) : "",
              &told);
    if (is_sow) {
        Told lot = no_entry(work);
        add_field(&row, say(work->arena, "seed lot"), "lot", "", &lot);
    }
    mind_caution(work, item);
    add_row(work, &row);
}

static void make_sowing(Work *work)
{
    for (int32_t s = 0; s < work->round->stop_count; s++) {
        const RoundStop *stop = &work->round->stops[s];
        bool is_first = true;
        for (int32_t i = 0; i < stop->item_count; i++) {
            const RoundItem *item = &stop->items[i];
            if (!is_of_sowing(item)) {
                continue;
            }
            if (is_first) {
                add_heading(work, stop);
                is_first = false;
            }
            bool is_count = item->job->kind == JOB_COUNT;
            for (int32_t p = 0; p == 0 || (p < item->place_count && !is_count);
                 p++) {
                add_sowing(work, stop, item, p);
            }
        }
    }
}

/* ---- the whole -----------------------------------------------------------
 */

void sheet_make(const SheetsAsk *ask, SheetKind kind, Arena *arena, Sheet *out)
{
    Sheet sheet = {.kind = kind};
    Work work = {.ask = ask,
                 .farm = ask->farm,
                 .round = ask->round,
                 .arena = arena,
                 .sheet = &sheet};
    switch (kind) {
    case SHEET_ROUND:
        make_round(&work);
        break;
    case SHEET_FEED:
        make_feed(&work);
        break;
    case SHEET_WATER:
        make_water(&work);
        break;
    case SHEET_PICK:
        make_pick(&work);
        break;
    case SHEET_SOW:
        make_sowing(&work);
        break;
    case SHEET_KIND_COUNT:
        break;
    }
    const char **warnings =
        ARENA_ARRAY(arena, const char *, ask->round->suspect_count + 1);
    bool is_of_water =
        kind == SHEET_ROUND || kind == SHEET_FEED || kind == SHEET_WATER;
    for (int32_t i = 0; is_of_water && i < ask->round->suspect_count; i++) {
        warnings[sheet.warning_count++] = ask->round->suspects[i].text;
    }
    sheet.warnings = warnings;
    sheet.has_caution[CAUTION_NONE] = false;
    *out = sheet;
}
