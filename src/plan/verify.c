/* The separate checker: ranges, hours, and the order of checks. */
#include "plan/verify.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "plan/verify_parts.h"
#include "plan/week_words.h"

enum { TEXT_SIZE = 256 };

void verify_break(Verifier *v, const VerifyBreak *what, const char *format, ...)
{
    if (v->report->count < VERIFY_MOST_TEXTS) {
        char text[TEXT_SIZE];
        va_list rest;
        va_start(rest, format);
        (void)vsnprintf(text, sizeof text, format, rest);
        va_end(rest);
        v->report->breaks[v->report->count] = *what;
        v->report->texts[v->report->count] =
            v->problem->from ? week_words(text, v->problem->from, v->arena)
                             : arena_copy_text(v->arena, text);
    }
    v->report->count++;
}

const char *verify_word(VerifyKind kind)
{
    static const char *const WORDS[] = {
#define KIND_WORD(name, word, is_hard) [VERIFY_##name] = word,
        VERIFY_KINDS(KIND_WORD)
#undef KIND_WORD
    };
    return WORDS[kind];
}

bool verify_is_hard(VerifyKind kind)
{
    static const bool HARD[] = {
#define KIND_HARD(name, word, is_hard) [VERIFY_##name] = is_hard,
        VERIFY_KINDS(KIND_HARD)
#undef KIND_HARD
    };
    return HARD[kind];
}

bool verify_is_over(double got, double most)
{
    static const double ROUNDING = 1e-6;
    return got > most + ROUNDING * fmax(1.0, fabs(most));
}

static void check_placement(Verifier *v, int number)
{
    const Problem *problem = v->problem;
    const PlanPlacement *placed = &v->solution->placements[number];
    if (placed->option < 0 || placed->option >= problem->option_count ||
        placed->bed < 0 || placed->bed >= problem->bed_count) {
        verify_break(
            v, &(VerifyBreak){.kind = VERIFY_CHOICE, .week = PLAN_NONE},
            "placement %d names an option or bed that is not there", number);
        return;
    }
    const PlanOption *option = &problem->options[placed->option];
    const PlanBed *bed = &problem->beds[placed->bed];
    const char *way = problem->way_names[option->way];
    if (option->is_standing) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_CHOICE,
                                    .week = option->set_week,
                                    .place = bed->id,
                                    .way = way},
                     "%s on %s is a standing batch, placed again", way,
                     bed->id);
    }
    if (option->kind != bed->kind) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_BED_KIND,
                                    .week = option->set_week,
                                    .place = bed->id,
                                    .way = way},
                     "%s of week %d is not made for a bed like %s", way,
                     option->set_week, bed->id);
    }
    if (placed->units < 1) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_SIZE,
                                    .week = option->set_week,
                                    .place = bed->id,
                                    .way = way,
                                    .got = placed->units},
                     "%s of week %d on %s has %d units", way, option->set_week,
                     bed->id, placed->units);
    }
    bool is_begun = option->sow_week < 0 && option->trays_of == 0;
    if (is_begun || option->set_week < 0 ||
        option->sow_week >= problem->horizon ||
        option->set_week >= problem->horizon) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_START,
                                    .week = option->set_week,
                                    .place = bed->id,
                                    .way = way},
                     "%s on %s starts in week %d, outside weeks 0 to %d", way,
                     bed->id, option->set_week, problem->horizon - 1);
    }
}

