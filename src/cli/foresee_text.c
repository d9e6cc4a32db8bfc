/* What is foreseen as text: what to know first, loops, tanks, fish batches. */
#include "cli/foresee_text.h"

#include <math.h>
#include <string.h>

#include "base/date.h"

enum { WEEK_D = 7, TANKS_A_BLOCK = 3 };

static const double PERCENT = 100.0;
static const double NONE_LEFT = 0.5; /* fish */

static int32_t monday_of(const Foresight *foresight, int week)
{
    return foresight->first_week + WEEK_D * week;
}

void foresee_print_day(const Foresight *foresight, int32_t day,
                       char out[FORESEE_DAY_SIZE])
{
    if (day == DATE_NEVER || day == DATE_ALWAYS) {
        snprintf(out, FORESEE_DAY_SIZE, "-");
        return;
    }
    CivilDate civil = date_to_civil(day);
    int year = date_to_civil(foresight->first_week).year;
    const char *mark = civil.year < year ? "'" : civil.year > year ? "+" : "";
    snprintf(out, FORESEE_DAY_SIZE, "%d %s%s", civil.day,
             date_month_name(civil.month), mark);
}

void foresee_print_week(const Foresight *foresight, int week,
                        char out[FORESEE_DAY_SIZE])
{
    week_format(monday_of(foresight, week), out);
}

/* ---- What to know first ---------------------------------------------------
 */

typedef bool WeekTest(const Foresight *foresight, int row, int week);

static bool is_feed_short(const Foresight *foresight, int loop, int week)
{
    return foresight_feed_ratio(foresight, loop, week) <
           foresight_feed_short_ratio();
}

static bool is_feed_over(const Foresight *foresight, int loop, int week)
{
    return foresight_feed_ratio(foresight, loop, week) >
           foresight_feed_over_ratio();
}

static bool is_ammonia_over(const Foresight *foresight, int loop, int week)
{
    const FishStandLoop *fish = &foresight->fish.loops[loop];
    return fish->tan_g_d[week] > fish->carries_g_d[week].low;
}

static bool is_crowded(const Foresight *foresight, int tank, int week)
{
    return foresight->fish.tanks[tank].density_kg_m3[week] >
           foresight->farm->farm[0].density_ceiling_kg_m3;
}

static bool is_breathless(const Foresight *foresight, int tank, int week)
{
    const FishStandTank *fish = &foresight->fish.tanks[tank];
    return fish->oxygen_g_h[week] > fish->air_g_h[week];
}

/* "2027-W12 to W16, W20, 2028-W01"; "" where no week passes the test. */
static const char *weeks_text(const Foresight *foresight, WeekTest *test,
                              int row, Arena *arena)
{
    const char *text = "";
    int year = 0;
    for (int week = 0; week < foresight->weeks; week++) {
        if (!test(foresight, row, week)) {
            continue;
        }
        int last = week;
        while (last + 1 < foresight->weeks && test(foresight, row, last + 1)) {
            last++;
        }
        char from[FORESEE_DAY_SIZE];
        char until[FORESEE_DAY_SIZE];
        foresee_print_week(foresight, week, from);
        foresee_print_week(foresight, last, until);
        int32_t monday = monday_of(foresight, week);
        bool is_same = week_to_iso(monday).year == year;
        year = week_to_iso(monday_of(foresight, last)).year;
        text = arena_text(arena, "%s%s%s", text, *text ? ", " : "",
                          is_same ? strchr(from, 'W') : from);
        if (last > week) {
            text = arena_text(arena, "%s to %s", text, strchr(until, 'W'));
        }
        week = last;
    }
    return text;
}

static void print_row(const Foresight *foresight, WeekTest *test, int row,
                      const char *what, Arena *arena, FILE *out)
{
    const char *weeks = weeks_text(foresight, test, row, arena);
    if (*weeks) {
        fprintf(out, "  %s: %s\n", what, weeks);
    }
}

