/* What is foreseen as text: picks, stage dates, the typical year inside. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "cli/foresee_text.h"

enum {
    WEEK_D = 7,
    WEEKS_A_BLOCK = 6,
    STAGES_MANY = 60, /* lines from which only the near ones are printed */
    STAGES_NEAR_WEEKS = 4
};

static int32_t monday_of(const Foresight *foresight, int week)
{
    return foresight->first_week + WEEK_D * week;
}

/* ---- Picks ----------------------------------------------------------------
 */

static bool is_by_weight(const Way *way)
{
    return strcmp(way->unit, "kg") == 0;
}

/* "8-12-15": kilos with a decimal while they are few. */
static const char *cell(const PlantStandUnits *units, bool is_kg, int week,
                        Arena *arena)
{
    static const double FEW_KG = 20.0;
    double value = units->value[week];
    int decimals = is_kg && value < FEW_KG ? 1 : 0;
    double least = decimals ? 0.05 : 0.5;
    if (units->high[week] < least) {
        return "-";
    }
    return arena_text(arena, "%.*f-%.*f-%.*f", decimals, units->low[week],
                      decimals, value, decimals, units->high[week]);
}

static bool is_picked(const PlantStandUnits *units, bool is_kg, int from,
                      int until)
{
    for (int week = from; week < until; week++) {
        if (units->high[week] >= (is_kg ? 0.05 : 0.5)) {
            return true;
        }
    }
    return false;
}

static void print_pick_row(const Foresight *foresight, int way, int from,
                           int until, Arena *arena, FILE *out)
{
    const Way *row = &foresight->farm->ways[way];
    fprintf(out, "%-22.22s", arena_text(arena, "%s, %s", row->id, row->unit));
    for (int week = from; week < until; week++) {
        fprintf(
            out, " %12s",
            cell(&foresight->plants.ways[way], is_by_weight(row), week, arena));
    }
    fputc('\n', out);
}

static void print_ready_row(const Foresight *foresight, int from, int until,
                            Arena *arena, FILE *out)
{
    fprintf(out, "%-22.22s",
            arena_text(arena, "fish of %.0f g, stand", foresight->sale_g));
    for (int week = from; week < until; week++) {
        fprintf(out, " %12.0f", foresight_ready_count(foresight, week));
    }
    fputc('\n', out);
}

static void print_pick_block(const Foresight *foresight, int way, int from,
                             Arena *arena, FILE *out)
{
    const Farm *farm = foresight->farm;
    int until = from + WEEKS_A_BLOCK < foresight->weeks ? from + WEEKS_A_BLOCK
                                                        : foresight->weeks;
    fprintf(out, "\n%-22s", "way, unit");
    for (int week = from; week < until; week++) {
        char name[FORESEE_DAY_SIZE];
        foresee_print_week(foresight, week, name);
        fprintf(out, " %12s", name);
    }
    fputc('\n', out);
    for (int w = 0; w < farm->ways_count; w++) {
        bool is_wanted = way == FORESIGHT_ALL || w == way;
        if (is_wanted && is_picked(&foresight->plants.ways[w],
                                   is_by_weight(&farm->ways[w]), from, until)) {
            print_pick_row(foresight, w, from, until, arena, out);
        }
    }
    if (way == FORESIGHT_ALL && foresight->fish.batch_count > 0) {
        print_ready_row(foresight, from, until, arena, out);
    }
}

/* A block without a pick of the one way that is asked for is left out. */
static bool is_told(const Foresight *foresight, int way, int from)
{
    int until = from + WEEKS_A_BLOCK < foresight->weeks ? from + WEEKS_A_BLOCK
                                                        : foresight->weeks;
    return way == FORESIGHT_ALL ||
           is_picked(&foresight->plants.ways[way],
                     is_by_weight(&foresight->farm->ways[way]), from, until);
}