static void check_run(Verifier *v, int number)
{
    const Problem *problem = v->problem;
    const PlanRun *run = &v->solution->runs[number];
    bool is_moved = run->move_week != PLAN_NONE;
    bool is_sold = run->sale_week != v->weeks;
    bool is_there =
        run->stock >= 0 && run->stock < problem->stock_count &&
        run->lane >= 0 && run->lane < PLAN_LANES && run->tank >= 0 &&
        run->tank < problem->tank_count && run->to_tank >= 0 &&
        run->to_tank < problem->tank_count && run->count >= 0 &&
        run->sale_week >= 0 && run->sale_week <= v->weeks &&
        run->move_week >= PLAN_NONE && run->move_week < v->weeks &&
        (!is_sold || (run->goods >= 0 && run->goods < problem->goods_count));
    if (!is_there) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_CHOICE, .week = PLAN_NONE},
                     "fish run %d has a stock, tank, week or goods that is "
                     "not there",
                     number);
        return;
    }
    if (is_moved == (run->tank == run->to_tank)) {
        verify_break(v,
                     &(VerifyBreak){.kind = VERIFY_CHOICE,
                                    .week = run->move_week,
                                    .place = problem->tanks[run->tank].id,
                                    .way = problem->stocks[run->stock].id},
                     "fish run %d of %s moves from %s to %s", number,
                     problem->stocks[run->stock].id,
                     problem->tanks[run->tank].id,
                     problem->tanks[run->to_tank].id);
    }
}

bool verify_indices(Verifier *v)
{
    int before = v->report->count;
    for (int i = 0; i < v->solution->placement_count; i++) {
        check_placement(v, i);
    }
    for (int i = 0; i < v->solution->run_count; i++) {
        check_run(v, i);
    }
    for (int i = 0; i < v->solution->cleaning_count; i++) {
        const PlanCleaning *clean = &v->solution->cleanings[i];
        if (clean->bed < 0 || clean->bed >= v->problem->bed_count ||
            clean->week < 0 || clean->week >= v->weeks) {
            verify_break(
                v, &(VerifyBreak){.kind = VERIFY_CHOICE, .week = PLAN_NONE},
                "cleaning %d names a bed or week that is not there", i);
        }
    }
    return v->report->count == before;
}

/* (18) */
static void check_hours(Verifier *v)
{
    const Problem *problem = v->problem;
    for (int t = 0; t < v->weeks; t++) {
        double most = problem->hours_paid[t] + problem->hours_extra[t];
        if (verify_is_over(v->hours[t], most)) {
            verify_break(v,
                         &(VerifyBreak){.kind = VERIFY_HOURS,
                                        .week = t,
                                        .got = v->hours[t],
                                        .most = most},
                         "week %d needs %.1f hours of %.1f", t, v->hours[t],
                         most);
        }
    }
}

static bool verify_all_choices(Verifier *v, Arena *arena)
{
    const Problem *problem = v->problem;
    int goods = problem->goods_count * v->weeks;
    int loops = problem->loop_count * v->weeks;
    v->hours = ARENA_ARRAY(arena, double, v->weeks);
    v->given = ARENA_ARRAY(arena, double, loops);
    v->want = ARENA_ARRAY(arena, double, loops);
    v->mean = ARENA_ARRAY(arena, double, goods);
    v->low = ARENA_ARRAY(arena, double, goods);
    for (int t = 0; t < v->weeks; t++) {
        v->hours[t] = problem->hours_fixed[t];
    }
    if (!verify_indices(v)) {
        return false;
    }
    verify_beds(v);
    verify_fish(v);
    check_hours(v);
    return true;
}

void plan_verify_choices(const Problem *problem, const PlanSolution *solution,
                         Arena *arena, VerifyReport *out)
{
    *out = (VerifyReport){0};
    Verifier v = {.problem = problem,
                  .solution = solution,
                  .arena = arena,
                  .report = out,
                  .weeks = problem->week_count};
    (void)verify_all_choices(&v, arena);
}

void plan_verify(const Problem *problem, const PlanSolution *solution,
                 Arena *arena, VerifyReport *out)
{
    *out = (VerifyReport){0};
    Verifier v = {.problem = problem,
                  .solution = solution,
                  .arena = arena,
                  .report = out,
                  .weeks = problem->week_count};
    if (verify_all_choices(&v, arena)) {
        verify_sales(&v);
    }
}
