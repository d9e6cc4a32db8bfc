/* What a new plan changes of the accepted one, and why, in words. */
#include "cli/plan_text.h"

#include <math.h>

#include "base/date.h"

enum { LINES_MOST = 12, SALES_MOST = 8 };

static const char *week_text(const PlanYear *year, int week, char *out)
{
    week_format(year->index.from + 7 * week, out);
    return out;
}

static void print_units(const PlanYear *year, const PlanChangeLine *line,
                        FILE *out)
{
    /* Beds of the farm have as many sections as their first. */
    double whole = year->problem.bed_count > 0 && !line->is_edge
                       ? year->problem.beds[0].sections
                       : 1.0;
    const char *unit = line->is_edge ? "plants on edges" : "beds";
    if (line->before == line->after) {
        fprintf(out, "%.3g %s, elsewhere\n", line->after / whole, unit);
        return;
    }
    fprintf(out, "%.3g %s, before %.3g\n", line->after / whole, unit,
            line->before / whole);
}

static void print_lines(const PlanYear *year, FILE *out)
{
    const PlanChange *change = &year->change;
    for (int i = 0; i < change->line_count && i < LINES_MOST; i++) {
        const PlanChangeLine *line = &change->lines[i];
        char week[DATE_TEXT_SIZE];
        fprintf(out, "  %s  %-20s ", week_text(year, line->set_week, week),
                year->problem.way_names[line->way]);
        print_units(year, line, out);
    }
    if (change->line_count > LINES_MOST) {
        fprintf(out, "  and %d more, up to %d weeks ahead (--json has all)\n",
                change->line_count - LINES_MOST,
                change->lines[change->line_count - 1].set_week);
    }
}

static void print_sales(const PlanYear *year, FILE *out)
{
    const PlanChange *change = &year->change;
    for (int i = 0; i < change->sale_count && i < SALES_MOST; i++) {
        const PlanChangeSale *sale = &change->sales[i];
        fprintf(out, "  %+8.0f %s  %-20s %s, %.4g units in all, before %.4g\n",
                sale->money, year->farm->farm[0].currency,
                year->problem.products[sale->product].name, sale->id,
                sale->after, sale->before);
    }
}

void plan_text_change(const PlanYear *year, FILE *out)
{
    const PlanChange *change = &year->change;
    fprintf(out,
            "\nAgainst the accepted plan: %d batches stay, %d are new, %d are "
            "dropped.\n",
            change->stayed, change->added, change->dropped);
    print_lines(year, out);
    if (change->line_count == 0) {
        return;
    }
    fputs("Why: ", out);
    if (change->left_out > 0) {
        fprintf(out, "%d of its batches can no longer be; ", change->left_out);
    }
    const Plan *accepted = &year->farm->plan[0];
    int short_weeks = (year->index.from - accepted->from) / 7 +
                      year->problem.horizon - accepted->weeks;
    if (short_weeks > 0) {
        fprintf(out, "it ends %d %s before the new one; ", short_weeks,
                short_weeks == 1 ? "week" : "weeks");
    } else if (change->broken > 0) {
        fprintf(out, "as it stands it would break %d limits (%s); ",
                change->broken, change->break_of);
    }
    fprintf(out, "it would now bring %.0f, the new plan brings %.0f:\n",
            change->value_before, year->solution.outcome.value);
    print_sales(year, out);
}
