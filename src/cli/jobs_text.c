/* The jobs as pages of text. */
#include "cli/jobs_text.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "work/jobs_table.h"
#include "work/overfull.h"

enum { NAME_WIDTH = 10, LABEL_WIDTH = 10, NEWS_AT_A_GLANCE = 5 };

static const double MINUTES_AN_HOUR = 60.0;

static const char *day_title(int32_t day, Arena *arena)
{
    CivilDate civil = date_to_civil(day);
    return arena_text(
        arena, "%s %d %s %d", say(arena, date_weekday_name(date_weekday(day))),
        civil.day, say(arena, date_month_name(civil.month)), civil.year);
}

/* "Marta 6.2 of 5.7 h over, Rui 5.9 of 6.0 h". */
static const char *hours_text(const JobsPage *page, int32_t day)
{
    const JobsWeek *week = &page->answer->week;
    const char *text = "";
    int d = (int)(day - week->week);
    for (int h = 0; h < page->answer->farm->hands_count; h++) {
        const HandWeek *hours = &week->hands[h];
        if (hours->minutes_had[d] <= 0.0 && hours->minutes_used[d] <= 0.0) {
            continue;
        }
        bool is_over = overfull_minutes(week, h, d) > 0.0;
        text = arena_text(page->arena, "%s%s%s", text, *text ? ", " : "",
                          arena_say(page->arena,
                                    is_over ? "%s %.1f of %.1f h (over)"
                                            : "%s %.1f of %.1f h",
                                    jobs_short_name(page, h),
                                    hours->minutes_used[d] / MINUTES_AN_HOUR,
                                    hours->minutes_had[d] / MINUTES_AN_HOUR));
    }
    return *text ? text : say(page->arena, "nobody is here");
}

/* ---- what is big or odd -------------------------------------------------- */

static void print_news(const JobsPage *page, int most)
{
    for (int kind = 0; kind < NEWS_KIND_COUNT; kind++) {
        const char *text =
            news_line(&page->answer->news, (NewsKind)kind, most, page->arena);
        if (*text) {
            const char *label =
                arena_text(page->arena, "%-*s", LABEL_WIDTH,
                           say(page->arena, news_kind_word((NewsKind)kind)));
            jobs_print_wrapped(page, label, text);
        }
    }
}

static void print_notices(const JobsPage *page)
{
    for (int i = 0; i < page->answer->notice_count; i++) {
        jobs_print_wrapped(page, "", page->answer->notices[i]);
    }
}

/* ---- a day at a glance --------------------------------------------------- */

static bool is_told_by_name(JobKind kind)
{
    return kind == JOB_GRADE || kind == JOB_CATCH || kind == JOB_STOCK ||
           kind == JOB_ORDER;
}

/* Words for the kinds that are counted in a day's one line, in the order in
 * which they are told; routine is not. */
static const struct {
    JobKind kind;
    const char *words;
} COUNTED[] = {{JOB_STOCK, SAY("stock")},     {JOB_GRADE, SAY("grade")},
               {JOB_CATCH, SAY("catch")},     {JOB_ORDER, SAY("order")},
               {JOB_CLEAN, SAY("clean")},     {JOB_SHADE, SAY("shade")},
               {JOB_TEST, SAY("test")},       {JOB_PICK, SAY("pick")},
               {JOB_SOW, SAY("sow")},         {JOB_COUNT, SAY("count")},
               {JOB_CLEAR, SAY("clear")},     {JOB_SET, SAY("set out")},
               {JOB_STRING, SAY("string")},   {JOB_PRUNE, SAY("prune")},
               {JOB_RENEW, SAY("look over")}, {JOB_SALE, SAY("fish out")},
               {JOB_DELIVER, SAY("deliver")}};

static const char *counted_text(const JobsPage *page, int32_t day, JobKind kind,
                                const char *words)
{
    const JobList *list = &page->answer->week.list;
    int count = 0;
    const char *where = "";
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (job->day != day || job->kind != kind) {
            continue;
        }
        count++;
        if (is_told_by_name(kind) && job->place_count > 0) {
            where = arena_text(page->arena, "%s %s", where, job->places[0].id);
        }
    }
    if (count == 0) {
        return "";
    }
    return *where       ? arena_text(page->arena, "%s%s", words, where)
           : count == 1 ? words
                        : arena_text(page->arena, "%s %d", words, count);
}

