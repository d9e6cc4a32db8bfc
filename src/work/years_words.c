/* Possible years in words: what breaks first, and how often. */
#include <math.h>
#include <stdlib.h>

#include "base/date.h"
#include "nature/fish/limits.h"
#include "work/carry.h"
#include "work/years_sum.h"

/* What four years in five pass. */
static const double ONE_IN_FIVE = 0.2;

const char *years_row_id(const Farm *farm, YearsOf of, int row)
{
    switch (of) {
    case OF_FARM:
        return "";
    case OF_WAYS:
        return farm->ways[row].id;
    case OF_ORDERS:
        return farm->orders[row].id;
    case OF_LOOPS:
        return farm->loops[row].id;
    case OF_TANKS:
        return farm->tanks[row].id;
    case OF_TUNNELS:
        return farm->tunnels[row].id;
    case OF_ELEMENTS:
        return farm->loops[row / HOUR_ELEMENTS].id;
    }
    return "";
}

double years_value(const YearsShape *shape, const uint16_t *codes, int series,
                   int row, int week)
{
    int at = shape->series_at[series] + row * (shape->weeks + 1) + week;
    return spread_value(&YEARS_SERIES_TABLE[series].scale, codes[at], 0.5);
}

YearsOrder years_order(const YearsSum *sum, const YearsFarm *years, int order,
                       const uint16_t *typical)
{
    static const double WHOLE_FRAC = 0.995;
    YearsOrder told = {.least_week = -1, .least_chance = 1.0};
    double all = (double)sum->count;
    for (int w = 0; w < sum->shape.weeks; w++) {
        YearsDue due = years_due(years, order, w);
        if (!(due.wanted > 0.0)) {
            continue;
        }
        double chance = (double)years_sum_kept(sum, order, w) / all;
        told.due_weeks++;
        told.chance += chance;
        told.planned += due.planned >= WHOLE_FRAC * due.wanted ? 1.0 : 0.0;
        told.typical += years_value(&sum->shape, typical, YEARS_KEPT, order,
                                    w) >= WHOLE_FRAC
                            ? 1.0
                            : 0.0;
        if (told.least_week < 0 || chance < told.least_chance) {
            told.least_week = w;
            told.least_chance = chance;
        }
    }
    double weeks = told.due_weeks > 0 ? told.due_weeks : 1.0;
    told.chance /= weeks;
    told.planned /= weeks;
    told.typical /= weeks;
    return told;
}

YearsCounted years_counted(const YearsSum *sum, int way,
                           const uint16_t *typical)
{
    double counted = 0.0, usual = 0.0;
    int weeks = sum->shape.weeks;
    for (int w = 0; w < weeks; w++) {
        counted += years_sum_quantile(sum, YEARS_PICKED, way, w, ONE_IN_FIVE);
        usual += years_value(&sum->shape, typical, YEARS_PICKED, way, w);
    }
    double span =
        years_sum_quantile(sum, YEARS_PICKED, way, weeks, ONE_IN_FIVE);
    return (YearsCounted){usual > 0.0 ? counted / usual : NAN,
                          usual > 0.0 ? span / usual : NAN};
}

/* ---- What breaks -----------------------------------------------------------
 */

static const char *what_words(int kind, Arena *arena)
{
    switch ((YearsBreakId)kind) {
    case BREAK_OXYGEN:
        return arena_text(arena,
                          "oxygen falls below %g mg/L, where fish are in "
                          "danger",
                          fish_oxygen_danger_mg_l().value);
    case BREAK_AMMONIA:
        return "un-ionised ammonia passes what is caution for fish of that "
               "size";
    case BREAK_NITRITE:
        return "nitrite passes caution for this chloride";
    case BREAK_DEATHS:
        return "over 5 % of a tank's fish die within a week";
    case BREAK_COLD_WATER:
        return "fish go off feed for cold";
    case BREAK_HOT_WATER:
        return "fish go off feed for heat";
    case BREAK_SUMP:
        return "the pump's intake draws air";
    case BREAK_FROST:
        return "frost kills a batch before its first pick";
    case BREAK_CHILL:
        return "cold nights end a batch before its first pick";
    case BREAK_BOLT:
        return "a batch bolts before its first pick";
    case BREAK_NUTRIENT:
        return "plants of a loop grow a tenth less for want of a nutrient";
    case BREAK_FIRM:
        return "a firm order gets less than the plan keeps for it";
    case BREAK_PROMISE:
        return "a promised order gets less than the plan keeps for it";
    case YEARS_BREAK_COUNT:
        break;
    }
    return "";
}

