/* The year's plan as a page of text. */
#include "cli/plan_text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "cli/wrap.h"
#include "plan/trays.h"

static const char *currency(const PlanYear *year)
{
    return year->farm->farm[0].currency;
}

static void print_week(const PlanYear *year, int week, FILE *out)
{
    char text[DATE_TEXT_SIZE];
    week_format(year->index.from + 7 * week, text);
    fputs(text, out);
}

static void print_head(const PlanYear *year, FILE *out)
{
    const FarmSite *site = &year->farm->farm[0];
    fprintf(out, "%s: %d weeks, ", site->name[0] ? site->name : site->id,
            year->problem.horizon);
    print_week(year, 0, out);
    fputs(" to ", out);
    print_week(year, year->problem.horizon - 1, out);
    fputc('\n', out);
    if (year->farm->counted_count > 0) {
        fprintf(out,
                "Firm orders count on what %d possible years gave week by week "
                "(counted.csv).\n",
                (int)year->farm->counted[0].years);
    }
    fputc('\n', out);
}

/* Money that goes out, whole; nothing is 0 and not -0. */
static double out_of(double cost)
{
    return 0.0 - round(cost);
}

static void print_money(const PlanYear *year, FILE *out)
{
    const PlanOutcome *money = &year->solution.outcome;
    const char *unit = currency(year);
    double wages = year->problem.wages_paid;
    double heat = year->problem.heat_cost;
    fprintf(out, "The plan brings    %9.0f %s\n", money->value, unit);
    fprintf(out, "  sold             %9.0f\n", money->sales);
    fprintf(out, "  fish at the end  %9.0f\n", money->end_fish);
    fprintf(out, "  missed promises  %9.0f\n", out_of(money->missed));
    fprintf(out, "  seed and trays   %9.0f\n", out_of(money->plant_cost));
    fprintf(out, "  young fish, feed %9.0f\n", out_of(money->fish_cost));
    fprintf(out, "  fish no one buys %9.0f\n", out_of(money->unsold_cost));
    fprintf(out, "  extra hours      %9.0f\n", out_of(money->extra_wages));
    fprintf(out, "  yield for feed   %9.0f\n", out_of(money->short_cost));
    fprintf(out, "Wages of the hands %9.0f, heat %.0f: ", wages, heat);
    double left = money->sales - money->plant_cost - money->fish_cost -
                  money->extra_wages - wages - heat;
    if (left >= 0.0) {
        fprintf(out, "sales pay them and leave %.0f %s.\n", left, unit);
    } else {
        fprintf(out, "sales fall %.0f %s short of them.\n", -left, unit);
    }
}

/* Promises of one product and firmness together. */
typedef struct PromiseGroup {
    int weeks; /* with something wanted */
    int kept;
    int worst_week;
    double worst_short;
    double wanted;
    double delivered;
} PromiseGroup;

static PromiseGroup group_promises(const PlanYear *year, int product,
                                   bool is_firm)
{
    const Problem *problem = &year->problem;
    PromiseGroup group = {.worst_week = PLAN_NONE};
    for (int t = 0; t < problem->horizon; t++) {
        double wanted = 0.0;
        double kept = 0.0;
        for (int o = 0; o < problem->order_count; o++) {
            const PlanOrder *order = &problem->orders[o];
            if (order->product == product && order->is_firm == is_firm) {
                wanted += order->wanted[t];
                kept +=
                    year->solution.outcome.kept[o * problem->week_count + t];
            }
        }
        double missing = wanted - kept;
        bool is_kept = missing <= 0.01 * wanted;
        group.weeks += wanted > 0.0;
        group.kept += wanted > 0.0 && is_kept;
        group.wanted += wanted;
        group.delivered += kept;
        if (!is_kept && missing > group.worst_short) {
            group.worst_short = missing;
            group.worst_week = t;
        }
    }
    return group;
}

static void print_group(const PlanYear *year, int product, bool is_firm,
                        FILE *out)
{
    PromiseGroup group = group_promises(year, product, is_firm);
    if (group.weeks == 0) {
        return;
    }
    fprintf(out, "  %-22.22s %-8s %5d %5d %5d  %5.0f %%  ",
            year->problem.products[product].name, is_firm ? "firm" : "promised",
            group.weeks, group.kept, group.weeks - group.kept,
            100.0 * group.delivered / group.wanted);
    if (group.worst_week != PLAN_NONE) {
        fprintf(out, "%.*f short in ", group.worst_short < 10.0 ? 1 : 0,
                group.worst_short);
        print_week(year, group.worst_week, out);
    }
    fputc('\n', out);
}

