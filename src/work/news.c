/* What is big or odd in a week. */
#include "work/news.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/jobs_table.h"
#include "work/overfull.h"

/* A crop that was away so long is told when it comes again. */
enum { AWAY_D = 28 };

/* Less is not missed. */
static const double LEAST_SHORT = 0.5; /* of what is counted */
static const double LEAST_SHORT_KG = 0.05;

typedef struct Finder {
    const Farm *farm;
    const Book *book;
    const JobsWeek *week;
    const JobLoads *loads;
    Arena *arena;
    News *news;
    int32_t count;
} Finder;

static const char *const WORDS[NEWS_KIND_COUNT] = {
#define NEWS_WORD(kind, word) [kind] = word,
    NEWS_KINDS(NEWS_WORD)
#undef NEWS_WORD
};

const char *news_kind_word(NewsKind kind)
{
    return WORDS[kind];
}

static void add(Finder *finder, NewsKind kind, int32_t day, const char *text)
{
    size_t count = (size_t)finder->count;
    finder->news = arena_grow(finder->arena, finder->news, count, count + 1,
                              sizeof *finder->news);
    finder->news[finder->count++] = (News){kind, day, text};
}

/* ---- what will be short -------------------------------------------------- */

typedef struct Shortage {
    double short_by;
    double ordered;
    const char *whom; /* "box 10, hotel 2"; "box" where nobody else is */
    int count;
} Shortage;

static double lacks_of(const Finder *finder, int32_t order, double *ordered)
{
    double lacks = 0.0;
    for (int32_t i = 0; i < finder->loads->count; i++) {
        const Load *load = &finder->loads->loads[i];
        if (load->order == order) {
            lacks += load->short_by;
            *ordered += load->ordered;
        }
    }
    return lacks;
}

/* Of a product, over the week, for orders of that firmness. */
static Shortage shortage_of(const Finder *finder, int32_t product,
                            int32_t firmness)
{
    const Farm *farm = finder->farm;
    const char *unit = farm->products[product].unit;
    double least = strcmp(unit, "kg") == 0 ? LEAST_SHORT_KG : LEAST_SHORT;
    Shortage all = {.whom = ""};
    for (int32_t o = 0; o < farm->orders_count; o++) {
        const Order *order = &farm->orders[o];
        if (order->product != product || order->firmness != firmness) {
            continue;
        }
        double lacks = lacks_of(finder, o, &all.ordered);
        if (lacks >= least) {
            const char *buyer = farm->buyers[order->buyer].id;
            all.whom = arena_text(finder->arena, "%s%s%s %s", all.whom,
                                  all.count ? ", " : "", buyer,
                                  job_quantity(lacks, unit, finder->arena));
            all.short_by += lacks;
            all.count++;
        }
    }
    if (all.count == 1) {
        all.whom =
            arena_text(finder->arena, "%.*s",
                       (int)(strrchr(all.whom, ' ') - all.whom), all.whom);
    }
    return all;
}

static void find_short(Finder *finder)
{
    const Farm *farm = finder->farm;
    for (int32_t rule = ORDER_FIRM; rule <= ORDER_PROMISED; rule++) {
        for (int32_t p = 0; p < farm->products_count; p++) {
            Shortage found = shortage_of(finder, p, rule);
            if (found.count == 0) {
                continue;
            }
            const char *unit = farm->products[p].unit;
            add(finder, NEWS_SHORT, DATE_NEVER,
                arena_say(finder->arena,
                          rule == ORDER_FIRM ? "FIRM %s %s of %s (%s)"
                                             : "%s %s of %s (%s)",
                          farm->products[p].id,
                          job_quantity(found.short_by, unit, finder->arena),
                          job_quantity(found.ordered, unit, finder->arena),
                          found.whom));
        }
    }
}

/* ---- fish, and what must not be done ------------------------------------- */

static bool is_fish_news(const Job *job)
{
    return job->kind == JOB_GRADE || job->kind == JOB_CATCH ||
           job->kind == JOB_STOCK || job->kind == JOB_ORDER ||
           job->kind == JOB_CROWD;
}

