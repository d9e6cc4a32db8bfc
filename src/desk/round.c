/* Today's round. */
#include "desk/round.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "desk/clock.h"
#include "desk/moment.h"
#include "json/round.h"
#include "work/hold.h"
#include "work/news.h"
#include "work/vent.h"

/* The week that holds the day before; NULL where the plan had not begun. */
static Err make_before(const Today *today, const JobsWeek *week,
                       JobsWeek *store, const JobsWeek **out)
{
    int32_t before = week_of(today->day - 1);
    *out = week;
    if (before == week->week) {
        return ERR_NONE;
    }
    Err planned = jobs_week_is_planned(today->farm, before);
    *out = NULL;
    if (planned.kind != ERR_OK) {
        return ERR_NONE;
    }
    JobOutlook outlook;
    TRY(today_jobs(today, before, 1, &outlook, store));
    *out = store;
    return ERR_NONE;
}

/* What the folder holds of yesterday and today, then what came with the
 * question. */
static Err gather_facts(const RoundQuestion *question, const Today *today,
                        RoundAsk *ask)
{
    Tolds tolds;
    TRY(today_told(today, today->day - 1, today->day, 0, &tolds));
    int32_t count = tolds.count + question->fact_count;
    Told *facts = ARENA_ARRAY(today->arena, Told, count);
    for (int32_t i = 0; i < count; i++) {
        facts[i] =
            i < tolds.count ? tolds.items[i] : question->facts[i - tolds.count];
    }
    ask->facts = facts;
    ask->fact_count = count;
    return today_told(today, today->day - HOLD_BACK_D, today->day, HOLD_KINDS,
                      &ask->hold_facts);
}

/* ---- what today's readings mean ------------------------------------------
 */

static int32_t quantity_of(const char *key)
{
    const WordList *words = &FARM_WORDS[WORDS_QUANTITIES];
    for (int32_t q = 0; q < words->count && q < WATER_QUANTITIES; q++) {
        if (strcmp(words->words[q], key) == 0) {
            return q;
        }
    }
    return -1;
}

/* The last told today of each quantity, of the tank or of its loop's sump; true
 * where anything was. */
static bool told_today(const RoundAsk *ask, int32_t tank,
                       double told[WATER_QUANTITIES])
{
    const Tank *row = &ask->farm->tanks[tank];
    const char *loop = row->loop < 0 ? "" : ask->farm->loops[row->loop].id;
    bool is_any = false;
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        told[q] = NAN;
    }
    for (int32_t i = 0; i < ask->fact_count; i++) {
        const Told *fact = &ask->facts[i];
        bool is_ours = strcmp(fact->place, row->id) == 0 ||
                       (*loop && strcmp(fact->place, loop) == 0);
        int32_t quantity = quantity_of(fact->quantity_key);
        if (fact->kind == TOLD_READ && fact->happened_on == ask->day &&
            is_ours && quantity >= 0) {
            told[quantity] = fact->value;
            is_any = true;
        }
    }
    return is_any;
}

static void judge_tank(const Today *today, const FishNow *fish, int64_t at,
                       int32_t tank, double *told, Judge *out)
{
    int day = date_day_of_year(today->day) - 1;
    JudgeAsk ask = {.farm = today->farm,
                    .book = today->book,
                    .fish = fish,
                    .loop = today->farm->tanks[tank].loop,
                    .tank = tank,
                    .at = at,
                    .told = told,
                    .usual_degc = today->climate->tanks[tank].mean_degc[day]};
    judge_make(&ask, today->arena, out);
}

static Err judge_told(const Today *today, RoundAsk *ask)
{
    int32_t tanks = today->farm->tanks_count;
    const Judge **judges = ARENA_ARRAY(today->arena, const Judge *, tanks + 1);
    FishNow fish;
    Moment moment;
    bool is_first = true;
    for (int32_t k = 0; k < tanks; k++) {
        double *told = ARENA_ARRAY(today->arena, double, WATER_QUANTITIES);
        if (!told_today(ask, k, told)) {
            continue;
        }
        if (is_first) {
            TRY(fish_now_followed(today->farm, today->book, today->climate,
                                  today->day, today->arena, &fish));
            TRY(moment_find(today->farm, NULL, today->day, today->arena,
                            &moment));
            is_first = false;
        }
        Judge *judge = ARENA_NEW(today->arena, Judge);
        judge_tank(today, &fish, moment.at, k, told, judge);
        judges[k] = judge;
    }
    ask->judges = judges;
    return ERR_NONE;
}

