/* A plan changed by hand, and two plans side by side, as pages of text. */
#include "cli/alter_text.h"

#include "base/date.h"
#include "cli/wrap.h"

enum { LINE_COLUMNS = 80, BATCHES_MOST = 20, WEEKS_MOST = 4 };

typedef struct Pages {
    const PlanYear *year;
    const PlanCompare *compare;
    FILE *out;
} Pages;

static const char *week_text(const PlanYear *year, int week, char *out)
{
    week_format(year->index.from + 7 * week, out);
    return out;
}

static const char *day_text(const PlanYear *year, int week, char *out)
{
    date_format(year->index.from + 7 * week, out);
    return out;
}

/* ---- What was changed -----------------------------------------------------
 */

static void print_batch(const PlanYear *year, const PlanPlacement *placed,
                        FILE *out)
{
    const PlanOption *option = &year->problem.options[placed->option];
    char set[DATE_TEXT_SIZE];
    char clear[DATE_TEXT_SIZE];
    char sow[DATE_TEXT_SIZE];
    fprintf(out, "%s in %s", year->problem.way_names[option->way],
            year->problem.beds[placed->bed].id);
    if (option->is_edge) {
        fprintf(out, ", edge, %d plants", placed->units);
    } else if (placed->units == 1) {
        fprintf(out, ", section %d", placed->first_section + 1);
    } else {
        fprintf(out, ", sections %d to %d", placed->first_section + 1,
                placed->first_section + placed->units);
    }
    if (option->trays_of == 0) {
        fprintf(out, ", sown %s", day_text(year, option->sow_week, sow));
    }
    fprintf(out, ", set %s, free %s\n", day_text(year, option->set_week, set),
            day_text(year, option->clear_week, clear));
}

static void print_step(const PlanYear *year, const PlanAltered *change,
                       FILE *out)
{
    static const char *const STEPS[] = {[MOVE_STOCK] = "stocked",
                                        [MOVE_GRADE] = "graded",
                                        [MOVE_SALE] = "sold"};
    char week[DATE_TEXT_SIZE];
    fprintf(out, "%d of %s %s in %s", change->heads,
            year->problem.stocks[change->stock].id, STEPS[change->move_kind],
            week_text(year, change->week_before, week));
    if (change->week_after == PLAN_NONE) {
        fputs(": left out\n", out);
        return;
    }
    fprintf(out, ": now in %s", week_text(year, change->week_after, week));
    if (change->tank_after != change->tank_before) {
        fprintf(out, ", %s", year->problem.tanks[change->tank_after].id);
    }
    fputc('\n', out);
}

static void print_clean(const PlanYear *year, const PlanAltered *change,
                        FILE *out)
{
    char was[DATE_TEXT_SIZE] = "none";
    char is[DATE_TEXT_SIZE] = "none";
    if (change->week_before != PLAN_NONE) {
        week_text(year, change->week_before, was);
    }
    if (change->week_after != PLAN_NONE) {
        week_text(year, change->week_after, is);
    }
    fprintf(out, "deep clean of %s: %s, before %s\n",
            year->problem.beds[change->bed].id, is, was);
}

static void print_change(const PlanYear *year, const PlanAltered *change,
                         FILE *out)
{
    if (change->kind == ALTERED_STEP) {
        print_step(year, change, out);
    } else if (change->kind == ALTERED_CLEAN) {
        print_clean(year, change, out);
    }
    if (change->before.option != PLAN_NONE) {
        fputs("before: ", out);
        print_batch(year, &change->before, out);
    }
    if (change->after.option != PLAN_NONE) {
        fputs("now:    ", out);
        print_batch(year, &change->after, out);
    } else if (change->kind == ALTERED_DROPPED) {
        fputs("now:    left out\n", out);
    }
    if (change->note) {
        fprintf(out, "        (%s)\n", change->note);
    }
}

/* ---- What breaks ----------------------------------------------------------
 */

