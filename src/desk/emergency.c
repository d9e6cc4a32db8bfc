/* An emergency: read the farm as it is, work out how long, make the card. */
#include "desk/emergency.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "desk/any_farm.h"
#include "desk/moment.h"
#include "out/card_page.h"

static Err check_told(const char *key, double value, double least, double most)
{
    if (!isnan(value) && !(value >= least && value <= most)) {
        return err_make(ERR_USAGE, "%s=%g: expected %g to %g", key, value,
                        least, most);
    }
    return ERR_NONE;
}

static Err check_question(const EmergencyQuestion *q)
{
    int stopped = (q->pump ? 1 : 0) + (q->heater ? 1 : 0) +
                  (q->aerator ? 1 : 0) + (q->power ? 1 : 0);
    if (stopped != 1) {
        return err_make(ERR_USAGE, "tell one thing that has stopped: pump=ID, "
                                   "heater=ID, aerator=ID or power=all");
    }
    if (q->power && strcmp(q->power, "all") != 0) {
        return err_make(ERR_USAGE, "power=%.60s: only power=all is known",
                        q->power);
    }
    TRY(check_told("temp_degc", q->temp_degc, 0.0, 45.0));
    TRY(check_told("oxygen_mg_l", q->oxygen_mg_l, 0.0, 40.0));
    TRY(check_told("fed_hours_ago", q->fed_hours_ago, 0.0, 2000.0));
    return check_told("outside_degc", q->outside_degc, -50.0, 50.0);
}

static Err find_what(const EmergencyQuestion *q, const Farm *farm, Arena *arena,
                     EmergencyAsk *ask)
{
    AnyIds ids;
    if (q->pump) {
        ask->on = HANGS_PUMP;
        ANY_IDS_OF(farm, arena, "pump", pumps, &ids);
        return any_farm_find(&ids, q->pump, arena, &ask->row);
    }
    if (q->heater) {
        ask->on = HANGS_HEATER;
        ANY_IDS_OF(farm, arena, "heater", heaters, &ids);
        return any_farm_find(&ids, q->heater, arena, &ask->row);
    }
    if (q->aerator) {
        ask->on = HANGS_AERATOR;
        ANY_IDS_OF(farm, arena, "aerator", aerators, &ids);
        return any_farm_find(&ids, q->aerator, arena, &ask->row);
    }
    ask->on = HANGS_POWER;
    ask->row = -1;
    return ERR_NONE;
}

static const double *told_of(const EmergencyQuestion *q, Arena *arena)
{
    double *told = ARENA_ARRAY(arena, double, WATER_QUANTITIES);
    for (int i = 0; i < WATER_QUANTITIES; i++) {
        told[i] = NAN;
    }
    told[READ_TEMP] = q->temp_degc;
    told[READ_OXYGEN] = q->oxygen_mg_l;
    return told;
}

static void tell_plan(const Moment *moment, Arena *arena, Emergency *emergency)
{
    const Farm *farm = emergency->ask.farm;
    if (emergency->fish.is_followed && farm->plan_count > 0 &&
        moment->day > farm->farm[0].records_from) {
        char from[DATE_TEXT_SIZE];
        date_format(farm->farm[0].records_from, from);
        emergency_notice(emergency,
                         arena_say(arena,
                                   "Nothing was told since %s: the plan is "
                                   "taken as done.",
                                   from));
    }
}

Err emergency_answer(const EmergencyQuestion *question, Arena *arena,
                     EmergencyAnswer *out)
{
    TRY(check_question(question));
    AnyFarm any;
    TRY(any_farm_read(question->dir, moment_day(question->at, question->today),
                      arena, &any));
    EmergencyAsk ask = {
        .farm = any.farm,
        .book = any.book,
        .climate = any.climate,
        .hours_since_meal =
            isnan(question->fed_hours_ago) ? -1.0 : question->fed_hours_ago,
        .told = told_of(question, arena),
        .told_tank = -1,
        .outside_degc = question->outside_degc,
    };
    TRY(find_what(question, any.farm, arena, &ask));
    if (question->tank) {
        AnyIds ids;
        ANY_IDS_OF(any.farm, arena, "tank", tanks, &ids);
        TRY(any_farm_find(&ids, question->tank, arena, &ask.told_tank));
    }
    Moment moment;
    TRY(moment_find(any.farm, question->at, question->today, arena, &moment));
    ask.at = moment.at;
    ask.day = moment.day;
    EmergencyAnswer answer = {0};
    emergency_make(&ask, arena, &answer.emergency);
    if (any.notice) {
        emergency_notice(&answer.emergency, any.notice);
    }
    if (any.journal) {
        emergency_notice(&answer.emergency, any.journal);
    }
    if (moment.notice) {
        emergency_notice(&answer.emergency, moment.notice);
    }
    tell_plan(&moment, arena, &answer.emergency);
    CardAsk card = {&answer.emergency, moment.text, moment.minute_of_day};
    emergency_card(&card, arena, &answer.card);
    const Farm *farm = any.farm;
    answer.farm_name = farm->farm_count < 1  ? ""
                       : *farm->farm[0].name ? farm->farm[0].name
                                             : farm->farm[0].id;
    *out = answer;
    return ERR_NONE;
}

Err emergency_save_page(const EmergencyAnswer *answer, const char *path,
                        Arena *arena)
{
    const char *page =
        card_page(&answer->card, answer->farm_name, answer->emergency.notices,
                  answer->emergency.notice_count, arena);
    FILE *file = fopen(path, "wb");
    if (!file) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    bool is_written = fputs(page, file) >= 0;
    bool is_closed = fclose(file) == 0;
    if (!is_written || !is_closed) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    return ERR_NONE;
}