static void find_jobs(Finder *finder)
{
    const JobList *list = &finder->week->list;
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (*job->warning) {
            add(finder, NEWS_ODD, job->day,
                arena_text(finder->arena, "%s: %s",
                           job_text(job, finder->arena), job->warning));
        }
        bool has_work = job->minutes >= 1.0;
        if (has_work && job->hand_count < job->people) {
            const char *why =
                *jobs_names(finder->farm, job, true, finder->arena)
                    ? say(finder->arena, "too few are here")
                    : say(finder->arena, "NOBODY MAY DO THIS");
            add(finder, NEWS_ODD, job->day,
                arena_text(finder->arena, "%s: %s", job->what, why));
        }
        if (is_fish_news(job)) {
            add(finder, NEWS_FISH, job->day, job_text(job, finder->arena));
        }
    }
}

/* ---- first and last picks ------------------------------------------------ */

static const char *way_name(const Finder *finder, int32_t way)
{
    const Way *row = &finder->farm->ways[way];
    const BookWay *book = book_way(finder->book, row->book);
    return *row->name ? row->name
           : book     ? say(finder->arena, book->name)
                      : row->id;
}

/* Whether another batch of the way is picked within those days. */
static bool is_picked_within(const Farm *farm, int32_t way, int32_t from,
                             int32_t until)
{
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        if (row->way == way && row->pick_from <= until &&
            row->pick_until >= from) {
            return true;
        }
    }
    return false;
}

static void find_picks(Finder *finder)
{
    const Farm *farm = finder->farm;
    int32_t week = finder->week->week;
    for (int32_t way = 0; way < farm->ways_count; way++) {
        bool is_now = is_picked_within(farm, way, week, week + JOBS_DAYS - 1);
        bool was = is_picked_within(farm, way, week - AWAY_D, week - 1);
        bool will = is_picked_within(farm, way, week + JOBS_DAYS,
                                     week + JOBS_DAYS + AWAY_D);
        /* Before the tables nothing is known of picks. */
        bool is_known = week - AWAY_D >= farm->farm->records_from;
        if (is_now && !was && is_known) {
            add(finder, NEWS_FIRST, DATE_NEVER, way_name(finder, way));
        }
        if (is_now && !will) {
            add(finder, NEWS_LAST, DATE_NEVER, way_name(finder, way));
        }
    }
}

static void find_overfull(Finder *finder)
{
    for (int d = 0; d < JOBS_DAYS; d++) {
        for (int h = 0; h < finder->farm->hands_count; h++) {
            const char *text =
                overfull_text(finder->farm, finder->week, h, d, finder->arena);
            if (text) {
                add(finder, NEWS_HOURS, finder->week->week + d, text);
            }
        }
    }
}

/* Stable, so that each kind keeps its order. */
static void sort(Finder *finder)
{
    for (int32_t i = 1; i < finder->count; i++) {
        News news = finder->news[i];
        int32_t at = i;
        while (at > 0 && finder->news[at - 1].kind > news.kind) {
            finder->news[at] = finder->news[at - 1];
            at--;
        }
        finder->news[at] = news;
    }
}

JobNews news_of_week(const Farm *farm, const Book *book, const JobsWeek *week,
                     const JobLoads *loads, Arena *arena)
{
    Finder finder = {farm, book, week, loads, arena, NULL, 0};
    find_jobs(&finder);
    find_short(&finder);
    find_picks(&finder);
    find_overfull(&finder);
    sort(&finder);
    return (JobNews){finder.news, finder.count};
}

const char *news_line(const JobNews *news, NewsKind kind, int most,
                      Arena *arena)
{
    int told = 0;
    const char *text = "";
    int32_t day = DATE_NEVER;
    for (int32_t i = 0; i < news->count; i++) {
        const News *row = &news->news[i];
        if (row->kind != kind || told++ >= most) {
            continue;
        }
        const char *when =
            row->day == DATE_NEVER || row->day == day
                ? ""
                : say(arena, date_weekday_name(date_weekday(row->day)));
        day = row->day;
        text = arena_text(arena, "%s%s%s%s%s", text, *text ? "; " : "", when,
                          *when ? " " : "", row->text);
    }
    return told > most ? arena_say(arena, "%s; %d more", text, told - most)
                       : text;
}
