/* Plan a year: read the farm, build its problem, search, find the ceiling. */
#include "desk/plan_year.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "desk/check_farm.h"
#include "desk/child_pool.h"
#include "desk/export.h"
#include "desk/farm_folder.h"
#include "desk/farm_today.h"
#include "desk/plan_age.h"
#include "desk/typical.h"
#include "farm/write.h"
#include "journal/fold.h"
#include "json/json_child.h"
#include "json/plan.h"
#include "plan/evaluate.h"
#include "plan/record.h"
#include "plan/search.h"
#include "plan/verify.h"
#include "store/store.h"

/* Starts of the search: a number of their own, whatever the cores. */
enum { SEARCH_STARTS = 2 };

Err plan_year_make(const Farm *farm, const PlanInputs *wanted, Arena *arena,
                   PlanYear *out)
{
    PlanYear year = {.farm = farm};
    Typical typical;
    TRY(typical_make(farm, arena, &typical));
    year.book = typical.book;
    year.inputs = *wanted;
    year.inputs.farm = farm;
    year.inputs.book = typical.book;
    year.inputs.climate = typical.climate;
    TRY(plan_build(&year.inputs, arena, &year.problem, &year.index));
    *out = year;
    return ERR_NONE;
}

/* The farm as it was told to be; NULL where nothing was. */
static Err farm_on(const char *dir, const Farm *told, int32_t today,
                   Arena *arena, const Farm **out, bool *out_is_told)
{
    FarmToday with_told;
    TRY(farm_today_sound(dir, told, today, arena, &with_told));
    *out_is_told = with_told.state != NULL;
    *out = with_told.state ? &with_told.state->farm : NULL;
    return ERR_NONE;
}

/* As many as the accepted plan has. */
static int weeks_of(const Farm *farm)
{
    enum { USUAL = 52, LEAST = 4, MOST = 104 };
    int weeks = farm->plan_count > 0 ? farm->plan[0].weeks : USUAL;
    return weeks < LEAST ? LEAST : weeks > MOST ? MOST : weeks;
}

Err plan_year_open(const PlanYearAsk *ask, Arena *arena, PlanYear *out)
{
    const Farm *told = NULL;
    TRY(check_farm_load(ask->dir, arena, &told));
    int32_t today = ask->today != DATE_ALWAYS ? ask->today
                    : store_is_there(ask->dir)
                        ? farm_today_day(told, DATE_ALWAYS)
                        : told->farm[0].records_from;
    if (today < told->farm[0].records_from) {
        char first[DATE_TEXT_SIZE];
        date_format(told->farm[0].records_from, first);
        return err_make(ERR_RANGE,
                        "--today lies before %s, the first day that the tables "
                        "describe",
                        first);
    }
    const Farm *farm = NULL;
    bool is_told = false;
    bool is_assumed = false;
    TRY(farm_on(ask->dir, told, today, arena, &farm, &is_told));
    if (!is_told) {
        Farm *followed = ARENA_NEW(arena, Farm);
        TRY(journal_farm_on(told, today, arena, followed, &is_assumed));
        farm = followed;
    }
    PlanInputs wanted = {.from = week_of(today),
                         .weeks = ask->weeks > 0 ? ask->weeks : weeks_of(told),
                         .keep_weeks = ask->keep_weeks,
                         .is_fish_frozen = ask->is_fish_frozen};
    TRY(plan_year_make(farm, &wanted, arena, out));
    out->is_plan_assumed = is_told || is_assumed;
    out->is_told = is_told;
    out->age = plan_age_notice(told, out->book, ask->dir, arena);
    return ERR_NONE;
}

/* The farm's tables as they stand in memory, for a child. */
static const FarmBuffer *tables_of(const Farm *farm, Arena *arena)
{
    FarmBuffer *tables = ARENA_ARRAY(arena, FarmBuffer, TABLE_COUNT);
    for (int i = 0; i < TABLE_COUNT; i++) {
        FarmBytes bytes = farm_write_table(farm, (TableId)i, arena);
        tables[i] = (FarmBuffer){.file = farm_table_file((TableId)i),
                                 .bytes = bytes.bytes,
                                 .length = bytes.length};
    }
    return tables;
}

