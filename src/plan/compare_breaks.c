/* Two plans side by side: the limits that they break. */
#include "plan/compare.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool is_same_text(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static bool is_same_limit(const VerifyBreak *a, const VerifyBreak *b)
{
    return a->kind == b->kind && is_same_text(a->place, b->place) &&
           is_same_text(a->way, b->way) && is_same_text(a->other, b->other);
}

static double excess(const VerifyBreak *what)
{
    return fabs(what->got - what->most);
}

static int known(const VerifyReport *report)
{
    return report->count < VERIFY_MOST_TEXTS ? report->count
                                             : VERIFY_MOST_TEXTS;
}

/* Whether a plan breaks that limit in that week, as much or more. */
static bool breaks_it(const VerifyReport *report, const VerifyBreak *what)
{
    static const double ROUNDING = 1e-6;
    for (int i = 0; i < known(report); i++) {
        const VerifyBreak *other = &report->breaks[i];
        if (is_same_limit(other, what) && other->week == what->week &&
            other->section == what->section &&
            excess(what) <= excess(other) + ROUNDING * (1.0 + excess(other))) {
            return true;
        }
    }
    return false;
}

/* The group of a limit that it lengthens or lies in, or NULL. Weeks of one
 * limit come in order, but sections of one bed are told by turns. */
static CompareBreak *group_of(PlanCompare *out, const VerifyBreak *what,
                              bool is_new)
{
    for (int i = out->break_count - 1; i >= 0; i--) {
        CompareBreak *group = &out->breaks[i];
        if (group->is_new == is_new && is_same_limit(&group->what, what) &&
            what->week >= group->first_week - 1 &&
            what->week <= group->last_week + 1) {
            return group;
        }
    }
    return NULL;
}

static void add_break(PlanCompare *out, const VerifyBreak *what,
                      const char *text, bool is_new)
{
    CompareBreak *group = group_of(out, what, is_new);
    if (!group) {
        out->breaks[out->break_count++] =
            (CompareBreak){.what = *what,
                           .last_section = what->section,
                           .first_week = what->week,
                           .last_week = what->week,
                           .is_new = is_new,
                           .text = text};
        return;
    }
    int first_section = group->what.section < what->section
                            ? group->what.section
                            : what->section;
    if (what->section > group->last_section) {
        group->last_section = what->section;
    }
    if (what->week < group->first_week) {
        group->first_week = what->week;
    }
    if (what->week > group->last_week) {
        group->last_week = what->week;
    }
    if (excess(what) > excess(&group->what)) {
        group->what = *what;
        group->text = text;
    }
    group->what.section = first_section;
}

static int by_weight(const void *left, const void *right)
{
    const CompareBreak *a = left;
    const CompareBreak *b = right;
    if (a->is_new != b->is_new) {
        return a->is_new ? -1 : 1;
    }
    bool a_hard = verify_is_hard(a->what.kind);
    bool b_hard = verify_is_hard(b->what.kind);
    if (a_hard != b_hard) {
        return a_hard ? -1 : 1;
    }
    return a->first_week != b->first_week
               ? a->first_week - b->first_week
               : (int)a->what.kind - (int)b->what.kind;
}

void plan_compare_breaks(const Problem *problem, const PlanSolution *before,
                         const PlanSolution *after, const PlanSolution *today,
                         Arena *arena, PlanCompare *out)
{
    VerifyReport *was = ARENA_NEW(arena, VerifyReport);
    VerifyReport *is = ARENA_NEW(arena, VerifyReport);
    plan_verify(problem, before, arena, was);
    out->value_before = was->value;
    plan_verify_choices(problem, today, arena, was);
    plan_verify(problem, after, arena, is);
    out->value_after = is->value;
    out->breaks = ARENA_ARRAY(arena, CompareBreak, known(is));
    for (int i = 0; i < known(is); i++) {
        bool is_new = !breaks_it(was, &is->breaks[i]);
        add_break(out, &is->breaks[i], is->texts[i], is_new);
        CompareVerdict verdict = !is_new ? COMPARE_FITS
                                 : verify_is_hard(is->breaks[i].kind)
                                     ? COMPARE_HARD
                                     : COMPARE_SOFT;
        out->verdict = verdict > out->verdict ? verdict : out->verdict;
    }
    for (int i = 0; i < known(was); i++) {
        out->mended += !breaks_it(is, &was->breaks[i]);
    }
    if (is->count > VERIFY_MOST_TEXTS) {
        out->verdict = COMPARE_HARD; /* too many to tell which are new */
    }
    if (out->break_count > 1) {
        qsort(out->breaks, (size_t)out->break_count, sizeof *out->breaks,
              by_weight);
    }
}