static int in_100(int64_t count, const YearsSum *sum)
{
    return (int)lround(100.0 * (double)count / (double)sum->count);
}

/* The row that breaks most often, and how many rows ever do. */
static int worst_row(const YearsSum *sum, const Farm *farm, int kind,
                     int64_t *out_count, int *out_week, int *out_rows)
{
    int rows = years_rows(farm, YEARS_BREAK_TABLE[kind].of);
    int worst = -1;
    *out_count = 0;
    *out_rows = 0;
    for (int row = 0; row < rows; row++) {
        int week = -1;
        int64_t count = years_sum_broken(sum, kind, row, &week);
        *out_rows += count > 0;
        if (count > *out_count) {
            *out_count = count;
            *out_week = week;
            worst = row;
        }
    }
    return worst;
}

static const char *row_words(const Farm *farm, int kind, int row, Arena *arena)
{
    YearsOf of = YEARS_BREAK_TABLE[kind].of;
    const char *id = years_row_id(farm, of, row);
    if (of == OF_ELEMENTS) {
        return arena_text(arena, "%s in loop %s",
                          carry_element_name(row % HOUR_ELEMENTS), id);
    }
    const char *what = of == OF_TANKS    ? "tank"
                       : of == OF_LOOPS  ? "loop"
                       : of == OF_ORDERS ? "order"
                                         : "way";
    return arena_text(arena, "%s %s", what, id);
}

/* What the row's worst is by a series, one in ten lower, middle, one in ten
 * higher; "" where no one number tells it. */
static const char *worst_words(const YearsSum *sum, int kind, int row,
                               Arena *arena)
{
    static const struct {
        int kind, series, digits;
        const char *what;
    } ROWS[] = {{BREAK_OXYGEN, YEARS_OXYGEN, 1, "mg/L at the least"},
                {BREAK_AMMONIA, YEARS_NH3, 3, "mg/L NH3-N at the most"},
                {BREAK_COLD_WATER, YEARS_TANK_LEAST, 1, "degC at the coldest"},
                {BREAK_HOT_WATER, YEARS_TANK_MOST, 1, "degC at the warmest"}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        if (ROWS[i].kind == kind) {
            Figure worst =
                years_sum_range(sum, ROWS[i].series, row, sum->shape.weeks);
            return arena_text(arena, " (%.*f to %.*f to %.*f %s)",
                              ROWS[i].digits, worst.low, ROWS[i].digits,
                              worst.value, ROWS[i].digits, worst.high,
                              ROWS[i].what);
        }
    }
    return "";
}

static const char *break_line(const YearsSum *sum, const Farm *farm, int kind,
                              int32_t first_week, Arena *arena)
{
    int64_t count = 0;
    int week = 0, rows = 0;
    int row = worst_row(sum, farm, kind, &count, &week, &rows);
    char when[DATE_TEXT_SIZE];
    week_format(first_week + YEARS_WEEK_D * week, when);
    return arena_text(
        arena,
        "In %d years of 100 %s%s. Most often: %s, in %d of 100%s, in the "
        "middle one of these first in %s%s.",
        in_100(sum->any[kind], sum), what_words(kind, arena),
        sum->first[kind] > 0 ? arena_text(arena, "; first of all in %d",
                                          in_100(sum->first[kind], sum))
                             : "",
        row_words(farm, kind, row, arena), in_100(count, sum),
        worst_words(sum, kind, row, arena), when,
        rows > 1 ? arena_text(arena, "; %d more at times", rows - 1) : "");
}

const char *const *years_words(const YearsSum *sum, const Farm *farm,
                               int32_t first_week, Arena *arena)
{
    const char **lines =
        ARENA_ARRAY(arena, const char *, YEARS_BREAK_COUNT + 3);
    int count = 0;
    int64_t never = sum->unbroken;
    lines[count++] = arena_text(arena, "Nothing breaks in %d years of 100.",
                                in_100(never, sum));
    /* By how often each is the first, then by how often it comes. */
    bool is_told[YEARS_BREAK_COUNT] = {false};
    for (int i = 0; i < YEARS_BREAK_COUNT; i++) {
        int best = -1;
        for (int b = 0; b < YEARS_BREAK_COUNT; b++) {
            bool is_more = best < 0 || sum->first[b] > sum->first[best] ||
                           (sum->first[b] == sum->first[best] &&
                            sum->any[b] > sum->any[best]);
            best = !is_told[b] && is_more ? b : best;
        }
        is_told[best] = true;
        if (sum->any[best] > 0) {
            lines[count++] = break_line(sum, farm, best, first_week, arena);
        }
    }
    lines[count] = NULL;
    return lines;
}
