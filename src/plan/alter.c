/* A plan changed by hand: which change it is, names, deep cleans. */
#include "plan/alter_parts.h"

#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "plan/record.h"

Err alter_not_found(const char *what, const char *id, const char *const *names,
                    int count)
{
    const char *nearest = text_nearest(id, names, (size_t)count);
    return err_make(ERR_NOT_FOUND, "there is no %s \"%.60s\"%s%.60s%s", what,
                    id, nearest ? "; did you mean " : "",
                    nearest ? nearest : "", nearest ? "?" : "");
}

const char *alter_week(const Alterer *alterer, int week)
{
    char text[DATE_TEXT_SIZE];
    week_format(alterer->index->from + 7 * week, text);
    return arena_copy_text(alterer->arena, text);
}

int alter_wanted_week(const Alterer *alterer, const PlanAlter *change,
                      int32_t day, int week)
{
    return day != DATE_ALWAYS ? plan_week_at(alterer->index, day)
                              : week + change->weeks;
}

Err alter_bed(const Alterer *alterer, const char *id, int *out)
{
    const Problem *problem = alterer->problem;
    const char **names =
        ARENA_ARRAY(alterer->arena, const char *, problem->bed_count);
    for (int i = 0; i < problem->bed_count; i++) {
        names[i] = problem->beds[i].id;
        if (strcmp(names[i], id) == 0) {
            *out = i;
            return ERR_NONE;
        }
    }
    return alter_not_found("bed", id, names, problem->bed_count);
}

Err alter_tank(const Alterer *alterer, const char *id, int *out)
{
    const Problem *problem = alterer->problem;
    const char **names =
        ARENA_ARRAY(alterer->arena, const char *, problem->tank_count);
    for (int i = 0; i < problem->tank_count; i++) {
        names[i] = problem->tanks[i].id;
        if (strcmp(names[i], id) == 0) {
            *out = i;
            return ERR_NONE;
        }
    }
    return alter_not_found("tank", id, names, problem->tank_count);
}

/* The plan has at most one deep clean of a bed. */
static Err alter_clean(Alterer *alterer, const PlanAlter *change,
                       PlanAltered *out)
{
    PlanSolution *plan = alterer->solution;
    int bed = PLAN_NONE;
    TRY(alter_bed(alterer, change->clean, &bed));
    int at = 0;
    while (at < plan->cleaning_count && plan->cleanings[at].bed != bed) {
        at++;
    }
    bool is_there = at < plan->cleaning_count;
    if (!is_there && alterer->problem->beds[bed].clean_by == PLAN_NONE) {
        return err_make(ERR_INPUT, "no deep clean of %s is due in this plan",
                        change->clean);
    }
    if (!is_there && (change->is_drop || change->on == DATE_ALWAYS)) {
        return err_make(ERR_INPUT, "no deep clean of %s is planned",
                        change->clean);
    }
    PlanAltered done = {.kind = ALTERED_CLEAN,
                        .before = {.option = PLAN_NONE},
                        .after = {.option = PLAN_NONE},
                        .bed = bed,
                        .week_before =
                            is_there ? plan->cleanings[at].week : PLAN_NONE,
                        .week_after = PLAN_NONE};
    if (change->is_drop) {
        plan->cleanings[at] = plan->cleanings[--plan->cleaning_count];
        *out = done;
        return ERR_NONE;
    }
    int week = alter_wanted_week(alterer, change, change->on, done.week_before);
    if (week < 0 || week >= alterer->problem->horizon) {
        return err_make(ERR_INPUT, "%s lies outside the plan",
                        alter_week(alterer, week));
    }
    plan->cleaning_count += is_there ? 0 : 1;
    plan->cleanings[at] = (PlanCleaning){bed, week};
    done.week_after = week;
    *out = done;
    return ERR_NONE;
}

static Err alter_one(Alterer *alterer, const PlanAlter *change,
                     PlanAltered *out)
{
    int told = (change->batch != NULL) + (change->step != NULL) +
               (change->way != NULL) + (change->clean != NULL);
    if (told != 1) {
        return err_make(ERR_INPUT, "a change names one of batch, step, way "
                                   "and clean");
    }
    if (change->weeks != 0 &&
        (change->sow_on != DATE_ALWAYS || change->set_on != DATE_ALWAYS ||
         change->on != DATE_ALWAYS)) {
        return err_make(ERR_INPUT, "weeks and a day tell the same twice");
    }
    if (change->sow_on != DATE_ALWAYS && change->set_on != DATE_ALWAYS) {
        return err_make(ERR_INPUT, "sow_on and set_on tell the same twice: "
                                   "one follows from the other");
    }
    return change->step    ? alter_step(alterer, change, out)
           : change->clean ? alter_clean(alterer, change, out)
                           : alter_plants(alterer, change, out);
}

static void *with_room(Arena *arena, const void *rows, int count, size_t size)
{
    return arena_grow(arena, rows, (size_t)count, (size_t)count + ALTER_MOST,
                      size);
}

Err plan_alter(const PlanInputs *inputs, const Problem *problem,
               const PlanIndex *index, const PlanSolution *before,
               const PlanAlter *changes, int count, Arena *arena,
               PlanSolution *out, PlanAltered *out_altered)
{
    if (count > ALTER_MOST) {
        return err_make(ERR_LIMIT, "%d changes at once; at most %d", count,
                        (int)ALTER_MOST);
    }
    PlanSolution plan = *before;
    plan.outcome = (PlanOutcome){0};
    plan.placements = with_room(arena, before->placements,
                                before->placement_count, sizeof(PlanPlacement));
    plan.placement_rows = with_room(arena, before->placement_rows,
                                    before->placement_count, sizeof(int));
    plan.runs =
        with_room(arena, before->runs, before->run_count, sizeof(PlanRun));
    plan.run_numbers =
        with_room(arena, before->run_numbers, before->run_count, sizeof(int));
    plan.cleanings = with_room(arena, before->cleanings, before->cleaning_count,
                               sizeof(PlanCleaning));
    Alterer alterer = {inputs, problem, index, arena, &plan};
    for (int i = 0; i < count; i++) {
        TRY(alter_one(&alterer, &changes[i], &out_altered[i]));
    }
    *out = plan;
    return ERR_NONE;
}