/* Vents by the day's own heat and moisture; by the usual rule where the year
 * does not reach. */
static void find_vents(const Today *today, RoundAsk *ask)
{
    const Farm *farm = today->farm;
    VentAsk asked = {.farm = farm,
                     .book = today->book,
                     .climate = today->climate,
                     .day = today->day,
                     .clock_ahead_h =
                         clock_ahead_of_sun_h(farm->farm, today->day)};
    VentDay day;
    if (farm->tunnels_count < 1) {
        return;
    }
    Err err = vent_day_make(&asked, today->arena, &day);
    if (err.kind != ERR_OK) {
        return;
    }
    const char **vents =
        ARENA_ARRAY(today->arena, const char *, farm->tunnels_count);
    for (int32_t t = 0; t < farm->tunnels_count; t++) {
        vents[t] = vent_brief(&day, t, today->arena);
    }
    ask->vents = vents;
}

/* What each loop's beds want on a day of this week. */
static Err find_wanted(const Today *today, RoundAsk *ask)
{
    const double grams_a_kg = 1000.0;
    Foresight foresight;
    TRY(today_foresee(today, 1, NAN, &foresight));
    double *wanted_g =
        ARENA_ARRAY(today->arena, double, today->farm->loops_count + 1);
    for (int32_t l = 0; l < today->farm->loops_count; l++) {
        wanted_g[l] = foresight.plants.want_kg[l][0] * grams_a_kg / JOBS_DAYS;
    }
    ask->wanted_g = wanted_g;
    return ERR_NONE;
}

/* What the day's walk must not miss: what will be short, and what must not be
 * done as planned. */
static void tell_news(const JobsWeek *week, Today *today)
{
    enum { MOST = 3 };
    static const NewsKind KINDS[] = {NEWS_ODD, NEWS_SHORT};
    Arena *arena = today->arena;
    JobLoads loads = loads_of_week(today->farm, week, arena);
    JobNews news = news_of_week(today->farm, today->book, week, &loads, arena);
    for (size_t i = 0; i < sizeof KINDS / sizeof *KINDS; i++) {
        const char *text = news_line(&news, KINDS[i], MOST, arena);
        if (*text) {
            today_tell(today,
                       arena_text(arena, "%s: %s",
                                  say(arena, news_kind_word(KINDS[i])), text));
        }
    }
}

Err round_answer(const RoundQuestion *question, Arena *arena, RoundAnswer *out)
{
    RoundAnswer answer;
    TRY(today_open_morning(question->dir, question->today, arena,
                           &answer.today));
    const Today *today = &answer.today;
    JobOutlook outlook;
    JobsWeek week;
    JobsWeek store;
    RoundAsk ask = {.farm = today->farm,
                    .book = today->book,
                    .outlook = &outlook,
                    .week = &week,
                    .day = today->day};
    TRY(today_jobs(today, week_of(today->day), 1, &outlook, &week));
    tell_news(&week, &answer.today);
    TRY(make_before(today, &week, &store, &ask.before));
    TRY(gather_facts(question, today, &ask));
    TRY(judge_told(today, &ask));
    TRY(find_wanted(today, &ask));
    find_vents(today, &ask);
    TRY(round_make(&ask, arena, &answer.round));
    *out = answer;
    return ERR_NONE;
}

const char *round_answer_json(const RoundAnswer *answer, Arena *arena)
{
    RoundJson page = {.farm = answer->today.farm,
                      .round = &answer->round,
                      .title = answer->today.title,
                      .notices = answer->today.notices,
                      .notice_count = answer->today.notice_count};
    return round_to_json(&page, arena);
}