static void print_ready(const Foresight *foresight, FILE *out)
{
    int least = 0;
    for (int week = 1; week < foresight->weeks; week++) {
        if (foresight_ready_count(foresight, week) <
            foresight_ready_count(foresight, least)) {
            least = week;
        }
    }
    if (foresight->fish.batch_count < 1) {
        return;
    }
    char week[FORESEE_DAY_SIZE];
    foresee_print_week(foresight, least, week);
    fprintf(out,
            "  fish of %.0f g and over: %.0f now, fewest %.0f in %s, %.0f in "
            "the last week\n",
            foresight->sale_g, foresight_ready_count(foresight, 0),
            foresight_ready_count(foresight, least), week,
            foresight_ready_count(foresight, foresight->weeks - 1));
}

void foresee_print_first(const Foresight *foresight, Arena *arena, FILE *out)
{
    const Farm *farm = foresight->farm;
    fputs("\nTo know first\n", out);
    for (int k = 0; k < farm->tanks_count; k++) {
        const char *id = farm->tanks[k].id;
        print_row(foresight, is_crowded, k,
                  arena_text(arena, "tank %s over %.0f kg/m3", id,
                             farm->farm[0].density_ceiling_kg_m3),
                  arena, out);
        print_row(foresight, is_breathless, k,
                  arena_text(arena, "tank %s over what its air carries", id),
                  arena, out);
    }
    for (int l = 0; l < farm->loops_count; l++) {
        const char *id = farm->loops[l].id;
        print_row(foresight, is_feed_short, l,
                  arena_text(arena, "%s: feed under %.1f of what beds want", id,
                             foresight_feed_short_ratio()),
                  arena, out);
        print_row(foresight, is_feed_over, l,
                  arena_text(arena, "%s: feed over %.1f of what beds want", id,
                             foresight_feed_over_ratio()),
                  arena, out);
        print_row(
            foresight, is_ammonia_over, l,
            arena_text(arena, "%s: more ammonia than beds surely carry", id),
            arena, out);
    }
    print_ready(foresight, out);
}

/* ---- Loops ----------------------------------------------------------------
 */

static void print_loop_week(const Foresight *foresight, int loop, int week,
                            FILE *out)
{
    const FishStandLoop *fish = &foresight->fish.loops[loop];
    const Figure *carries = &fish->carries_g_d[week];
    double ratio = foresight_feed_ratio(foresight, loop, week);
    int tank = -1;
    double oxygen = foresight_oxygen_share(foresight, loop, week, &tank);
    char name[FORESEE_DAY_SIZE];
    foresee_print_week(foresight, week, name);
    fprintf(out, "%-9s %5.1f  %6.1f %6.1f ", name,
            foresight_week_mean(foresight->climate->loops[loop].mean_degc,
                                monday_of(foresight, week)),
            fish->feed_kg[week], foresight->plants.want_kg[loop][week]);
    if (isnan(ratio)) {
        fprintf(out, "%6s %-5s", "-", "");
    } else {
        fprintf(out, "%6.2f %-5s", ratio,
                is_feed_short(foresight, loop, week)  ? "short"
                : is_feed_over(foresight, loop, week) ? "over"
                                                      : "");
    }
    fprintf(out, "  %6.0f %6.0f-%.0f-%-6.0f %-4s", fish->tan_g_d[week],
            carries->low, carries->value, carries->high,
            fish->tan_g_d[week] > carries->value     ? "over"
            : is_ammonia_over(foresight, loop, week) ? "near"
                                                     : "");
    fprintf(out, " %6.0f", fish->oxygen_g_h[week]);
    if (tank >= 0 && isinf(oxygen)) {
        fprintf(out, "  %s: its air carries nothing",
                foresight->farm->tanks[tank].id);
    } else if (tank >= 0) {
        fprintf(out, "  %s %.0f %%%s", foresight->farm->tanks[tank].id,
                PERCENT * oxygen, oxygen > 1.0 ? " over" : "");
    }
    fputc('\n', out);
}

