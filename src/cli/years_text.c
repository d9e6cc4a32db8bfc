/* Possible years as text. */
#include "cli/years_text.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "cli/wrap.h"

enum {
    COLUMNS = 79,
    EVERY_WEEKS = 4,
    ORDERS_TOLD = 15,
    RANGE_SIZE = 40,
    WIDEST = 19
};

/* "12-15-19"; below 0 with "to", where a dash would be read as a sign. */
static void put_range(const Figure *range, int digits, char out[RANGE_SIZE])
{
    const char *dash = range->low < -0.05 ? ".." : "-";
    snprintf(out, RANGE_SIZE, "%.*f%s%.*f%s%.*f", digits, range->low, dash,
             digits, range->value, dash, digits, range->high);
}

static void print_range(const YearsAnswer *answer, int series, int row,
                        int week, int digits, FILE *out)
{
    Figure range = years_sum_range(&answer->sum, series, row, week);
    char text[RANGE_SIZE];
    put_range(&range, digits, text);
    fprintf(out, " %*s", WIDEST, text);
}

static void put_week(const YearsAnswer *answer, int week,
                     char out[DATE_TEXT_SIZE])
{
    week_format(answer->first_week + YEARS_WEEK_D * week, out);
}

/* ---- The head ---------------------------------------------------------------
 */

