/* The steps of the accepted plan, and which entry told each. */
#include "journal/steps.h"

#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "farm/seedlings.h"

/* An entry is taken for a step so many days off at most (judged: four weeks
 * cover a crop held up by the weather, and never reach the next of its kind on
 * the same bed). */
enum { WINDOW_D = 28, WEEK_D = 7 };

const char *step_word(StepKind kind)
{
    switch (kind) {
    case STEP_SOW:
        return told_kind_word(TOLD_SOWN);
    case STEP_SET:
        return told_kind_word(TOLD_SET);
    case STEP_CLEAR:
        return told_kind_word(TOLD_CLEARED);
    case STEP_CLEAN:
        return told_kind_word(TOLD_CLEANED);
    case STEP_STOCK:
        return told_kind_word(TOLD_STOCKED);
    case STEP_GRADE:
        return told_kind_word(TOLD_GRADED);
    case STEP_SALE:
        return told_kind_word(TOLD_SOLD);
    }
    return "";
}

/* ---- All of them ----------------------------------------------------------
 */

static void add(Steps *steps, StepKind kind, int32_t row, int32_t day)
{
    steps->items[steps->count++] =
        (Step){.kind = kind, .row = row, .day = day, .told = -1};
}

static void add_plants(const Farm *farm, Steps *steps)
{
    for (int32_t i = 0; i < farm->plan_plants_count; i++) {
        const PlanPlant *row = &farm->plan_plants[i];
        bool is_fed = seedlings_feed(farm, row);
        if (row->standing < 0 && farm->ways[row->way].tray >= 0) {
            add(steps, STEP_SOW, i, row->sow_on);
        }
        if (row->standing < 0 || is_fed) {
            add(steps, STEP_SET, i, row->set_on);
        }
        add(steps, STEP_CLEAR, i, row->clear_on);
    }
}

Steps steps_of(const Farm *farm, Arena *arena)
{
    int32_t most = 3 * farm->plan_plants_count + farm->plan_moves_count +
                   farm->plan_cleans_count;
    Steps steps = {ARENA_ARRAY(arena, Step, most), 0};
    add_plants(farm, &steps);
    for (int32_t i = 0; i < farm->plan_cleans_count; i++) {
        add(&steps, STEP_CLEAN, i, farm->plan_cleans[i].on);
    }
    for (int32_t i = 0; i < farm->plan_moves_count; i++) {
        static const StepKind KINDS[] = {[MOVE_STOCK] = STEP_STOCK,
                                         [MOVE_GRADE] = STEP_GRADE,
                                         [MOVE_SALE] = STEP_SALE};
        add(&steps, KINDS[farm->plan_moves[i].kind], i, farm->plan_moves[i].on);
    }
    return steps;
}

const Step *steps_find(const Steps *steps, StepKind kind, int32_t row)
{
    for (int32_t i = 0; i < steps->count; i++) {
        if (steps->items[i].kind == kind && steps->items[i].row == row) {
            return &steps->items[i];
        }
    }
    return NULL;
}

/* ---- Which entry is which step --------------------------------------------
 */

static bool is_kind(const Step *step, const Told *told)
{
    switch (told->kind) {
    case TOLD_SOWN:
        return step->kind == STEP_SOW || step->kind == STEP_SET;
    case TOLD_SET:
        return step->kind == STEP_SET;
    case TOLD_CLEARED:
        return step->kind == STEP_CLEAR;
    case TOLD_CLEANED:
        return step->kind == STEP_CLEAN;
    case TOLD_STOCKED:
        return step->kind == STEP_STOCK;
    case TOLD_MOVED:
    case TOLD_GRADED:
        return step->kind == STEP_GRADE;
    case TOLD_SOLD:
        return step->kind == STEP_SALE;
    default:
        return told->kind == TOLD_UNDONE;
    }
}

static bool is_id(const char *id, const char *asked)
{
    return !*asked || strcmp(id, asked) == 0;
}