void foresee_print_loop(const Foresight *foresight, int loop, FILE *out)
{
    const Loop *row = &foresight->farm->loops[loop];
    fprintf(out, "\nLoop %s%s%s%s\n", row->id, *row->name ? " (" : "",
            row->name, *row->name ? ")" : "");
    fputs("week      water    feed kg a week   offered/    ammonia g/d         "
          "      oxygen g/h\n"
          "           degC  offered wanted   wanted      made  beds carry "
          "l-m-h       used  most loaded\n",
          out);
    for (int week = 0; week < foresight->weeks; week++) {
        print_loop_week(foresight, loop, week, out);
    }
}

/* ---- Tanks ----------------------------------------------------------------
 */

/* Fish of a tank, or of a batch in it, by week. */
typedef struct Shoal {
    const char *title;
    const double *count;
    const double *kg;
    const double *mean_g;
    const double *cv_frac;
    const double *density_kg_m3; /* NULL for a batch */
    double ceiling_kg_m3;
} Shoal;

static const char *shoal_week(const Shoal *shoal, int week, Arena *arena)
{
    if (shoal->count[week] < NONE_LEFT) {
        return "   -     -";
    }
    const char *text = arena_text(
        arena, "%4.0f %5.0f %5.0f %3.0f%%", shoal->kg[week], shoal->count[week],
        shoal->mean_g[week], PERCENT * shoal->cv_frac[week]);
    if (!shoal->density_kg_m3) {
        return text;
    }
    double density = shoal->density_kg_m3[week];
    return arena_text(arena, "%s %5.1f%s", text, density,
                      density > shoal->ceiling_kg_m3 ? "!" : "");
}

/* Cells of a line, each as wide as a tank's but the last. */
static void print_line(const char *first, const char *const *cells, int count,
                       FILE *out)
{
    fprintf(out, "%-8s", first);
    for (int i = 0; i < count; i++) {
        fprintf(out, " |%-*s", i + 1 < count ? 28 : 0, cells[i]);
    }
    fputc('\n', out);
}

static void print_shoals(const Foresight *foresight, const Shoal *shoals,
                         int count, Arena *arena, FILE *out)
{
    const char *cells[TANKS_A_BLOCK] = {NULL};
    for (int i = 0; i < count; i++) {
        cells[i] = arena_text(arena, " %.27s", shoals[i].title);
    }
    print_line("", cells, count, out);
    for (int i = 0; i < count; i++) {
        cells[i] = shoals[i].density_kg_m3 ? "  kg  fish     g   cv kg/m3"
                                           : "  kg  fish     g   cv";
    }
    print_line("week", cells, count, out);
    for (int week = 0; week < foresight->weeks; week++) {
        char name[FORESEE_DAY_SIZE];
        foresee_print_week(foresight, week, name);
        for (int i = 0; i < count; i++) {
            cells[i] = shoal_week(&shoals[i], week, arena);
        }
        print_line(name, cells, count, out);
    }
}

static void print_blocks(const Foresight *foresight, const Shoal *shoals,
                         int count, Arena *arena, FILE *out)
{
    for (int from = 0; from < count; from += TANKS_A_BLOCK) {
        int left = count - from;
        fputs(from > 0 ? "\n" : "", out);
        print_shoals(foresight, shoals + from,
                     left < TANKS_A_BLOCK ? left : TANKS_A_BLOCK, arena, out);
    }
}

static bool has_fish(const Foresight *foresight, const double *count)
{
    for (int week = 0; count && week < foresight->weeks; week++) {
        if (count[week] >= NONE_LEFT) {
            return true;
        }
    }
    return false;
}

static Shoal shoal_of_tank(const Foresight *foresight, int tank, Arena *arena)
{
    const Tank *row = &foresight->farm->tanks[tank];
    const FishStandTank *fish = &foresight->fish.tanks[tank];
    const char *loop =
        row->loop >= 0 ? foresight->farm->loops[row->loop].id : "no loop";
    return (Shoal){
        .title =
            arena_text(arena, "%s, %.1f m3, %s", row->id, row->volume_m3, loop),
        .count = fish->count,
        .kg = fish->kg,
        .mean_g = fish->mean_g,
        .cv_frac = fish->cv_frac,
        .density_kg_m3 = fish->density_kg_m3,
        .ceiling_kg_m3 = foresight->farm->farm[0].density_ceiling_kg_m3,
    };
}