static void print_promises(const PlanYear *year, FILE *out)
{
    fputs("\nPromises                          weeks  kept short  units    "
          "worst week\n",
          out);
    for (int p = 0; p < year->problem.product_count; p++) {
        print_group(year, p, true, out);
        print_group(year, p, false, out);
    }
}

/* What is over: the goods of which most value stays unsold. */
enum { OVER_LINES = 5 };

static void print_over(const PlanYear *year, FILE *out)
{
    const Problem *problem = &year->problem;
    bool is_told[512] = {false};
    int goods_count = problem->way_count < 512 ? problem->way_count : 512;
    fputs("\nOver (picked but not sold; most first)\n", out);
    for (int line = 0; line < OVER_LINES; line++) {
        int best = PLAN_NONE;
        double best_kg = 0.5;
        for (int g = 0; g < goods_count; g++) {
            double kg = 0.0;
            for (int t = 0; t < problem->horizon; t++) {
                kg += year->report.over[g * problem->week_count + t] *
                      problem->goods[g].kg_per_unit;
            }
            if (!is_told[g] && kg > best_kg) {
                best = g;
                best_kg = kg;
            }
        }
        if (best == PLAN_NONE) {
            break;
        }
        is_told[best] = true;
        int peak = 0;
        const double *over = year->report.over + best * problem->week_count;
        for (int t = 1; t < problem->horizon; t++) {
            peak = over[t] > over[peak] ? t : peak;
        }
        fprintf(out, "  %-22.22s %6.0f kg, most in ", problem->goods[best].name,
                best_kg);
        print_week(year, peak, out);
        fprintf(out, " (%.0f units)\n", over[peak]);
    }
}

static int by_bed_week(const void *left, const void *right)
{
    const PlanWayLine *a = left;
    const PlanWayLine *b = right;
    return (a->per_bed_week > b->per_bed_week) -
           (a->per_bed_week < b->per_bed_week);
}

static void print_ways(const PlanYear *year, FILE *out)
{
    const Problem *problem = &year->problem;
    PlanWayLine lines[512];
    int count = 0;
    for (int w = 0; w < problem->way_count && count < 512; w++) {
        const PlanWayLine *line = &year->report.ways[w];
        if (line->bed_weeks > 0.0 || line->edge_weeks > 0.0) {
            lines[count++] = *line;
        }
    }
    qsort(lines, (size_t)count, sizeof *lines, by_bed_week);
    fprintf(out,
            "\nWhat each way earns (%s, sales less seed)\n"
            "  %-22s %9s %9s %8s %8s %9s\n",
            currency(year), "", "bed-weeks", "a bed-wk", "hours", "an hour",
            "together");
    for (int i = 0; i < count; i++) {
        const PlanWayLine *line = &lines[i];
        fprintf(out, "  %-22.22s ", problem->way_names[line->way]);
        if (line->bed_weeks > 0.0) {
            fprintf(out, "%9.0f %9.1f ", line->bed_weeks, line->per_bed_week);
        } else {
            fprintf(out, "%9s %9s ", "edge", "");
        }
        fprintf(out, "%8.0f %8.1f %9.0f\n", line->hours, line->per_hour,
                line->money);
    }
    for (int w = 0; w < problem->way_count; w++) {
        if (year->index.refused[w]) {
            fprintf(out, "  %-22.22s not grown here: %s\n",
                    problem->way_names[w], year->index.refused[w]);
        }
    }
}

