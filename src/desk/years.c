/* Many possible years of a farm. */
#include "desk/years.h"

#include <inttypes.h>
#include <math.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/child_pool.h"
#include "desk/farm_folder.h"
#include "desk/farm_today.h"
#include "desk/folder_lock.h"
#include "desk/plan_age.h"
#include "desk/typical.h"
#include "desk/week_choice.h"
#include "desk/years_log.h"
#include "farm/write.h"
#include "journal/fold.h"
#include "json/json_child.h"
#include "json/years.h"
#include "work/foresight.h"

/* Years of one child, at least, and children, at most: neither hangs on the
 * cores. */
enum { SPAN_YEARS = 25, SPANS_MOST = 64, YEAR_WEEKS = 52, DAY_HOURS = 24 };

static YearsAsk ask_of(const Farm *farm, const Typical *typical)
{
    return (YearsAsk){.farm = farm,
                      .book = typical->book,
                      .climate = typical->climate,
                      .sale_g = foresight_sale_g(farm)};
}

Err years_run_span(const YearsSpan *span, Arena *arena, int *out_done)
{
    Typical typical;
    TRY(typical_make(span->farm, arena, &typical));
    YearsAsk ask = ask_of(span->farm, &typical);
    ask.first_week = span->first_week;
    ask.weeks = span->weeks;
    ask.seed = span->seed;
    TRY(years_log_read(&span->log_file, span->farm, arena, &ask.log, NULL));
    YearsFarm *years = NULL;
    TRY(years_open(&ask, arena, &years));
    int count = years_shape(span->farm, span->weeks).code_count;
    uint16_t *codes = ARENA_ARRAY(arena, uint16_t, count);
    int done = 0;
    while (done < span->years && !(span->stop && *span->stop)) {
        years_run(years, span->year + done, codes);
        span->tell(span->context, span->year + done, codes, count);
        done++;
    }
    *out_done = done;
    return ERR_NONE;
}

/* ---- What it stands on ----------------------------------------------------
 */

static void tell(YearsAnswer *answer, const char *text)
{
    if (text && answer->notice_count < YEARS_NOTICES_MOST) {
        answer->notices[answer->notice_count++] = text;
    }
}

static void tell_what_it_stands_on(YearsAnswer *answer, Arena *arena)
{
    const Farm *farm = answer->farm;
    if (farm->plan_count < 1) {
        tell(answer, "No plan is accepted: nothing new is set, stocked or "
                     "sold, so beds empty and fish grow on.");
        return;
    }
    const Plan *plan = &farm->plan[0];
    int32_t until = week_of(plan->from) + YEARS_WEEK_D * plan->weeks;
    if (answer->first_week + YEARS_WEEK_D * answer->weeks > until) {
        char last[DATE_TEXT_SIZE];
        date_format(until - 1, last);
        tell(answer, arena_text(arena,
                                "The accepted plan ends on %s: after it "
                                "nothing new is set, stocked or sold.",
                                last));
    }
}

/* With what was told since the tables, or the plan taken as done. */
static Err farm_on(const char *dir, const Farm *told, const WeekChoice *choice,
                   Arena *arena, YearsAnswer *answer, const Farm **out)
{
    int32_t from = told->farm->records_from;
    int32_t day = choice->day < from ? from : choice->day;
    FarmToday today;
    TRY(farm_today_sound(dir, told, day, arena, &today));
    for (int i = 0; i < today.notice_count; i++) {
        tell(answer, today.notices[i]);
    }
    *out = today.farm;
    if (today.has_journal) {
        return ERR_NONE;
    }
    Farm *farm = ARENA_NEW(arena, Farm);
    bool is_assumed = false;
    TRY(journal_farm_on(told, day, arena, farm, &is_assumed));
    if (is_assumed) {
        tell(answer, week_untold(told, choice->week, arena));
    }
    *out = farm;
    return ERR_NONE;
}

/* The weather that a logger wrote, as far as it lies within the span. */
static Err take_log(YearsAnswer *answer, YearsAsk *ask, Arena *arena)
{
    YearsLogTold told = {0};
    TRY(years_log_read(&answer->log_file, ask->farm, arena, &ask->log, &told));
    for (int i = 0; i < told.count; i++) {
        tell(answer, told.texts[i]);
    }
    return ERR_NONE;
}

