/* Change a plan by hand and see at once what breaks; compare two plans. */
#include "desk/alter.h"

#include <inttypes.h>
#include <string.h>

#include "base/date.h"
#include "desk/folder_lock.h"
#include "desk/folder_stamp.h"
#include "json/compare.h"
#include "plan/evaluate.h"
#include "plan/sell_alike.h"

/* ---- Accepting ------------------------------------------------------------
 */

static Err may_accept(const AlterAsk *ask, const AlterAnswer *answer)
{
    const PlanCompare *compare = &answer->compare;
    if (ask->mark && strcmp(ask->mark, answer->mark) != 0) {
        return err_make(ERR_CONFLICT, "the farm's tables were changed since "
                                      "this was looked at; look again");
    }
    if (compare->verdict == COMPARE_HARD) {
        return err_make(ERR_CONFLICT, "not accepted: %.200s",
                        compare->break_count > 0 ? compare->breaks[0].text
                                                 : "it breaks too much");
    }
    if (compare->verdict == COMPARE_SOFT && !ask->is_even_so) {
        return err_make(ERR_CONFLICT,
                        "not accepted: %.200s; it can be accepted even so",
                        compare->breaks[0].text);
    }
    return ERR_NONE;
}

/* What the journal tells: how many changes, and the first of them. */
static const char *told_of(const AlterAsk *ask, Arena *arena)
{
    if (ask->count == 0) {
        return arena_text(arena, "the plan %s", plan_name_word(ask->on));
    }
    const PlanAlter *first = &ask->changes[0];
    const char *what = first->batch  ? first->batch
                       : first->step ? first->step
                       : first->way  ? first->way
                                     : first->clean;
    return ask->count == 1 ? arena_text(arena, "by hand: %.80s", what)
                           : arena_text(arena, "by hand: %.80s and %d more",
                                        what, ask->count - 1);
}

static Err keep_changed(const PlanYearAsk *asked, const PlanYear *year,
                        Arena *arena)
{
    Farm *farm = ARENA_NEW(arena, Farm);
    plan_year_tables(asked, year, arena, farm);
    return plan_kept_write(asked->dir, PLAN_CHANGED, farm, arena);
}

/* ---- Changing -------------------------------------------------------------
 */

/* What people work by today: what it breaks already is nobody's doing. Nothing
 * where no plan is accepted. */
static Err recall_accepted(const AlterAsk *ask, Arena *arena,
                           const PlanYear *year, PlanSolution *out)
{
    int left_out = 0;
    *out = (PlanSolution){0};
    if (year->farm->plan_count == 0) {
        return ERR_NONE;
    }
    plan_recall(&year->inputs, &year->problem, &year->index, arena, out,
                &left_out);
    /* A plan that is looked at as it is stands beside the accepted one. */
    return ask->count > 0
               ? ERR_NONE
               : plan_evaluate(&year->problem, out, arena, &out->outcome);
}

static Err change(const AlterAsk *ask, const PlanYearAsk *asked, Arena *arena,
                  AlterAnswer *answer)
{
    PlanYear *year = &answer->year;
    PlanSolution accepted = {0};
    bool is_other = ask->on != PLAN_ACCEPTED;
    bool has_accepted = year->farm->plan_count > 0;
    if (is_other) {
        TRY(recall_accepted(ask, arena, year, &accepted));
    }
    TRY(plan_year_bring(asked, ask->on, arena, year));
    answer->before = year->solution;
    answer->changes = ARENA_ARRAY(arena, PlanAltered, ask->count);
    answer->count = ask->count;
    TRY(plan_alter(&year->inputs, &year->problem, &year->index, &answer->before,
                   ask->changes, ask->count, arena, &year->solution,
                   answer->changes));
    TRY(plan_evaluate(&year->problem, &year->solution, arena,
                      &year->solution.outcome));
    if (ask->count == 0 && is_other && has_accepted) {
        answer->before = accepted;
    }
    plan_sell_alike(&year->problem, &answer->before.outcome, arena,
                    &year->solution.outcome);
    plan_compare(&year->problem, &answer->before, &year->solution,
                 is_other ? &accepted : &answer->before, arena,
                 &answer->compare);
    return ERR_NONE;
}