/* Seed goes into trays, or into the bed that it is told with. */
static bool is_plant_step(const Farm *farm, const Step *step, const Told *told)
{
    const PlanPlant *row = &farm->plan_plants[step->row];
    bool in_place = farm->ways[row->way].tray < 0;
    if (told->kind == TOLD_SOWN && (step->kind == STEP_SET) != in_place) {
        return false;
    }
    if (*told->batch && row->standing >= 0 &&
        strcmp(farm->plants[row->standing].id, told->batch) == 0) {
        return is_id(farm->beds[row->bed].id, told->place);
    }
    if (*told->batch && strcmp(row->id, told->batch) == 0) {
        return true; /* wherever it went instead */
    }
    bool is_place_asked = *told->place && step->kind != STEP_SOW;
    bool is_edge = row->place == PLACE_EDGE;
    bool is_there =
        !is_place_asked || (strcmp(farm->beds[row->bed].id, told->place) == 0 &&
                            (is_edge == told->edge || *told->batch));
    return is_there && is_id(row->id, told->batch) &&
           is_id(farm->ways[row->way].id, told->way);
}

static bool is_fish_step(const Farm *farm, const Step *step, const Told *told)
{
    const PlanMove *row = &farm->plan_moves[step->row];
    const char *from =
        row->from_tank >= 0 ? farm->tanks[row->from_tank].id : "";
    const char *to = row->to_tank >= 0 ? farm->tanks[row->to_tank].id : "";
    const char *batch = farm->plan_fish[row->fish].batch;
    size_t length = strlen(batch);
    bool is_batch = !*told->batch || strncmp(batch, told->batch, length) == 0;
    if (step->kind == STEP_STOCK) {
        return is_batch && is_id(to, told->place);
    }
    return is_batch && is_id(from, told->place) && is_id(to, told->to_place);
}

static bool is_step_of(const Farm *farm, const Step *step, const Told *told)
{
    if (!is_kind(step, told)) {
        return false;
    }
    bool is_named = *told->batch || *told->place || *told->way;
    switch (step->kind) {
    case STEP_SOW:
    case STEP_SET:
    case STEP_CLEAR:
        return is_named && is_plant_step(farm, step, told);
    case STEP_CLEAN:
        return !*told->batch && *told->place &&
               strcmp(farm->beds[farm->plan_cleans[step->row].bed].id,
                      told->place) == 0;
    case STEP_STOCK:
    case STEP_GRADE:
    case STEP_SALE:
        return is_named && is_fish_step(farm, step, told);
    }
    return false;
}

/* The words of a job's id: farm.kind.what[.where].day */
enum { JOB_PARTS = 8, JOB_PART_SIZE = 100 };
typedef struct JobName {
    char parts[JOB_PARTS][JOB_PART_SIZE];
    int count;
    int32_t day; /* DATE_ALWAYS: none at its end */
} JobName;

static JobName job_name_of(const char *job)
{
    JobName name = {.day = DATE_ALWAYS};
    while (*job && name.count < JOB_PARTS) {
        size_t length = strcspn(job, ".");
        size_t kept = length < JOB_PART_SIZE - 1 ? length : JOB_PART_SIZE - 1;
        memcpy(name.parts[name.count++], job, kept);
        job += length + (job[length] == '.');
    }
    int32_t day = 0;
    if (name.count > 0) {
        Err err = date_parse(name.parts[name.count - 1], &day);
        name.day = err.kind == ERR_OK ? day : DATE_ALWAYS;
    }
    return name;
}

static bool job_has(const JobName *name, const char *word)
{
    for (int i = 1; i < name->count; i++) {
        if (strcmp(name->parts[i], word) == 0) {
            return true;
        }
    }
    return false;
}