static void print_break(const Pages *pages, const CompareBreak *line)
{
    char first[DATE_TEXT_SIZE];
    char last[DATE_TEXT_SIZE];
    CLEANUP(arena_release) Arena arena = {0};
    const char *kind = verify_is_hard(line->what.kind) ? "not possible: " : "";
    const char *text =
        line->first_week == line->last_week
            ? arena_text(&arena, "%s%s", kind, line->text)
            : arena_text(&arena, "%s%s (%s to %s)", kind, line->text,
                         week_text(pages->year, line->first_week, first),
                         week_text(pages->year, line->last_week, last));
    wrap_print(text, &(Wrap){.columns = LINE_COLUMNS, .first = 2, .further = 4},
               pages->out);
}

static void print_breaks(const Pages *pages)
{
    const PlanCompare *compare = pages->compare;
    int old = 0;
    switch (compare->verdict) {
    case COMPARE_FITS:
        fputs(
            "It fits the farm: no limit breaks that does not break already.\n",
            pages->out);
        break;
    case COMPARE_SOFT:
        fputs("It falls short in this; it can be wanted even so:\n",
              pages->out);
        break;
    case COMPARE_HARD:
        fputs("It cannot be done so:\n", pages->out);
        break;
    }
    for (int i = 0; i < compare->break_count; i++) {
        old += !compare->breaks[i].is_new;
        if (compare->breaks[i].is_new) {
            print_break(pages, &compare->breaks[i]);
        }
    }
    if (old > 0) {
        fprintf(pages->out, "%d %s broken already, whatever is changed here.\n",
                old, old == 1 ? "limit is" : "limits are");
    }
    if (compare->mended > 0) {
        fprintf(pages->out, "%d %s no longer broken.\n", compare->mended,
                compare->mended == 1 ? "limit is" : "limits are");
    }
}

/* ---- What it brings -------------------------------------------------------
 */

static void print_value(const Pages *pages, const char *one, const char *two)
{
    const PlanCompare *compare = pages->compare;
    fprintf(pages->out, "\nThe plan brings %.0f %s (%s), %.0f (%s): %+.0f\n",
            compare->value_after, pages->year->farm->farm[0].currency, two,
            compare->value_before, one,
            compare->value_after - compare->value_before);
}

static void print_order(const Pages *pages, const CompareOrder *line)
{
    static const char *const TURNS[] = {[TURN_LOST] = "lost",
                                        [TURN_LESS] = "shorter",
                                        [TURN_MORE] = "less short",
                                        [TURN_GAINED] = "kept now"};
    const PlanOrder *order = &pages->year->problem.orders[line->order];
    fprintf(pages->out, "  %s, %s%s: %d of %d weeks kept, before %d\n",
            order->id, pages->year->problem.products[order->product].name,
            order->is_firm ? ", firm" : "", line->kept_after, line->weeks,
            line->kept_before);
    for (int i = 0; i < line->change_count && i < WEEKS_MOST; i++) {
        const CompareWeek *week = &line->changes[i];
        char text[DATE_TEXT_SIZE];
        fprintf(pages->out, "    %s  %s: %.4g of %.4g, before %.4g\n",
                week_text(pages->year, week->week, text), TURNS[week->turn],
                week->after, week->wanted, week->before);
    }
    if (line->change_count > WEEKS_MOST) {
        fprintf(pages->out, "    and %d weeks more (--json has all)\n",
                line->change_count - WEEKS_MOST);
    }
}

static void print_orders(const Pages *pages)
{
    const PlanCompare *compare = pages->compare;
    if (compare->order_count == 0) {
        fputs("No order's week turns.\n", pages->out);
        return;
    }
    fputs("\nOrders\n", pages->out);
    for (int i = 0; i < compare->order_count; i++) {
        print_order(pages, &compare->orders[i]);
    }
}

static void print_feed(const Pages *pages)
{
    for (int i = 0; i < pages->compare->feed_count; i++) {
        const CompareFeed *line = &pages->compare->feed[i];
        char week[DATE_TEXT_SIZE];
        fprintf(pages->out,
                "Feed of %s: beds lack %.1f kg over the plan, "
                "before %.1f",
                pages->year->problem.loops[line->loop].name,
                line->short_after_kg, line->short_before_kg);
        if (line->worst_week != PLAN_NONE) {
            fprintf(pages->out, "; %.2f kg more in %s", line->worst_kg,
                    week_text(pages->year, line->worst_week, week));
        }
        fputs(".\n", pages->out);
    }
}