void foresee_print_picks(const Foresight *foresight, int way, Arena *arena,
                         FILE *out)
{
    bool is_some = false;
    fputs("\nWhat comes to pick, a week: low-middle-high\n", out);
    for (int from = 0; from < foresight->weeks; from += WEEKS_A_BLOCK) {
        if (is_told(foresight, way, from)) {
            print_pick_block(foresight, way, from, arena, out);
            is_some = true;
        }
    }
    fputs(is_some ? "" : "  nothing in these weeks\n", out);
}

/* ---- Stage dates ----------------------------------------------------------
 */

/* Batches whose line would be the same but for their bed. */
static bool is_alike(const Foresight *foresight, const PlantStandBatch *a,
                     const PlantStandBatch *b)
{
    const int *kind = foresight->kinds.of_bed;
    return a->way == b->way && kind[a->bed] == kind[b->bed] &&
           a->is_edge == b->is_edge && a->sow_day == b->sow_day &&
           a->set_day == b->set_day && a->pick_day == b->pick_day &&
           a->last_day == b->last_day && a->clear_day == b->clear_day &&
           (a->standing >= 0) == (b->standing >= 0) &&
           strcmp(a->trouble, b->trouble) == 0;
}

static bool is_near(const Foresight *foresight, const PlantStandBatch *batch)
{
    int32_t from = foresight->first_week;
    int32_t until = monday_of(foresight, STAGES_NEAR_WEEKS);
    int32_t days[] = {batch->sow_day,  batch->emerge_day, batch->set_day,
                      batch->pick_day, batch->last_day,   batch->clear_day};
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        if (days[i] >= from && days[i] < until) {
            return true;
        }
    }
    return false;
}

/* A line of the table: a batch, with those alike. */
typedef struct StageLine {
    const PlantStandBatch *batch;
    double plants;
    int batches;
} StageLine;

static int stage_lines(const Foresight *foresight, int way, StageLine *lines)
{
    const PlantStand *plants = &foresight->plants;
    int count = 0;
    for (int b = 0; b < plants->batch_count; b++) {
        const PlantStandBatch *batch = &plants->batches[b];
        if (way != FORESIGHT_ALL && batch->way != way) {
            continue;
        }
        int at = count - 1;
        while (at >= 0 && lines[at].batch->set_day == batch->set_day &&
               !is_alike(foresight, lines[at].batch, batch)) {
            at--;
        }
        if (at < 0 || lines[at].batch->set_day != batch->set_day) {
            at = count++;
            lines[at] = (StageLine){.batch = batch};
        }
        lines[at].plants += batch->plants;
        lines[at].batches++;
    }
    return count;
}

static void print_stage(const Foresight *foresight, const StageLine *line,
                        Arena *arena, FILE *out)
{
    const PlantStandBatch *batch = line->batch;
    const char *bed = foresight->farm->beds[batch->bed].id;
    int kind = foresight->kinds.of_bed[batch->bed];
    const char *where =
        line->batches > 1
            ? arena_text(arena, "%s, %d", foresight->kinds.names[kind],
                         line->batches)
            : bed;
    int32_t days[] = {batch->sow_day,  batch->emerge_day, batch->set_day,
                      batch->pick_day, batch->early_day,  batch->late_day,
                      batch->last_day, batch->clear_day};
    char told[sizeof days / sizeof *days][FORESEE_DAY_SIZE];
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        foresee_print_day(foresight, days[i], told[i]);
    }
    fprintf(out, "%-17.17s %-12.12s%s %4.0f %7s %7s %7s %7s %7s-%-7s %7s %7s\n",
            foresight->farm->ways[batch->way].id, where,
            batch->is_edge ? "^" : " ", line->plants, told[0], told[1], told[2],
            told[3], told[4], told[5], told[6], told[7]);
    if (*batch->trouble) {
        fprintf(out, "%-17s   %s\n", "", batch->trouble);
    }
}