static void tell_log(YearsAnswer *answer, Arena *arena)
{
    int64_t hours = years_log_hours(answer->years);
    if (answer->log_file.bytes) {
        tell(answer,
             arena_text(arena,
                        "%s: %" PRId64 " of the %d hours foreseen are as the "
                        "logger has them, the same in every year.",
                        WEATHER_LOG_FILE, hours,
                        answer->weeks * YEARS_WEEK_D * DAY_HOURS));
    }
}

static Err open_farm(const YearsQuestion *question, Arena *arena,
                     YearsAnswer *answer)
{
    const Farm *told = NULL;
    TRY(check_farm_load(question->dir, arena, &told));
    TRY(years_log_load(question->dir, arena, &answer->log_file));
    int32_t from = told->farm->records_from;
    WeekChoice choice =
        week_choose(told, question->day, week_of(from), YEAR_WEEKS,
                    "the year after the farm's tables", arena);
    if (choice.week < week_of(from)) {
        char text[DATE_TEXT_SIZE];
        date_format(from, text);
        return err_make(ERR_RANGE,
                        "the farm's tables begin on %s: what came before is "
                        "not foreseen",
                        text);
    }
    tell(answer, choice.notice);
    const Farm *farm = NULL;
    TRY(farm_on(question->dir, told, &choice, arena, answer, &farm));
    Typical typical;
    TRY(typical_make(farm, arena, &typical));
    tell(answer, plan_age_notice(told, typical.book, question->dir, arena));
    answer->opening = told;
    answer->farm = farm;
    answer->book = typical.book;
    answer->first_week = choice.week;
    tell_what_it_stands_on(answer, arena);
    YearsAsk ask = ask_of(farm, &typical);
    ask.first_week = choice.week;
    ask.weeks = question->weeks;
    ask.seed = (uint64_t)question->seed;
    TRY(take_log(answer, &ask, arena));
    TRY(years_open(&ask, arena, &answer->years));
    YearsShape shape = years_shape(farm, question->weeks);
    uint16_t *typical_codes = ARENA_ARRAY(arena, uint16_t, shape.code_count);
    years_run(answer->years, YEARS_TYPICAL, typical_codes);
    answer->typical = typical_codes;
    tell_log(answer, arena);
    years_sum_open(&shape, arena, &answer->sum);
    return ERR_NONE;
}

/* ---- Children --------------------------------------------------------------
 */

typedef struct Hearing {
    const YearsQuestion *question;
    YearsAnswer *answer;
    uint16_t *codes; /* of the year that is heard */
    Err fault;
} Hearing;

static void hear(void *context, int job, const char *line)
{
    (void)job;
    Hearing *hearing = context;
    YearsSum *sum = &hearing->answer->sum;
    int64_t year = 0;
    Err err = json_years_line_read(line, &sum->shape, hearing->codes, &year);
    if (err.kind != ERR_OK) {
        hearing->fault = err;
        return;
    }
    years_sum_add(sum, hearing->answer->farm, hearing->codes);
    const YearsQuestion *question = hearing->question;
    if (question->progress) {
        question->progress(question->context, sum->count, question->years);
    }
}

/* The farm's tables, and the log behind them. */
static const FarmBuffer *tables_of(const YearsAnswer *answer, Arena *arena)
{
    const Farm *farm = answer->farm;
    FarmBuffer *tables = ARENA_ARRAY(arena, FarmBuffer, TABLE_COUNT + 1);
    tables[TABLE_COUNT] = answer->log_file;
    for (int i = 0; i < TABLE_COUNT; i++) {
        FarmBytes bytes = farm_write_table(farm, (TableId)i, arena);
        tables[i] = (FarmBuffer){.file = farm_table_file((TableId)i),
                                 .bytes = bytes.bytes,
                                 .length = bytes.length};
    }
    return tables;
}

static int span_of(int years)
{
    int span = (years + SPANS_MOST - 1) / SPANS_MOST;
    return span < SPAN_YEARS ? SPAN_YEARS : span;
}