/* Sections (edges: plants) set in each month of the horizon. */
static void print_setting(const PlanYear *year, FILE *out)
{
    const Problem *problem = &year->problem;
    fputs("\nSet out or sown in place, beds by month (edges: plants)\n"
          "                        ",
          out);
    for (int m = 1; m <= 12; m++) {
        fprintf(out, " %4s", date_month_name(m));
    }
    fputc('\n', out);
    for (int w = 0; w < problem->way_count; w++) {
        double sums[12] = {0.0};
        double all = 0.0;
        bool is_edge = false;
        for (int i = 0; i < year->solution.placement_count; i++) {
            const PlanPlacement *placed = &year->solution.placements[i];
            const PlanOption *option = &problem->options[placed->option];
            if (option->way != w || option->is_standing) {
                continue;
            }
            int month = date_month(year->index.from + 7 * option->set_week + 3);
            is_edge = option->is_edge;
            double units = option->is_edge
                               ? placed->units
                               : (double)placed->units /
                                     problem->beds[placed->bed].sections;
            sums[month - 1] += units;
            all += units;
        }
        if (all <= 0.0) {
            continue;
        }
        fprintf(out, "  %-22.22s", problem->way_names[w]);
        for (int m = 0; m < 12; m++) {
            if (sums[m] > 0.0) {
                fprintf(out, " %4.*f", is_edge ? 0 : 1, sums[m]);
            } else {
                fputs("    .", out);
            }
        }
        fputc('\n', out);
    }
}

/* What becomes of the seedlings in trays; those that nobody sets are told, so
 * that they can be sold or given away. */
static void print_trays(const PlanYear *year, FILE *out)
{
    CLEANUP(arena_release) Arena arena = {0};
    PlanTrays *lines = NULL;
    int count = plan_trays(&year->problem, &year->index, &year->solution,
                           &arena, &lines);
    if (count > 0) {
        fputs("\nSeedlings in trays\n", out);
    }
    for (int i = 0; i < count; i++) {
        const PlanTrays *line = &lines[i];
        fprintf(out, "  %-26.26s %-18.18s", line->id,
                year->problem.way_names[line->way]);
        if (line->why) {
            fprintf(out, " not set: %s", line->why);
        } else {
            fprintf(out, " %4d of %d set", line->set, line->plants);
        }
        if (line->first_week != PLAN_NONE) {
            fputs(" from ", out);
            print_week(year, line->first_week, out);
        }
        int left = line->plants - line->set;
        if (!line->why && left > 0) {
            fprintf(out, ", %d left over", left);
        }
        fputc('\n', out);
    }
}

/* What becomes of a fish batch: heads by end. */
typedef struct Shoal {
    int stocked;
    int moved;
    int sold;
    int sold_later; /* in the tail, after the plan's last week */
    int given_up;
    int staying;
    int first_sale;
    int last_sale;
    double sold_g;
} Shoal;

static void add_run(const Problem *problem, const PlanRun *run, Shoal *shoal)
{
    const PlanLane *lane = &problem->stocks[run->stock].lanes[run->lane];
    shoal->stocked += run->count;
    shoal->moved += run->move_week == PLAN_NONE ? 0 : run->count;
    if (run->sale_week >= problem->week_count) {
        shoal->staying += run->count;
    } else if (problem->goods[run->goods].over_g <= 0.0) {
        shoal->given_up += run->count;
    } else if (run->sale_week >= problem->horizon) {
        shoal->sold_later += run->count;
    } else {
        int week = run->sale_week;
        shoal->first_sale = shoal->sold == 0 || week < shoal->first_sale
                                ? week
                                : shoal->first_sale;
        shoal->last_sale = week > shoal->last_sale ? week : shoal->last_sale;
        shoal->sold += run->count;
        shoal->sold_g += run->count * lane->weight_g[week];
    }
}

static void print_shoal(const PlanYear *year, int stock, FILE *out)
{
    const Problem *problem = &year->problem;
    Shoal shoal = {0};
    for (int i = 0; i < year->solution.run_count; i++) {
        const PlanRun *run = &year->solution.runs[i];
        if (run->stock == stock && run->count > 0) {
            add_run(problem, run, &shoal);
        }
    }
    if (shoal.stocked == 0) {
        return;
    }
    fprintf(out, "  %-26.26s %4d fish", problem->stocks[stock].id,
            shoal.stocked);
    if (!problem->stocks[stock].is_standing) {
        fputs(" stocked ", out);
        print_week(year, problem->stocks[stock].start_week, out);
    }
    if (shoal.moved > 0) {
        fprintf(out, ", %d graded to another tank", shoal.moved);
    }
    if (shoal.sold > 0) {
        fprintf(out, ", %d sold ", shoal.sold);
        print_week(year, shoal.first_sale, out);
        fputs(" to ", out);
        print_week(year, shoal.last_sale, out);
        fprintf(out, " at %.0f g", shoal.sold_g / shoal.sold);
    }
    if (shoal.sold_later > 0) {
        fprintf(out, ", %d sold after the plan's end", shoal.sold_later);
    }
    if (shoal.given_up > 0) {
        fprintf(out, ", %d given up for want of a buyer or of room",
                shoal.given_up);
    }
    if (shoal.staying > 0) {
        fprintf(out, ", %d stay", shoal.staying);
    }
    fputc('\n', out);
}