/* "11.7 h", "! 12.4 h" where somebody has too much. */
static const char *day_hours(const JobsPage *page, int32_t day)
{
    const JobsWeek *week = &page->answer->week;
    double minutes = 0.0;
    bool is_over = false;
    for (int h = 0; h < page->answer->farm->hands_count; h++) {
        minutes += week->hands[h].minutes_used[day - week->week];
        is_over |= overfull_minutes(week, h, (int)(day - week->week)) > 0.0;
    }
    return arena_text(page->arena, "%s%4.1f h", is_over ? "! " : "  ",
                      minutes / MINUTES_AN_HOUR);
}

static void print_day_line(const JobsPage *page, int32_t day)
{
    const char *text = "";
    for (size_t i = 0; i < sizeof COUNTED / sizeof *COUNTED; i++) {
        const char *more = counted_text(page, day, COUNTED[i].kind,
                                        say(page->arena, COUNTED[i].words));
        text = arena_text(page->arena, "%s%s%s", text,
                          *text && *more ? ", " : "", more);
    }
    bool is_round = *counted_text(page, day, JOB_ROUND, "round");
    const char *label =
        arena_text(page->arena, "%s %-*d",
                   say(page->arena, date_weekday_name(date_weekday(day))),
                   LABEL_WIDTH - 4, date_to_civil(day).day);
    jobs_print_between(page, label,
                       *text      ? text
                       : is_round ? say(page->arena, "the round")
                                  : say(page->arena, "nothing"),
                       day_hours(page, day));
}

static void print_hint(const JobsPage *page)
{
    fputc('\n', page->out);
    jobs_print_wrapped(page, "",
                       say(page->arena,
                           "More: --week this, --day tue, --loads for "
                           "the van, --cautions in full."));
}

void jobs_text_day(JobsPage *page)
{
    const JobsAnswer *answer = page->answer;
    char name[DATE_TEXT_SIZE];
    week_format(answer->day, name);
    const char *title = arena_text(
        page->arena, "%s, %s: ", day_title(answer->day, page->arena), name);
    jobs_print_wrapped(page, title, hours_text(page, answer->day));
    print_notices(page);
    print_news(page, NEWS_AT_A_GLANCE);
    fputc('\n', page->out);
    page->is_brief_told = !page->is_glance;
    jobs_print_day(page, answer->day);
    int32_t end = answer->week.week + JOBS_DAYS;
    if (answer->day + 1 < end) {
        fprintf(page->out, "\n%s\n",
                say(page->arena, "The rest of the week, beside the rounds"));
    }
    for (int32_t day = answer->day + 1; day < end; day++) {
        print_day_line(page, day);
    }
    print_hint(page);
}

/* ---- a week -------------------------------------------------------------- */

static void print_hand(const JobsPage *page, int hand)
{
    const JobsWeek *week = &page->answer->week;
    const HandWeek *hours = &week->hands[hand];
    double had = 0.0;
    double used = 0.0;
    fprintf(page->out, "%-*.*s", NAME_WIDTH, NAME_WIDTH - 1,
            jobs_short_name(page, hand));
    for (int d = 0; d < JOBS_DAYS; d++) {
        had += hours->minutes_had[d];
        used += hours->minutes_used[d];
        if (hours->minutes_had[d] <= 0.0 && hours->minutes_used[d] <= 0.0) {
            fputs("      - ", page->out);
        } else {
            fprintf(page->out, " %6.1f%s",
                    hours->minutes_used[d] / MINUTES_AN_HOUR,
                    overfull_minutes(week, hand, d) > 0.0 ? "!" : " ");
        }
    }
    fprintf(page->out, say(page->arena, "%6.1f of %.1f"),
            used / MINUTES_AN_HOUR, had / MINUTES_AN_HOUR);
    fputc('\n', page->out);
}

static void print_hours(const JobsPage *page)
{
    fprintf(page->out, "\n%-*s", NAME_WIDTH, say(page->arena, "Hours"));
    for (int d = 0; d < JOBS_DAYS; d++) {
        fprintf(page->out, "    %s ", say(page->arena, date_weekday_name(d)));
    }
    fprintf(page->out, "  %s\n", say(page->arena, "week"));
    for (int h = 0; h < page->answer->farm->hands_count; h++) {
        print_hand(page, h);
    }
}

void jobs_text_week(JobsPage *page)
{
    const JobsWeek *week = &page->answer->week;
    char name[DATE_TEXT_SIZE];
    week_format(week->week, name);
    fprintf(page->out, "%s\n", arena_say(page->arena, "Jobs of week %s", name));
    print_notices(page);
    print_news(page, page->answer->news.count);
    print_hours(page);
    for (int d = 0; d < JOBS_DAYS; d++) {
        fprintf(page->out, "\n%s\n", day_title(week->week + d, page->arena));
        jobs_print_day(page, week->week + d);
    }
    print_hint(page);
}