static ChildJob *make_jobs(const YearsQuestion *question,
                           const YearsAnswer *answer, int count, Arena *arena)
{
    int span = span_of(question->years);
    int has_log = answer->log_file.bytes ? 1 : 0;
    ChildQuestion child = {.kind = CHILD_YEARS,
                           .tables = tables_of(answer, arena),
                           .table_count = TABLE_COUNT + has_log,
                           .from = answer->first_week,
                           .weeks = question->weeks,
                           .seed = question->seed};
    ChildJob *jobs = ARENA_ARRAY(arena, ChildJob, count);
    for (int i = 0; i < count; i++) {
        int left = question->years - i * span;
        child.year = (int64_t)i * span;
        child.years = left < span ? left : span;
        jobs[i].problem = json_child_question(&child, arena);
    }
    return jobs;
}

static Err run_children(const YearsQuestion *question, Arena *arena,
                        YearsAnswer *answer)
{
    int span = span_of(question->years);
    int count = (question->years + span - 1) / span;
    ChildJob *jobs = make_jobs(question, answer, count, arena);
    Hearing hearing = {
        .question = question,
        .answer = answer,
        .codes = ARENA_ARRAY(arena, uint16_t, answer->sum.shape.code_count)};
    ChildPool pool = {.at_once = question->at_once > 0 ? question->at_once
                                                       : child_pool_cores(),
                      .progress = hear,
                      .context = &hearing,
                      .stop = question->stop};
    TRY(child_pool_run(&pool, jobs, count, arena));
    for (int i = 0; i < count; i++) {
        TRY(json_child_end_read(jobs[i].answer));
    }
    return hearing.fault;
}

Err years_answer(const YearsQuestion *question, Arena *arena, YearsAnswer *out)
{
    if (question->years < 1 || question->years > YEARS_MOST) {
        return err_make(ERR_RANGE, "1 to %d years can be run, not %d",
                        YEARS_MOST, question->years);
    }
    YearsAnswer answer = {.weeks = question->weeks,
                          .asked = question->years,
                          .seed = question->seed};
    TRY(open_farm(question, arena, &answer));
    TRY(run_children(question, arena, &answer));
    if (answer.sum.count < 1) {
        return err_make(ERR_STOPPED, "stopped before the first year was run");
    }
    *out = answer;
    return ERR_NONE;
}

static int32_t counted_rows(const YearsAnswer *answer, Counted *rows)
{
    int32_t count = 0;
    for (int way = 0; way < answer->farm->ways_count; way++) {
        YearsCounted told = years_counted(&answer->sum, way, answer->typical);
        if (!isnan(told.by_week)) {
            rows[count++] = (Counted){
                .way = way,
                .counted_pct = round(fmin(told.by_week, 1.0) * 1e3) / 10.0,
                .years = (int32_t)answer->sum.count,
                .from = answer->first_week};
        }
    }
    return count;
}

Err years_keep(const char *dir, const YearsAnswer *answer, Arena *arena,
               int *out_ways)
{
    static const TableId COUNTED = TABLE_counted;
    if (answer->sum.count < YEARS_KEEP_LEAST) {
        return err_make(ERR_RANGE,
                        "%" PRId64 " years are too few to count on: at least "
                        "%d",
                        answer->sum.count, YEARS_KEEP_LEAST);
    }
    Farm farm = *answer->opening;
    Counted *rows = ARENA_ARRAY(arena, Counted, farm.ways_count);
    farm.counted_count = counted_rows(answer, rows);
    farm.counted = rows;
    *out_ways = farm.counted_count;
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    TRY(folder_lock_open(dir, &lock));
    return farm_folder_write_tables(dir, &farm, &COUNTED, 1, arena);
}

const char *years_answer_json(const YearsAnswer *answer, Arena *arena)
{
    YearsPage page = {.farm = answer->farm,
                      .years = answer->years,
                      .sum = &answer->sum,
                      .typical = answer->typical,
                      .first_week = answer->first_week,
                      .asked = answer->asked,
                      .seed = answer->seed,
                      .notices = answer->notices,
                      .notice_count = answer->notice_count,
                      .words = years_words(&answer->sum, answer->farm,
                                           answer->first_week, arena)};
    return json_years(&page, arena);
}