static void print_title(const Foresight *foresight, const char *what, FILE *out)
{
    fprintf(out, "\n%s (cv: spread; ! over %.0f kg/m3)\n", what,
            foresight->farm->farm[0].density_ceiling_kg_m3);
}

void foresee_print_tanks(const Foresight *foresight, int loop, Arena *arena,
                         FILE *out)
{
    const Farm *farm = foresight->farm;
    Shoal *shoals = ARENA_ARRAY(arena, Shoal, farm->tanks_count);
    int count = 0;
    for (int k = 0; k < farm->tanks_count; k++) {
        bool is_wanted = loop == FORESIGHT_ALL || farm->tanks[k].loop == loop;
        if (is_wanted && has_fish(foresight, foresight->fish.tanks[k].count)) {
            shoals[count++] = shoal_of_tank(foresight, k, arena);
        }
    }
    if (count > 0) {
        print_title(foresight, "Fish tanks, on each Monday", out);
        print_blocks(foresight, shoals, count, arena, out);
    }
}

void foresee_print_tank(const Foresight *foresight, int tank, Arena *arena,
                        FILE *out)
{
    int most = foresight->fish.batch_count + 1;
    Shoal *shoals = ARENA_ARRAY(arena, Shoal, most);
    int count = 0;
    shoals[count++] = shoal_of_tank(foresight, tank, arena);
    for (int b = 0; b < foresight->fish.batch_count; b++) {
        const FishStandBatch *batch = &foresight->fish.batches[b];
        const FishStandShare *share = &batch->in_tanks[tank];
        if (has_fish(foresight, share->count)) {
            shoals[count++] = (Shoal){.title = batch->id,
                                      .count = share->count,
                                      .kg = share->kg,
                                      .mean_g = share->mean_g,
                                      .cv_frac = share->cv_frac};
        }
    }
    print_title(foresight, "One tank and its batches, on each Monday", out);
    print_blocks(foresight, shoals, count, arena, out);
}

/* ---- Fish batches ---------------------------------------------------------
 */

static void print_batch(const Foresight *foresight, const FishStandBatch *batch,
                        FILE *out)
{
    int first = batch->start_week;
    int last = foresight->weeks;
    char on[FORESEE_DAY_SIZE];
    char early[FORESEE_DAY_SIZE];
    char late[FORESEE_DAY_SIZE];
    foresee_print_day(foresight, batch->ready_on, on);
    foresee_print_day(foresight, batch->ready_early, early);
    foresee_print_day(foresight, batch->ready_late, late);
    fprintf(out, "%-24.24s %4.0f %4.0f %5.0f %4.0f-%.0f-%-5.0f %7s %7s-%-7s ",
            batch->id, batch->count[first], batch->count[last],
            batch->all.value_g[first], batch->all.low_g[last],
            batch->all.value_g[last], batch->all.high_g[last], on, early, late);
    fprintf(out, "%4.0f %4.0f %5.0f\n", batch->over_count[first],
            batch->over_count[last], batch->sold_count);
}

void foresee_print_batches(const Foresight *foresight, int tank, FILE *out)
{
    if (foresight->fish.batch_count < 1) {
        return;
    }
    fprintf(out,
            "\nFish batches (of %.0f g: the Monday on which the mean of all "
            "fish, none sold, reaches it)\n",
            foresight->sale_g);
    fprintf(out, "%-24s %9s %5s %14s %23s %9s %5s\n", "", "fish    ", "mean",
            "g at the end", "of that weight:   ", "so heavy", "sold");
    fprintf(out, "%-24s %4s %4s %5s %14s %7s %15s %4s %4s\n", "batch", "from",
            "end", "g", "low-mid-high ", "middle", "early-late", "from", "end");
    for (int b = 0; b < foresight->fish.batch_count; b++) {
        const FishStandBatch *batch = &foresight->fish.batches[b];
        if (tank == FORESIGHT_ALL ||
            has_fish(foresight, batch->in_tanks[tank].count)) {
            print_batch(foresight, batch, out);
        }
    }
}