Err alter_plan(const AlterAsk *ask, Arena *arena, AlterAnswer *out)
{
    CLEANUP(folder_lock_close) FolderLock lock = {0};
    if (ask->is_accepted && ask->on == PLAN_ACCEPTED && ask->count == 0) {
        return err_make(ERR_INPUT, "nothing is changed, and that plan is "
                                   "accepted already");
    }
    if (ask->is_accepted) {
        TRY(folder_lock_open(ask->dir, &lock));
    }
    PlanYearAsk asked = {.dir = ask->dir, .seed = 1, .today = ask->today};
    FolderStamp stamp;
    TRY(folder_stamp(ask->dir, &stamp));
    AlterAnswer *answer = ARENA_NEW(arena, AlterAnswer);
    answer->on = ask->on;
    answer->mark = arena_text(arena, "%016" PRIx64, stamp.tables);
    TRY(plan_year_open(&asked, arena, &answer->year));
    TRY(change(ask, &asked, arena, answer));
    asked.seed = answer->year.farm->plan[0].seed;
    answer->left_out = answer->year.left_out;
    if (ask->is_kept) {
        TRY(keep_changed(&asked, &answer->year, arena));
        answer->is_kept = true;
    }
    if (ask->is_accepted) {
        TRY(may_accept(ask, answer));
        answer->year.told = told_of(ask, arena);
        TRY(plan_year_accept(&asked, arena, &answer->year));
        answer->is_accepted = true;
    }
    *out = *answer;
    return ERR_NONE;
}

/* ---- Comparing ------------------------------------------------------------
 */

Err compare_plans(const CompareAsk *ask, Arena *arena, CompareAnswer *out)
{
    PlanYearAsk asked = {.dir = ask->dir, .seed = 1, .today = ask->today};
    PlanYear *one = ARENA_NEW(arena, PlanYear);
    TRY(plan_year_open(&asked, arena, one));
    CompareAnswer answer = {.year = *one, .names = {ask->one, ask->two}};
    TRY(plan_year_bring(&asked, ask->one, arena, one));
    TRY(plan_year_bring(&asked, ask->two, arena, &answer.year));
    answer.one = one->solution;
    answer.left_out = one->left_out + answer.year.left_out;
    plan_sell_alike(&answer.year.problem, &answer.one.outcome, arena,
                    &answer.year.solution.outcome);
    plan_compare(&answer.year.problem, &answer.one, &answer.year.solution,
                 &answer.one, arena, &answer.compare);
    *out = answer;
    return ERR_NONE;
}

Err plans_json(const char *dir, Arena *arena, const char **out)
{
    KeptPlan plans[PLAN_NAME_COUNT];
    FolderStamp stamp;
    TRY(folder_stamp(dir, &stamp));
    int count = plan_kept_all(dir, arena, plans);
    NamedPlan named[PLAN_NAME_COUNT];
    for (int i = 0; i < count; i++) {
        named[i] = (NamedPlan){plan_name_word(plans[i].name), &plans[i].row};
    }
    *out = json_plans(named, count, arena);
    return ERR_NONE;
}

static CompareSides sides_of(const PlanYear *year, const PlanSolution *before,
                             const PlanCompare *compare)
{
    return (CompareSides){.farm = year->farm,
                          .problem = &year->problem,
                          .index = &year->index,
                          .before = before,
                          .after = &year->solution,
                          .compare = compare};
}

const char *alter_json(const AlterAnswer *answer, Arena *arena)
{
    AlterFound found = {
        .sides = sides_of(&answer->year, &answer->before, &answer->compare),
        .plan = plan_name_word(answer->on),
        .changes = answer->changes,
        .count = answer->count,
        .mark = answer->mark,
        .is_kept = answer->is_kept,
        .is_accepted = answer->is_accepted,
        .left_out = answer->left_out};
    return json_alter(&found, arena);
}

const char *compare_json(const CompareAnswer *answer, Arena *arena)
{
    CompareSides sides =
        sides_of(&answer->year, &answer->one, &answer->compare);
    return json_compare(&sides, plan_name_word(answer->names[0]),
                        plan_name_word(answer->names[1]), answer->left_out,
                        arena);
}