static void print_head(const YearsAnswer *answer, FILE *out)
{
    const FarmSite *site = &answer->farm->farm[0];
    char week[DATE_TEXT_SIZE];
    put_week(answer, 0, week);
    fprintf(out,
            "%s: %" PRId64 " possible %s from %s, %d %s, seed %" PRId64 "\n",
            *site->name ? site->name : site->id, answer->sum.count,
            answer->sum.count == 1 ? "year" : "years", week, answer->weeks,
            answer->weeks == 1 ? "week" : "weeks", answer->seed);
    if (answer->sum.count < answer->asked) {
        fprintf(out,
                "Stopped: %" PRId64 " of the %" PRId64
                " years asked for were run; what follows is of these.\n",
                answer->sum.count, answer->asked);
    }
    for (int i = 0; i < answer->notice_count; i++) {
        wrap_print(answer->notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    wrap_print("low-middle-high: one year in ten lower, one in ten higher. "
               "Weather, germination, losses, growth, yield, appetite and feed "
               "conversion differ; pumps and people do as they should, and "
               "base, iron and salts of the store are given. Hours are by the "
               "sun.",
               &(Wrap){COLUMNS, 0, 0}, out);
}

static void print_words(const YearsAnswer *answer, Arena *arena, FILE *out)
{
    const char *const *lines =
        years_words(&answer->sum, answer->farm, answer->first_week, arena);
    fputs("\nWhat breaks first\n", out);
    for (int i = 0; lines[i]; i++) {
        wrap_print(lines[i], &(Wrap){COLUMNS, 2, 4}, out);
    }
}

/* ---- Plants ----------------------------------------------------------------
 */

static void print_picks(const YearsAnswer *answer, FILE *out)
{
    const Farm *farm = answer->farm;
    int weeks = answer->weeks;
    fputs("\nPicked in all; and what firm orders can count on, % of what the "
          "typical year brings\n"
          "                               low-middle-high  typical   plan  "
          "week by week  in all\n",
          out);
    for (int way = 0; way < farm->ways_count; way++) {
        YearsCounted counted =
            years_counted(&answer->sum, way, answer->typical);
        if (isnan(counted.by_week)) {
            continue;
        }
        Figure range = years_sum_range(&answer->sum, YEARS_PICKED, way, weeks);
        char text[RANGE_SIZE];
        put_range(&range, 0, text);
        fprintf(out, "  %-18s %-6s %19s %8.0f %6.0f %13.0f %7.0f\n",
                farm->ways[way].id, farm->ways[way].unit, text,
                years_value(&answer->sum.shape, answer->typical, YEARS_PICKED,
                            way, weeks),
                100.0 * years_plan_counted_frac(answer->years, way),
                100.0 * counted.by_week, 100.0 * counted.by_span);
    }
}

/* ---- Orders ----------------------------------------------------------------
 */

typedef struct OrderLine {
    int order;
    YearsOrder told;
} OrderLine;

/* Firm ones first, then the least sure. */
static int by_chance(const void *left, const void *right)
{
    const OrderLine *a = left;
    const OrderLine *b = right;
    double short_a = a->told.planned - a->told.chance;
    double short_b = b->told.planned - b->told.chance;
    return short_a != short_b ? (short_a < short_b) - (short_a > short_b)
                              : a->order - b->order;
}

static void print_order(const YearsAnswer *answer, const OrderLine *line,
                        FILE *out)
{
    static const char *const FIRM[] = {"firm", "promised", "outlet"};
    const Order *row = &answer->farm->orders[line->order];
    char week[DATE_TEXT_SIZE];
    put_week(answer, line->told.least_week, week);
    fprintf(out, "  %-26s %-8s %5d %7.0f %7.0f %7.0f   %3.0f in %s\n", row->id,
            FIRM[row->firmness], line->told.due_weeks,
            100.0 * line->told.chance, 100.0 * line->told.planned,
            100.0 * line->told.typical, 100.0 * line->told.least_chance, week);
}

static void print_orders(const YearsAnswer *answer, bool is_all, Arena *arena,
                         FILE *out)
{
    const Farm *farm = answer->farm;
    OrderLine *lines = ARENA_ARRAY(arena, OrderLine, farm->orders_count);
    int count = 0;
    for (int o = 0; o < farm->orders_count; o++) {
        YearsOrder told =
            years_order(&answer->sum, answer->years, o, answer->typical);
        if (told.due_weeks > 0) {
            lines[count++] = (OrderLine){o, told};
        }
    }
    if (count < 1) {
        return;
    }
    qsort(lines, (size_t)count, sizeof *lines, by_chance);
    fputs("\nChance that an order's week is kept, %; the share of its weeks "
          "that the plan keeps\n"
          "                             firmness  weeks  chance    plan "
          "typical   least sure\n",
          out);
    int told = is_all || count < ORDERS_TOLD ? count : ORDERS_TOLD;
    for (int i = 0; i < told; i++) {
        print_order(answer, &lines[i], out);
    }
    if (told < count) {
        fprintf(out, "  and %d more, nearer to the plan: --all tells them\n",
                count - told);
    }
}

/* ---- By week ---------------------------------------------------------------
 */

typedef struct Column {
    int series;
    int digits;
    const char *head;
} Column;

static void print_table(const YearsAnswer *answer, int row,
                        const Column *columns, int count, bool is_all,
                        FILE *out)
{
    fputs("  week of  ", out);
    for (int c = 0; c < count; c++) {
        fprintf(out, " %*s", WIDEST, columns[c].head);
    }
    fputc('\n', out);
    for (int w = 0; w < answer->weeks; w += is_all ? 1 : EVERY_WEEKS) {
        char week[DATE_TEXT_SIZE];
        put_week(answer, w, week);
        fprintf(out, "  %-9s", week);
        for (int c = 0; c < count; c++) {
            print_range(answer, columns[c].series, row, w, columns[c].digits,
                        out);
        }
        fputc('\n', out);
    }
    fputs("  all      ", out);
    for (int c = 0; c < count; c++) {
        print_range(answer, columns[c].series, row, answer->weeks,
                    columns[c].digits, out);
    }
    fputc('\n', out);
}

static void print_loops(const YearsAnswer *answer, bool is_all, FILE *out)
{
    static const Column FIRST[] = {{YEARS_FEED, 1, "feed kg"},
                                   {YEARS_TAN, 2, "most TAN mg/L"},
                                   {YEARS_NITRATE, 0, "nitrate-N mg/L"}};
    static const Column SECOND[] = {{YEARS_PH, 2, "least pH"},
                                    {YEARS_WATER, 1, "water degC"},
                                    {YEARS_HEATER, 0, "heat kWh"}};
    for (int loop = 0; loop < answer->farm->loops_count; loop++) {
        fprintf(out, "\nLoop %s\n", answer->farm->loops[loop].id);
        print_table(answer, loop, FIRST, 3, is_all, out);
        print_table(answer, loop, SECOND, 3, is_all, out);
    }
}

static void print_tanks(const YearsAnswer *answer, bool is_all, FILE *out)
{
    static const Column COLUMNS_OF[] = {{YEARS_OXYGEN, 1, "least oxygen mg/L"},
                                        {YEARS_OXYGEN_HOUR, 0, "at hour"},
                                        {YEARS_NH3, 3, "most NH3-N mg/L"}};
    for (int tank = 0; tank < answer->farm->tanks_count; tank++) {
        fprintf(out, "\nTank %s\n", answer->farm->tanks[tank].id);
        print_table(answer, tank, COLUMNS_OF, 3, is_all, out);
    }
}

static void print_tunnels(const YearsAnswer *answer, bool is_all, FILE *out)
{
    static const Column COLUMNS_OF[] = {{YEARS_AIR_LEAST, 1, "coldest degC"},
                                        {YEARS_AIR_MOST, 1, "warmest degC"},
                                        {YEARS_WET, 0, "hours wet leaves"}};
    for (int t = 0; t < answer->farm->tunnels_count; t++) {
        fprintf(out, "\nTunnel %s\n", answer->farm->tunnels[t].id);
        print_table(answer, t, COLUMNS_OF, 3, is_all, out);
    }
}

static void print_fish(const YearsAnswer *answer, bool is_all, FILE *out)
{
    static const Column COLUMNS_OF[] = {{YEARS_READY, 0, "fish to sell"},
                                        {YEARS_DEAD, 1, "fish that die"}};
    fputs("\nFish over the weight of sale, and those that die\n", out);
    print_table(answer, 0, COLUMNS_OF, 2, is_all, out);
}

void years_text_print(const YearsAnswer *answer, bool is_all, Arena *arena,
                      FILE *out)
{
    print_head(answer, out);
    print_words(answer, arena, out);
    print_orders(answer, is_all, arena, out);
    print_picks(answer, out);
    print_fish(answer, is_all, out);
    print_loops(answer, is_all, out);
    print_tanks(answer, is_all, out);
    print_tunnels(answer, is_all, out);
}