static ChildQuestion question_of(const PlanYearAsk *ask, const PlanYear *year,
                                 Arena *arena)
{
    return (ChildQuestion){.tables = tables_of(year->farm, arena),
                           .table_count = TABLE_COUNT,
                           .from = year->index.from,
                           .weeks = year->problem.horizon,
                           .seed = ask->seed,
                           .keep_weeks = ask->keep_weeks,
                           .is_fish_frozen = ask->is_fish_frozen};
}

/* Progress of several starts as one share and one best value. */
typedef struct Progress {
    const PlanYearAsk *ask;
    double done[SEARCH_STARTS];
    double best;
    bool has_best;
} Progress;

static void hear(void *context, int job, const char *line)
{
    Progress *progress = context;
    double done = 0.0;
    double value = 0.0;
    if (!progress->ask->progress ||
        !json_child_progress_read(line, &done, &value)) {
        return;
    }
    progress->done[job] = done;
    if (!progress->has_best || value > progress->best) {
        progress->best = value;
        progress->has_best = true;
    }
    double sum = 0.0;
    for (int i = 0; i < SEARCH_STARTS; i++) {
        sum += progress->done[i];
    }
    progress->ask->progress(progress->ask->progress_context,
                            sum / SEARCH_STARTS, progress->best);
}

/* The best of the starts so far. */
typedef struct Best {
    bool is_any;
    double worth; /* its value, and what is as it was in the accepted plan */
} Best;

/* Evaluates a start's choices exactly and keeps the best; of equal ones the
 * first. */
static Err take_start(PlanYear *year, const PlanSolution *accepted,
                      const char *answer, Arena *arena, Best *best)
{
    PlanSolution solution = {0};
    TRY(json_child_choices_read(answer, arena, &solution));
    TRY(plan_evaluate(&year->problem, &solution, arena, &solution.outcome));
    double worth = solution.outcome.value +
                   plan_kept_worth(&year->problem, accepted, &solution);
    if (!best->is_any || worth > best->worth) {
        year->solution = solution;
        *best = (Best){true, worth};
    }
    return ERR_NONE;
}

/* A plan that the separate checker does not pass is a defect of ours. */
static Err pass_checker(const PlanYear *year, Arena *arena)
{
    VerifyReport report;
    plan_verify(&year->problem, &year->solution, arena, &report);
    if (report.count > 0) {
        return err_make(ERR_DEFECT, "the plan breaks %d limits; one: %.160s",
                        report.count, report.texts[0]);
    }
    return ERR_NONE;
}

/* The accepted plan as it stands today; empty where there is none. */
static void recall_accepted(PlanYear *year, Arena *arena, PlanSolution *out)
{
    *out = (PlanSolution){0};
    year->has_change = year->farm->plan_count > 0;
    if (year->has_change) {
        plan_recall(&year->inputs, &year->problem, &year->index, arena, out,
                    &year->left_out);
    }
}

static Err tell_change(PlanYear *year, PlanSolution *accepted, Arena *arena)
{
    if (!year->has_change) {
        return ERR_NONE;
    }
    TRY(plan_evaluate(&year->problem, accepted, arena, &accepted->outcome));
    plan_change(&year->problem, accepted, year->left_out, &year->solution,
                arena, &year->change);
    return ERR_NONE;
}