/* ---- cautions ------------------------------------------------------------ */

void jobs_text_cautions(JobsPage *page)
{
    const JobList *list = &page->answer->week.list;
    fprintf(page->out, "\n%s\n", say(page->arena, "Cautions"));
    for (int caution = 1; caution < CAUTION_COUNT; caution++) {
        const Job *first = NULL;
        for (int32_t i = 0; i < list->count && !first; i++) {
            bool is_it = list->jobs[i].caution == (Caution)caution;
            first = is_it ? &list->jobs[i] : NULL;
        }
        if (first) {
            fprintf(page->out, "  %s\n", first->what);
            jobs_print_wrapped(
                page, "    ", say(page->arena, caution_text((Caution)caution)));
        }
    }
    jobs_print_wrapped(page, "  ",
                       say(page->arena,
                           "Local rules and licensed people go before "
                           "anything said here."));
}

/* ---- loads --------------------------------------------------------------- */

static const char *from_text(const JobsPage *page, const Load *load)
{
    if (load->is_stored) {
        return say(page->arena, "from the cold store");
    }
    if (load->from_day == DATE_NEVER) {
        return say(page->arena, "nothing is picked for it");
    }
    const char *text = "";
    for (int32_t i = 0; i < load->from_count; i++) {
        text = arena_text(page->arena, "%s%s%s", text, i ? ", " : "",
                          load->from[i].id);
    }
    return load->from_day == load->day
               ? text
               : arena_say(page->arena, "%s, of %s", text,
                           say(page->arena, date_weekday_name(
                                                date_weekday(load->from_day))));
}

static void print_load(const JobsPage *page, const Load *load)
{
    const Farm *farm = page->answer->farm;
    bool is_short = load_is_short(farm, load);
    bool is_nothing = load->expected <= 0.0 && !is_short;
    int32_t firmness = farm->orders[load->order].firmness;
    if (is_nothing) {
        return;
    }
    const char *rule =
        firmness == ORDER_OUTLET
            ? ""
            : arena_text(page->arena, ", %s",
                         say(page->arena,
                             firmness == ORDER_FIRM ? "firm" : "promised"));
    jobs_print_wrapped(page, is_short ? "  ! " : "    ",
                       arena_text(page->arena, "%s%s; %s",
                                  load_text(farm, load, page->arena), rule,
                                  from_text(page, load)));
}

/* "Deliver ..., 70 min, Rui": who drives, from the jobs. */
static void print_stop(const JobsPage *page, int32_t day, int32_t buyer)
{
    const Farm *farm = page->answer->farm;
    const JobList *list = &page->answer->week.list;
    const char *who = "";
    for (int32_t i = 0; i < list->count; i++) {
        const Job *job = &list->jobs[i];
        if (job->day == day && job->kind == JOB_DELIVER &&
            job->buyer == buyer && job->hand_count > 0) {
            who = arena_text(page->arena, ", %s",
                             jobs_short_name(page, job->hands[0]));
        }
    }
    const Buyer *row = &farm->buyers[buyer];
    fprintf(page->out, "  %s%s\n", *row->name ? row->name : row->id, who);
}

void jobs_text_loads(JobsPage *page, bool is_day)
{
    const JobsAnswer *answer = page->answer;
    int32_t day = DATE_NEVER;
    int32_t buyer = -1;
    char name[DATE_TEXT_SIZE];
    week_format(answer->week.week, name);
    fprintf(page->out, "%s\n",
            arena_say(page->arena, "The van of week %s", name));
    print_notices(page);
    jobs_print_wrapped(page, "",
                       say(page->arena,
                           "Expected (low to high). What is short goes to firm "
                           "orders first, then promised ones, then outlets; "
                           "among equals as the plan shares it."));
    for (int32_t i = 0; i < answer->loads.count; i++) {
        const Load *load = &answer->loads.loads[i];
        if (is_day && load->day != answer->day) {
            continue;
        }
        int32_t whom = answer->farm->orders[load->order].buyer;
        if (load->day != day) {
            fprintf(page->out, "\n%s\n", day_title(load->day, page->arena));
        }
        if (load->day != day || whom != buyer) {
            print_stop(page, load->day, whom);
        }
        day = load->day;
        buyer = whom;
        print_load(page, load);
    }
    if (day == DATE_NEVER) {
        fprintf(page->out, "\n%s\n", say(page->arena, "Nothing is due."));
    }
}