void foresee_print_stages(const Foresight *foresight, int way, bool is_all,
                          Arena *arena, FILE *out)
{
    StageLine *lines =
        ARENA_ARRAY(arena, StageLine, foresight->plants.batch_count);
    int count = stage_lines(foresight, way, lines);
    bool is_short = !is_all && count > STAGES_MANY;
    fputs("\nPlant batches (' last year, + next year, ^ on the edge; where, "
          "batches)\n",
          out);
    fprintf(out, "%68s %15s %7s\n", "first", "early-late", "last");
    fprintf(out, "%-17s %-11s %6s %7s %7s %7s %7s %15s %7s %7s\n", "way",
            "where", "plants", "sown", "up", "set out", "pick", "", "pick",
            "clear");
    int left_out = 0;
    for (int i = 0; i < count; i++) {
        if (is_short && !is_near(foresight, lines[i].batch)) {
            left_out++;
        } else {
            print_stage(foresight, &lines[i], arena, out);
        }
    }
    if (left_out > 0) {
        fprintf(out,
                "%d %s nothing to do in the first %d weeks: --all "
                "or way=... shows %s.\n",
                left_out, left_out == 1 ? "line more has" : "lines more have",
                STAGES_NEAR_WEEKS, left_out == 1 ? "it" : "them");
    }
}

/* ---- Days are not days ----------------------------------------------------
 */

static void print_days_row(const Foresight *foresight, int kind,
                           const char *label, int which, FILE *out)
{
    fprintf(out, "%-22.22s", label);
    for (int m = 0; m < FORESIGHT_MONTHS; m++) {
        const PlantDays *days = &foresight->days[kind * FORESIGHT_MONTHS + m];
        if (days->grows) {
            fprintf(out, " %5d",
                    which < 0   ? days->early
                    : which > 0 ? days->late
                                : days->value);
        } else {
            fprintf(out, " %5s", "-");
        }
    }
    fputc('\n', out);
}

/* Each trouble once, with the months of setting that it meets. */
static void print_troubles(const Foresight *foresight, int kind, Arena *arena,
                           FILE *out)
{
    const char *before = "";
    const char *line = "";
    for (int m = 0; m < FORESIGHT_MONTHS; m++) {
        const PlantDays *days = &foresight->days[kind * FORESIGHT_MONTHS + m];
        PlantBatch batch = {.is_refused = !days->grows,
                            .end = days->end,
                            .end_month = days->end_month};
        const char *text = plant_end_text(&batch, arena);
        if (*text && strcmp(text, before) == 0) {
            line = arena_text(arena, "%s, %s", line, date_month_name(m + 1));
        } else {
            if (*before) {
                fprintf(out, "    %s: %s\n", line, before);
            }
            line = date_month_name(m + 1);
        }
        before = text;
    }
    if (*before) {
        fprintf(out, "    %s: %s\n", line, before);
    }
}

static void print_months(const char *label, FILE *out)
{
    fprintf(out, "%-22s", label);
    for (int m = 1; m <= FORESIGHT_MONTHS; m++) {
        fprintf(out, " %5s", date_month_name(m));
    }
    fputc('\n', out);
}

void foresee_print_way_days(const Foresight *foresight, Arena *arena, FILE *out)
{
    if (!foresight->days) {
        return;
    }
    fprintf(out,
            "\nDays from setting (or sowing in place) on the 15th to the first "
            "pick: %s\n",
            foresight->farm->ways[foresight->way].id);
    print_months("bed kind", out);
    for (int kind = 0; kind < foresight->kinds.count; kind++) {
        if (foresight->has_place[kind]) {
            print_days_row(foresight, kind, foresight->kinds.names[kind], 0,
                           out);
            print_days_row(foresight, kind, "  early", -1, out);
            print_days_row(foresight, kind, "  late", 1, out);
            print_troubles(foresight, kind, arena, out);
        }
    }
}