static void print_fish(const PlanYear *year, FILE *out)
{
    fprintf(out, "\nFish: %.0f sold for %.0f %s on %.0f kg of feed\n",
            year->report.fish_sold, year->report.fish_money, currency(year),
            year->report.feed_kg);
    for (int i = 0; i < year->problem.stock_count; i++) {
        print_shoal(year, i, out);
    }
}

/* A recalled plan is worth what the tables say now. */
static void print_stale(const PlanYear *year, FILE *out)
{
    wrap_print(year->age ? year->age : "", &(Wrap){.columns = 80}, out);
    double told = (double)year->farm->plan[0].value_e4 / 10000.0;
    double now = year->solution.outcome.value;
    bool is_other = year->farm->plan[0].from == year->index.from &&
                    fabs(now - told) > 0.001 * fabs(told) + 1.0;
    bool is_worth_less = year->left_out > 0 || is_other;
    if (is_worth_less) {
        const char *unfit = year->left_out == 0 ? ""
                            : year->left_out == 1
                                ? ", and one of its batches does not fit"
                                : ", and some of its batches do not fit";
        CLEANUP(arena_release) Arena arena = {0};
        wrap_print(
            arena_text(&arena,
                       "When it was accepted this plan was to bring %.0f; by "
                       "the tables as they are it brings %.0f%s%s.",
                       told, now, unfit,
                       year->age ? "" : ": plan again (leat plan)"),
            &(Wrap){.columns = 80}, out);
    }
    fputs(year->age || is_worth_less ? "\n" : "", out);
}

void plan_text_print(const PlanYear *year, FILE *out)
{
    print_head(year, out);
    if (year->moves == 0) {
        print_stale(year, out);
    }
    print_money(year, out);
    print_promises(year, out);
    print_over(year, out);
    print_ways(year, out);
    print_setting(year, out);
    print_trays(year, out);
    print_fish(year, out);
    if (year->has_change) {
        plan_text_change(year, out);
    }
    if (year->moves > 0 && !year->was_stopped) {
        fprintf(out, "\nFound by %d starts of %lld moves together.\n",
                year->starts, (long long)year->moves);
    }
}

enum { SCARCE_LINES = 12 };

void plan_text_ceiling(const PlanYear *year, FILE *out)
{
    const PlanCeiling *ceiling = &year->ceiling;
    double value = year->solution.outcome.value;
    fprintf(out,
            "\nCeiling: no plan made of these batches in the typical year "
            "earns more than %.0f %s;\nthis one earns %.0f, %.1f %% of it.\n",
            ceiling->value, currency(year), value,
            ceiling->value > 0.0 ? 100.0 * value / ceiling->value : 100.0);
    fprintf(out,
            "\nWhat holds the farm back: one more would earn (%s)\n"
            "  %-36s %10s %5s   %s\n",
            currency(year), "", "all year", "weeks", "most in");
    for (int i = 0; i < ceiling->scarce_count && i < SCARCE_LINES; i++) {
        const PlanScarce *line = &ceiling->scarce[i];
        fprintf(out, "  %-36.36s %10.2f %5d   ", line->what, line->total,
                line->weeks);
        print_week(year, line->peak_week, out);
        fprintf(out, " (%.2f)\n", line->peak);
    }
}

void plan_text_accepted(const PlanYear *year, FILE *out)
{
    if (year->is_told) {
        fputs("farm.csv, beds.csv, plants.csv and fish.csv were written "
              "from the\njournal; what they told before is in the folder "
              "told-... of its day.\n",
              out);
    } else if (year->is_plan_assumed) {
        fputs("Nothing was told since the tables were counted: farm.csv, "
              "beds.csv, plants.csv and fish.csv\nnow tell this day, the "
              "plan before taken as done. Mend them where it went "
              "otherwise;\nthey are kept as they were in the folder "
              "told-... of their day.\n",
              out);
    }
}
