/* The readings that are due on the round, with what was read last and what was
 * foreseen. Temperature and oxygen daily, the rest on the days of the water
 * tests; common practice of the trade. */
#include "work/round_parts.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "sim/water_now.h"

enum { SECONDS_A_DAY = 86400 };

/* A reading further from the last one than this is asked about once; judged. */
static const double ODD_PH = 0.3;
static const double ODD_TIMES = 2.0;

/* The list is laid out by hand: quantity, name, unit. */
/* clang-format off */
static const struct {
    const char *name;
    const char *unit;
} QUANTITIES_TOLD[WATER_QUANTITIES] = {
    [READ_TEMP] = {SAY("Temperature"), "degC"},
    [READ_OXYGEN] = {SAY("Oxygen"), "mg/L"},
    [READ_PH] = {SAY("pH"), ""},
    [READ_TAN] = {SAY("Total ammonia N"), "mg/L"},
    [READ_NITRITE] = {SAY("Nitrite N"), "mg/L"},
    [READ_NITRATE] = {SAY("Nitrate N"), "mg/L"},
    [READ_ALKALINITY] = {SAY("Alkalinity"), "mg/L"},
    [READ_CHLORIDE] = {SAY("Chloride"), "mg/L"},
    [READ_IRON] = {SAY("Iron"), "mg/L"},
};
/* clang-format on */

/* The last reading of the table before the day. */
static void last_of_table(const RoundWork *work, int32_t tank, int32_t loop,
                          int quantity, RoundValue *value)
{
    int64_t before = (int64_t)work->ask->day * SECONDS_A_DAY;
    int64_t found = INT64_MIN;
    for (int32_t i = 0; i < work->farm->readings_count; i++) {
        const Reading *row = &work->farm->readings[i];
        bool is_there =
            tank >= 0 ? row->tank == tank : row->tank < 0 && row->loop == loop;
        if (is_there && row->quantity == quantity && row->at < before &&
            row->at > found) {
            found = row->at;
            value->yesterday = row->value;
            value->yesterday_on = (int32_t)(row->at / SECONDS_A_DAY);
            value->is_yesterday_told = true;
        }
    }
}

static void last_told(const RoundWork *work, const char *place, const char *key,
                      RoundValue *value)
{
    for (int32_t i = 0; i < work->ask->fact_count; i++) {
        const Told *fact = &work->ask->facts[i];
        if (fact->happened_on == work->ask->day - 1 &&
            fact->kind == TOLD_READ && strcmp(fact->place, place) == 0 &&
            strcmp(fact->quantity_key, key) == 0) {
            value->yesterday = fact->value;
            value->yesterday_on = fact->happened_on;
            value->is_yesterday_told = true;
        }
    }
}

static double limit_of(const RoundWork *work, const char *id)
{
    return book_limit(work->ask->book, id)->limit.value;
}

/* The bounds of what is believed without asking. */
static void set_odd(const RoundWork *work, int quantity, RoundValue *value)
{
    double last = value->yesterday;
    double apart_k = limit_of(work, "temp-apart");
    double warm_degc = isnan(value->expected) ? 20.0 : value->expected;
    if (quantity == READ_TEMP) {
        double about = isnan(value->expected) ? last : value->expected;
        value->odd_below = about - apart_k;
        value->odd_above = about + apart_k;
    } else if (quantity == READ_OXYGEN) {
        double full =
            water_now_full_mg_l(warm_degc, work->farm->farm->altitude_m);
        value->odd_below = limit_of(work, "oxygen-watch");
        value->odd_above = limit_of(work, "oxygen-over") * full;
        value->expected = NAN;
    } else if (quantity == READ_PH) {
        value->odd_below =
            isnan(last) ? limit_of(work, "ph-stall") : last - ODD_PH;
        value->odd_above =
            isnan(last) ? limit_of(work, "ph-high") : last + ODD_PH;
    } else {
        bool is_poison = quantity == READ_TAN || quantity == READ_NITRITE;
        double sign =
            limit_of(work, quantity == READ_TAN ? "tan-sign" : "nitrite-sign");
        value->odd_below = is_poison ? NAN : last / ODD_TIMES;
        value->odd_above =
            is_poison ? fmax(sign, isnan(last) ? sign : ODD_TIMES * last)
                      : ODD_TIMES * last;
    }
}

static void add_reading(RoundWork *work, RoundStop *stop, int32_t tank,
                        int32_t loop, int quantity)
{
    const Farm *farm = work->farm;
    const char *key = FARM_WORDS[WORDS_QUANTITIES].words[quantity];
    const char *place = tank >= 0 ? farm->tanks[tank].id : farm->loops[loop].id;
    RoundItem item = round_item(
        ROUND_READ, arena_text(work->arena, "%s-%s", key, place), place);
    item.text =
        arena_text(work->arena, "%s, %s",
                   say(work->arena, QUANTITIES_TOLD[quantity].name), place);
    item.value = round_value(key, QUANTITIES_TOLD[quantity].unit);
    if (tank >= 0 && quantity <= READ_OXYGEN) {
        item.value.expected =
            work->ask->outlook->tank_degc[tank * JOBS_DAYS + work->weekday];
    }
    last_of_table(work, tank, loop, quantity, &item.value);
    last_told(work, place, key, &item.value);
    set_odd(work, quantity, &item.value);
    if (quantity > READ_OXYGEN) {
        item.job = round_job(work->ask->week, JOB_TEST, NULL, work->ask->day);
        item.caution = item.job ? job_caution_text(item.job, work->arena) : "";
    }
    round_add(work, stop, &item);
}

/* The week's first day of tests has the slow readings too. */
static bool is_first_test(const RoundWork *work)
{
    for (int32_t d = work->ask->week->week; d < work->ask->day; d++) {
        if (round_job(work->ask->week, JOB_TEST, NULL, d)) {
            return false;
        }
    }
    return true;
}

void round_add_readings(RoundWork *work, RoundStop *stop, int32_t tank,
                        int32_t loop)
{
    bool is_test =
        round_job(work->ask->week, JOB_TEST, NULL, work->ask->day) != NULL;
    if (tank >= 0) {
        TankDay day = shoals_tank_day(&work->usual, tank, work->weekday);
        if (day.count < 0.5) {
            return;
        }
        add_reading(work, stop, tank, loop, READ_TEMP);
        add_reading(work, stop, tank, loop, READ_OXYGEN);
    }
    bool is_here = tank < 0 || loop < 0;
    for (int q = READ_PH; q <= READ_NITRITE && is_test && is_here; q++) {
        add_reading(work, stop, tank, loop, q);
    }
    for (int q = READ_NITRATE; q <= READ_IRON && is_test && tank < 0; q++) {
        if (is_first_test(work)) {
            add_reading(work, stop, tank, loop, q);
        }
    }
}