/* An undone job without a batch or place: the words of its id say which. */
static bool is_of_job(const Farm *farm, const Step *step, const JobName *name)
{
    static const char *const WORDS[] = {
        [STEP_SOW] = "sow",     [STEP_SET] = "set",     [STEP_CLEAR] = "clear",
        [STEP_CLEAN] = "clean", [STEP_STOCK] = "stock", [STEP_GRADE] = "grade",
        [STEP_SALE] = "catch"};
    bool is_sale = step->kind == STEP_SALE && name->count > 1 &&
                   strcmp(name->parts[1], "sale") == 0;
    if (name->count < 2 ||
        (strcmp(name->parts[1], WORDS[step->kind]) != 0 && !is_sale)) {
        return false;
    }
    if (step->kind <= STEP_CLEAR) {
        const PlanPlant *row = &farm->plan_plants[step->row];
        return job_has(name, farm->ways[row->way].id);
    }
    if (step->kind == STEP_CLEAN) {
        return true;
    }
    const PlanMove *row = &farm->plan_moves[step->row];
    int32_t tank = row->from_tank >= 0 ? row->from_tank : row->to_tank;
    return is_sale || (tank >= 0 && job_has(name, farm->tanks[tank].id)) ||
           job_has(name, farm->plan_fish[row->fish].batch);
}

static bool is_candidate(const Farm *farm, const Step *step, const Told *told,
                         const JobName *job)
{
    /* What was put off may still be done, and told, later. */
    bool is_ended = step->is_told && !step->is_old;
    if (is_ended || (step->is_undone && told->kind == TOLD_UNDONE)) {
        return false;
    }
    bool is_bare = !*told->batch && !*told->place && !*told->way;
    if (told->kind == TOLD_UNDONE && job->count > 0) {
        return is_of_job(farm, step, job) &&
               (is_bare || is_step_of(farm, step, told));
    }
    return is_step_of(farm, step, told);
}

/* The steps of the nearest planned day that the entry can be; all of that day.
 * False: one of them ended before the checkpoint. */
static bool match_one(const Farm *farm, const Tolds *tolds, int32_t at,
                      Steps *steps)
{
    const Told *told = &tolds->items[at];
    JobName job = job_name_of(told->job);
    int32_t wanted =
        job.day != DATE_ALWAYS ? week_of(job.day) : told->happened_on;
    int32_t best = DATE_NEVER;
    int32_t best_day = DATE_NEVER;
    for (int32_t i = 0; i < steps->count; i++) {
        const Step *step = &steps->items[i];
        int32_t apart = abs(step->day - wanted);
        if (apart <= WINDOW_D && apart < best &&
            is_candidate(farm, step, told, &job)) {
            best = apart;
            best_day = step->day;
        }
    }
    for (int32_t i = 0; i < steps->count && best != DATE_NEVER; i++) {
        Step *step = &steps->items[i];
        if (step->day != best_day || !is_candidate(farm, step, told, &job)) {
            continue;
        }
        if (step->is_old) {
            return false;
        }
        if (told->kind == TOLD_UNDONE) {
            step->is_undone = true;
            step->undone_day = told->happened_on;
        } else {
            step->is_told = true;
            step->told = at;
            step->told_day = told->happened_on;
        }
    }
    return true;
}

static bool can_name_a_step(int32_t kind)
{
    return kind == TOLD_UNDONE || kind == TOLD_SOWN || kind == TOLD_SET ||
           kind == TOLD_CLEARED || kind == TOLD_CLEANED ||
           kind == TOLD_STOCKED || kind == TOLD_MOVED || kind == TOLD_GRADED ||
           kind == TOLD_SOLD;
}

bool steps_match(const Farm *farm, const Tolds *tolds, const bool *is_known,
                 const StepDays *days, Steps *steps)
{
    for (int32_t i = 0; i < tolds->count; i++) {
        if (is_known[i] && can_name_a_step(tolds->items[i].kind) &&
            !match_one(farm, tolds, i, steps)) {
            return false;
        }
    }
    int32_t week = week_of(days->day);
    for (int32_t i = 0; i < steps->count; i++) {
        Step *step = &steps->items[i];
        bool is_over =
            step->kind == STEP_CLEAR ? step->day <= week : step->day < week;
        if (!step->is_old) {
            step->is_assumed = is_over && step->day <= days->last &&
                               !step->is_told && !step->is_undone;
        }
    }
    return true;
}