void alter_text_print(const AlterAnswer *answer, const char *dir, FILE *out)
{
    Pages pages = {
        .year = &answer->year, .compare = &answer->compare, .out = out};
    for (int i = 0; i < answer->count; i++) {
        print_change(&answer->year, &answer->changes[i], out);
    }
    print_breaks(&pages);
    print_value(&pages,
                answer->count > 0 ? plan_name_word(answer->on) : "accepted",
                answer->count > 0 ? "changed" : plan_name_word(answer->on));
    print_orders(&pages);
    print_feed(&pages);
    if (answer->is_kept) {
        fprintf(out,
                "\nKept: go on with leat alter %s --plan changed, or accept "
                "it with --accept.\n",
                dir);
    }
    if (answer->is_accepted) {
        fprintf(out,
                "\nAccepted. The plan till now is kept; this takes it back:\n"
                "leat alter %s --plan before --accept\n",
                dir);
    }
}

/* ---- Two plans ------------------------------------------------------------
 */

static void print_batches(const Pages *pages, bool is_all)
{
    const PlanCompare *compare = pages->compare;
    const Problem *problem = &pages->year->problem;
    int most = is_all || compare->batch_count < BATCHES_MOST
                   ? compare->batch_count
                   : BATCHES_MOST;
    if (most > 0) {
        fputs("\nBatches that differ, by week of setting\n", pages->out);
    }
    for (int i = 0; i < most; i++) {
        const CompareBatch *line = &compare->batches[i];
        char week[DATE_TEXT_SIZE];
        fprintf(pages->out, "  %s  %-22s %-8s %4d %s, before %d\n",
                week_text(pages->year, line->week, week),
                problem->way_names[line->way], problem->beds[line->bed].id,
                line->units_after, line->is_edge ? "plants" : "sections",
                line->units_before);
    }
    if (most < compare->batch_count) {
        fprintf(pages->out, "  and %d more (--all)\n",
                compare->batch_count - most);
    }
}

static void print_steps(const Pages *pages, bool is_all)
{
    static const char *const STEPS[] = {[MOVE_STOCK] = "stocked into",
                                        [MOVE_GRADE] = "graded from",
                                        [MOVE_SALE] = "sold from"};
    const PlanCompare *compare = pages->compare;
    const Problem *problem = &pages->year->problem;
    int most = is_all || compare->step_count < BATCHES_MOST
                   ? compare->step_count
                   : BATCHES_MOST;
    if (most > 0) {
        fputs("\nFish that differ\n", pages->out);
    }
    for (int i = 0; i < most; i++) {
        const CompareStep *line = &compare->steps[i];
        char week[DATE_TEXT_SIZE];
        fprintf(pages->out, "  %s  %-14s %s %s: %d, before %d\n",
                week_text(pages->year, line->week, week),
                problem->stocks[line->stock].id, STEPS[line->kind],
                problem->tanks[line->tank].id, line->after, line->before);
    }
    if (most < compare->step_count) {
        fprintf(pages->out, "  and %d more (--all)\n",
                compare->step_count - most);
    }
}

void compare_text_print(const CompareAnswer *answer, bool is_all, FILE *out)
{
    Pages pages = {
        .year = &answer->year, .compare = &answer->compare, .out = out};
    print_value(&pages, plan_name_word(answer->names[0]),
                plan_name_word(answer->names[1]));
    print_orders(&pages);
    print_feed(&pages);
    print_batches(&pages, is_all);
    print_steps(&pages, is_all);
    if (answer->compare.clean_count > 0) {
        fprintf(out, "\n%d deep cleans are in another week.\n",
                answer->compare.clean_count);
    }
    if (answer->left_out > 0) {
        fprintf(out,
                "\n%d rows of the two name what the farm no longer has, or "
                "cannot be any more.\n",
                answer->left_out);
    }
}