/* ---- The typical year inside ----------------------------------------------
 */

static void print_year_row(const char *place, const char *what,
                           const double *days, double scale, FILE *out)
{
    fprintf(out, "%-10.10s %-11.11s", place, what);
    for (int m = 1; m <= FORESIGHT_MONTHS; m++) {
        fprintf(out, " %5.1f", scale * foresight_month_mean(days, m));
    }
    fputc('\n', out);
}

static void print_kwh_row(const char *place, const double *days, FILE *out)
{
    fprintf(out, "%-10.10s %-11s", place, "heater kWh");
    for (int m = 1; m <= FORESIGHT_MONTHS; m++) {
        fprintf(out, " %5.0f",
                foresight_month_days(m) * foresight_month_mean(days, m));
    }
    fputc('\n', out);
}

static bool is_heated(const double *days)
{
    for (int m = 1; days && m <= FORESIGHT_MONTHS; m++) {
        if (foresight_month_mean(days, m) > 0.0) {
            return true;
        }
    }
    return false;
}

static void print_tunnels(const Foresight *foresight, FILE *out)
{
    const ClimateYear *climate = foresight->climate;
    for (int i = 0; i < foresight->farm->tunnels_count; i++) {
        const ClimateTunnel *tunnel = &climate->tunnels[i];
        const char *id = foresight->farm->tunnels[i].id;
        print_year_row(id, "mean degC", tunnel->mean_degc, 1, out);
        print_year_row(id, "night min", tunnel->min_degc, 1, out);
        print_year_row(id, "day max", tunnel->max_degc, 1, out);
        if (is_heated(tunnel->heater_kwh)) {
            print_kwh_row(id, tunnel->heater_kwh, out);
        }
    }
}

static void print_light(const Foresight *foresight, FILE *out)
{
    const ClimateYear *climate = foresight->climate;
    for (int kind = 0; kind < foresight->kinds.count; kind++) {
        const Bed *bed =
            &foresight->farm->beds[foresight->kinds.first_bed[kind]];
        const double *light = bed->tunnel >= 0
                                  ? climate->tunnels[bed->tunnel].dli_mol
                                  : climate->outside_dli_mol;
        print_year_row(foresight->kinds.names[kind], "light mol", light,
                       foresight->bed_light_frac[kind], out);
    }
}

static void print_water(const Foresight *foresight, FILE *out)
{
    const Farm *farm = foresight->farm;
    for (int l = 0; l < farm->loops_count; l++) {
        const ClimateLoop *water = &foresight->climate->loops[l];
        print_year_row(farm->loops[l].id, "water degC", water->mean_degc, 1,
                       out);
        if (is_heated(water->heater_kwh)) {
            print_kwh_row(farm->loops[l].id, water->heater_kwh, out);
        }
    }
    for (int k = 0; k < farm->tanks_count; k++) {
        const ClimateLoop *water = &foresight->climate->tanks[k];
        if (is_heated(water->heater_kwh)) {
            print_year_row(farm->tanks[k].id, "water degC", water->mean_degc, 1,
                           out);
            print_kwh_row(farm->tanks[k].id, water->heater_kwh, out);
        }
    }
}

void foresee_print_year(const Foresight *foresight, FILE *out)
{
    const ClimateYear *climate = foresight->climate;
    fputs("\nThe typical year inside (means of usual days; light in mol/m2/d, "
          "heaters by the month)\n",
          out);
    print_months("", out);
    print_year_row("outside", "mean degC", climate->outside_mean_degc, 1, out);
    print_year_row("outside", "light mol", climate->outside_dli_mol, 1, out);
    print_tunnels(foresight, out);
    print_light(foresight, out);
    print_water(foresight, out);
    fprintf(out, "Heaters: %.0f kWh in the year, %.0f %s.\n",
            climate->heater_kwh, climate->heater_cost,
            foresight->farm->farm[0].currency);
}