Err plan_year_search(const PlanYearAsk *ask, Arena *arena, PlanYear *year)
{
    if (ask->keep_weeks > 0 && year->farm->plan_count == 0) {
        return err_make(ERR_NOT_FOUND,
                        "%.120s holds no accepted plan whose weeks could be "
                        "kept",
                        ask->dir);
    }
    year->starts = SEARCH_STARTS;
    year->moves =
        ask->moves > 0 ? ask->moves : search_default_moves(&year->problem);
    ChildQuestion question = question_of(ask, year, arena);
    question.kind = CHILD_SEARCH;
    question.moves = year->moves / SEARCH_STARTS;
    ChildJob jobs[SEARCH_STARTS];
    for (int i = 0; i < SEARCH_STARTS; i++) {
        question.start = i;
        question.is_from_plan = ask->is_from_plan || (i == 0 && !ask->is_anew);
        jobs[i] = (ChildJob){.problem = json_child_question(&question, arena)};
    }
    Progress progress = {.ask = ask};
    ChildPool pool = {.at_once = child_pool_cores(),
                      .progress = hear,
                      .context = &progress,
                      .stop = ask->stop};
    TRY(child_pool_run(&pool, jobs, SEARCH_STARTS, arena));
    PlanSolution accepted;
    recall_accepted(year, arena, &accepted);
    Best best = {false, 0.0};
    Err last = ERR_NONE;
    for (int i = 0; i < SEARCH_STARTS; i++) {
        Err err = take_start(year, &accepted, jobs[i].answer, arena, &best);
        if (err.kind != ERR_OK && err.kind != ERR_CONFLICT) {
            return err;
        }
        last = err.kind == ERR_OK ? last : err;
    }
    if (!best.is_any && ask->stop && *ask->stop) {
        return err_make(ERR_STOPPED, "stopped before a plan was found");
    }
    if (!best.is_any) {
        return last;
    }
    year->was_stopped = ask->stop && *ask->stop;
    TRY(tell_change(year, &accepted, arena));
    TRY(pass_checker(year, arena));
    plan_report(&year->problem, &year->solution, arena, &year->report);
    return ERR_NONE;
}

static void hear_ceiling(void *context, int job, const char *line)
{
    (void)job;
    const PlanYearAsk *ask = context;
    double done = 0.0;
    double value = 0.0;
    if (ask->progress && json_child_progress_read(line, &done, &value)) {
        ask->progress(ask->progress_context, -1.0, value);
    }
}

Err plan_year_ceiling(const PlanYearAsk *ask, Arena *arena, PlanYear *year)
{
    ChildQuestion question = question_of(ask, year, arena);
    question.kind = CHILD_CEILING;
    ChildJob job = {.problem = json_child_question(&question, arena)};
    ChildPool pool = {.at_once = 1,
                      .progress = hear_ceiling,
                      .context = (void *)ask,
                      .stop = ask->stop};
    TRY(child_pool_run(&pool, &job, 1, arena));
    TRY(json_child_ceiling_read(job.answer, arena, &year->ceiling));
    year->has_ceiling = true;
    return ERR_NONE;
}

Err plan_year_recall(const PlanYearAsk *ask, Arena *arena, PlanYear *year)
{
    if (year->farm->plan_count == 0) {
        return err_make(ERR_NOT_FOUND,
                        "%s holds no accepted plan (leat plan %s --accept)",
                        ask->dir, ask->dir);
    }
    plan_recall(&year->inputs, &year->problem, &year->index, arena,
                &year->solution, &year->left_out);
    TRY(plan_evaluate(&year->problem, &year->solution, arena,
                      &year->solution.outcome));
    plan_report(&year->problem, &year->solution, arena, &year->report);
    return ERR_NONE;
}

Err plan_year_bring(const PlanYearAsk *ask, PlanName name, Arena *arena,
                    PlanYear *year)
{
    int lost = 0;
    if (name != PLAN_ACCEPTED) {
        TRY(plan_kept_bring(ask->dir, name, year->farm, arena, &year->farm,
                            &lost));
        year->inputs.farm = year->farm;
        year->age = NULL; /* it is told of the accepted plan */
    }
    TRY(plan_year_recall(ask, arena, year));
    year->left_out += lost;
    return ERR_NONE;
}

static const TableId STANDING_TABLES[] = {TABLE_farm, TABLE_beds, TABLE_fish,
                                          TABLE_plants};
enum { STANDING_COUNT = sizeof STANDING_TABLES / sizeof *STANDING_TABLES };

/* What the tables told before the plan was taken as done, in a folder of its
 * day within the farm's. */
static Err keep_told(const PlanYearAsk *ask, Arena *arena)
{
    const Farm *told = NULL;
    TRY(check_farm_load(ask->dir, arena, &told));
    char day[DATE_TEXT_SIZE];
    date_format(told->farm[0].records_from, day);
    const char *folder = arena_text(arena, "%s/told-%s", ask->dir, day);
    Err err = farm_folder_make(folder);
    if (err.kind == ERR_CONFLICT) {
        return ERR_NONE; /* kept before */
    }
    TRY(err);
    return farm_folder_write_tables(folder, told, STANDING_TABLES,
                                    STANDING_COUNT, arena);
}

static PlanStamp stamp_of(const PlanYearAsk *ask, const PlanYear *year,
                          Arena *arena)
{
    return (PlanStamp){
        .accepted_on =
            ask->today == DATE_ALWAYS ? year->index.from : ask->today,
        .seed = (int32_t)(ask->seed % INT32_MAX),
        .book = arena_text(arena, "%016" PRIx64, year->book->hash)};
}

void plan_year_tables(const PlanYearAsk *ask, const PlanYear *year,
                      Arena *arena, Farm *out)
{
    PlanStamp stamp = stamp_of(ask, year, arena);
    plan_record(&year->inputs, &year->problem, &year->index, &year->solution,
                &stamp, arena, out);
}

Err plan_year_keep_draft(const PlanYearAsk *ask, Arena *arena,
                         const PlanYear *year)
{
    Farm *farm = ARENA_NEW(arena, Farm);
    plan_year_tables(ask, year, arena, farm);
    return plan_kept_write(ask->dir, PLAN_DRAFT, farm, arena);
}

/* What was accepted till now, unless it is the same. */
static Err keep_before(const PlanYearAsk *ask, const Farm *with_plan,
                       Arena *arena)
{
    const Farm *told = NULL;
    TRY(check_farm_load(ask->dir, arena, &told));
    return told->plan_count == 0 || plan_kept_is_same(told, with_plan, arena)
               ? ERR_NONE
               : plan_kept_write(ask->dir, PLAN_BEFORE, told, arena);
}

static const char *accepted_text(const PlanYear *year, Arena *arena)
{
    return arena_text(arena, "%d weeks from that week on%s%s",
                      year->problem.horizon, year->told ? ", " : "",
                      year->told ? year->told : "");
}

Err plan_year_accept(const PlanYearAsk *ask, Arena *arena, const PlanYear *year)
{
    TableId tables[PLAN_TABLE_COUNT + STANDING_COUNT];
    memcpy(tables, FARM_PLAN_TABLES, sizeof FARM_PLAN_TABLES);
    memcpy(tables + PLAN_TABLE_COUNT, STANDING_TABLES, sizeof STANDING_TABLES);
    int32_t accepted_on = stamp_of(ask, year, arena).accepted_on;
    Farm *with_plan = ARENA_NEW(arena, Farm);
    plan_year_tables(ask, year, arena, with_plan);
    TRY(keep_before(ask, with_plan, arena));
    int count = PLAN_TABLE_COUNT;
    if (year->is_plan_assumed) {
        FarmSite *site = ARENA_NEW(arena, FarmSite);
        *site = with_plan->farm[0];
        site->records_from = accepted_on;
        with_plan->farm = site;
        count = PLAN_TABLE_COUNT + STANDING_COUNT;
        TRY(keep_told(ask, arena));
        /* Told before the tables are written: tables that bear another mark
         * are not taken for these. */
    }
    TRY(export_tell(ask->dir, year->is_plan_assumed ? with_plan : NULL,
                    accepted_on, accepted_text(year, arena)));
    /* Of the tables as they will stand in the folder. */
    Plan *plan = ARENA_NEW(arena, Plan);
    *plan = with_plan->plan[0];
    plan->tables = plan_age_marks(with_plan, arena);
    with_plan->plan = plan;
    return farm_folder_write_tables(ask->dir, with_plan, tables, count, arena);
}

const char *plan_year_json(const PlanYear *year, Arena *arena)
{
    PlanAnswer answer = {.farm = year->farm,
                         .problem = &year->problem,
                         .index = &year->index,
                         .solution = &year->solution,
                         .report = &year->report,
                         .ceiling = year->has_ceiling ? &year->ceiling : NULL,
                         .change = year->has_change ? &year->change : NULL,
                         .age = year->age};
    return json_plan(&answer, arena);
}
