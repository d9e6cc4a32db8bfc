/* leat heat DIR: what a warmer water costs and brings, and plants in the heat.
 */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/heat.h"
#include "json/heat.h"

enum { COLUMNS = 79 };

static const char *const MONTHS[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

/* "16,18,20" */
static Err read_floors(const Arguments *arguments, HeatQuestion *out)
{
    const char *text = arguments_fact(arguments, "floors");
    if (!text) {
        return ERR_NONE;
    }
    out->floor_count = 0;
    while (*text) {
        char part[32];
        size_t length = 0;
        while (text[length] && text[length] != ',') {
            length++;
        }
        if (length >= sizeof part || out->floor_count == HEAT_FLOORS_MOST) {
            return err_make(ERR_USAGE, "floors=: up to %d numbers",
                            HEAT_FLOORS_MOST);
        }
        for (size_t i = 0; i < length; i++) {
            part[i] = text[i];
        }
        part[length] = 0;
        Err err = text_to_f64(part, &out->floors_degc[out->floor_count]);
        if (err.kind != ERR_OK) {
            return err_make(ERR_USAGE, "floors=: %.160s", err.text);
        }
        out->floor_count++;
        text += length + (text[length] == ',' ? 1 : 0);
    }
    return ERR_NONE;
}

static Err read_spell(const Arguments *arguments, HeatQuestion *out)
{
    double days = out->spell_days;
    out->has_spell = arguments_fact(arguments, "spell_k") ||
                     arguments_fact(arguments, "spell_d") ||
                     arguments_fact(arguments, "spell_from");
    TRY(arguments_fact_number(arguments, "spell_k", &out->spell_k));
    TRY(arguments_fact_number(arguments, "spell_d", &days));
    if (!(days >= 1.0 && days <= 60.0)) {
        return err_make(ERR_RANGE, "spell_d=%g: 1 to 60 days", days);
    }
    out->spell_days = (int)lround(days);
    return arguments_fact_day(arguments, "spell_from", &out->spell_from);
}

static const char *day_text(int32_t day, char *text)
{
    date_format(day, text);
    return text;
}

static void print_floors(const HeatAnswer *answer, FILE *out)
{
    if (answer->floor_count == 0) {
        return;
    }
    fprintf(out,
            "\nWater floors: what they cost and bring (%s)\n"
            "    floor coldest under   heat   cost   feed   cost  fish gained"
            "  value  margin\n"
            "     degC    degC  days    kWh            kg              kg\n",
            answer->farm->farm[0].currency);
    for (int i = 0; i < answer->floor_count; i++) {
        const HeatFloor *floor = &answer->floors[i];
        char name[16] = "as it is";
        if (!isnan(floor->floor_degc)) {
            (void)snprintf(name, sizeof name, "%.1f", floor->floor_degc);
        }
        fprintf(out,
                " %8s %7.1f %5d %6.0f %6.0f %6.0f %6.0f %12.0f %6.0f %7.0f\n",
                name, floor->coldest_degc, floor->under_d, floor->heater_kwh,
                floor->heater_cost, floor->feed_kg, floor->feed_cost,
                floor->gained_kg, floor->fish_value, floor->margin);
    }
    fputs("Heat is of a typical year, all heaters of the farm, those of the "
          "loops on in every\nmonth at their floor. Margin: fish less feed and "
          "heat, to be compared; nothing else\nis in it. Days under: the "
          "heaters are too weak for the floor.\n",
          out);
}

/* Batches of one way with one fate. */
static bool is_alike(const HeatBatch *a, const HeatBatch *b)
{
    return a->way == b->way && strcmp(a->trouble, b->trouble) == 0;
}

static bool is_first(const HeatPlants *plants, int at)
{
    for (int i = 0; i < at; i++) {
        if (is_alike(&plants->batches[i], &plants->batches[at])) {
            return false;
        }
    }
    return true;
}

static void print_fate(const HeatAnswer *answer, int at, FILE *out)
{
    const HeatPlants *plants = &answer->plants;
    const HeatBatch *first = &plants->batches[at];
    int count = 0;
    int32_t until = first->set_day, bolts = DATE_NEVER;
    double units = 0.0, usual = 0.0;
    for (int i = at; i < plants->batch_count; i++) {
        const HeatBatch *batch = &plants->batches[i];
        if (is_alike(first, batch)) {
            count++;
            until = batch->set_day > until ? batch->set_day : until;
            bolts = batch->bolts_on < bolts ? batch->bolts_on : bolts;
            units += batch->units;
            usual += batch->usual_units;
        }
    }
    char from_text[DATE_TEXT_SIZE], until_text[DATE_TEXT_SIZE];
    fprintf(out, "  %-17.17s %4d %s %s %5.0f %6.0f  %s\n",
            answer->farm->ways[first->way].id, count,
            day_text(first->set_day, from_text), day_text(until, until_text),
            units, usual,
            *first->trouble ? first->trouble
                            : "fewer in the weeks of its picks");
    if (bolts != DATE_NEVER) {
        fprintf(out, "    the first bolts about %s\n",
                day_text(bolts, from_text));
    }
}

static void print_batches(const HeatAnswer *answer, FILE *out)
{
    const HeatPlants *plants = &answer->plants;
    char day[DATE_TEXT_SIZE];
    fprintf(out, "\nA hot spell: %d days from %s, %.1f K over the usual%s\n",
            plants->spell.days, day_text(plants->spell.from_day, day),
            plants->spell.warmer_k,
            plants->spell.is_forecast ? ", as forecast" : "");
    if (plants->batch_count == 0) {
        fputs("  It takes no batch that stands or is planned in these weeks.\n",
              out);
        return;
    }
    fputs("  way            batches set from  to         units  usual  what "
          "happens\n",
          out);
    for (int i = 0; i < plants->batch_count; i++) {
        if (is_first(plants, i)) {
            print_fate(answer, i, out);
        }
    }
}

static void print_sides(const HeatAnswer *answer, FILE *out)
{
    int tunnels = answer->farm->tunnels_count;
    if (tunnels == 0) {
        return;
    }
    fputs("\nWhat belongs where: weeks too hot - too cool by tunnel (. the "
          "book knows no limit)\n  way                     belongs on",
          out);
    for (int t = 0; t < tunnels; t++) {
        fprintf(out, " %7.7s", answer->farm->tunnels[t].id);
    }
    fputc('\n', out);
    for (int w = 0; w < answer->farm->ways_count; w++) {
        const HeatSide *sides = answer->plants.sides + w * tunnels;
        fprintf(out, "  %-23.23s %-10s", answer->farm->ways[w].id,
                heat_place_name(answer->plants.places[w]));
        for (int t = 0; t < tunnels; t++) {
            char cell[32];
            if (sides[t].cool_weeks < 0) {
                (void)snprintf(cell, sizeof cell, "%d - .", sides[t].hot_weeks);
            } else {
                (void)snprintf(cell, sizeof cell, "%d - %d", sides[t].hot_weeks,
                               sides[t].cool_weeks);
            }
            fprintf(out, " %7s", cell);
        }
        fputc('\n', out);
    }
}

static void print_shades(const HeatAnswer *answer, FILE *out)
{
    char from[DATE_TEXT_SIZE], until[DATE_TEXT_SIZE];
    fputs("\nShade or whitewash\n", out);
    for (int t = 0; t < answer->farm->tunnels_count; t++) {
        const HeatShade *shade = &answer->plants.shades[t];
        const char *id = answer->farm->tunnels[t].id;
        if (shade->way < 0) {
            fprintf(out, "  %s: nothing that stands there is too hot.\n", id);
            continue;
        }
        fprintf(out, "  %s: %s to %s; first for %s; days reach %.0f degC\n", id,
                day_text(shade->from, from), day_text(shade->until, until),
                answer->farm->ways[shade->way].id, shade->most_degc);
        fprintf(out, "    light then: %.0f mol/m2/d or more; %s\n",
                shade->light_mol,
                shade->is_shaded ? "cloth or wash is on in some of it"
                                 : "no cloth or wash is on");
    }
}

static void print_months(unsigned months, FILE *out)
{
    const char *between = "";
    for (int month = 0; month < HEAT_MONTHS; month++) {
        if (months >> month & 1u) {
            fprintf(out, "%s%s", between, MONTHS[month]);
            between = ", ";
        }
    }
}

static void print_seeds(const HeatAnswer *answer, FILE *out)
{
    fputs("\nNursery too hot for seed (less than half of the best comes up)\n",
          out);
    fputs(answer->plants.seed_count == 0
              ? "  For none.\n"
              : "  Sow it in the evening then, and let it come up in the "
                "shade or in a cool room.\n",
          out);
    for (int i = 0; i < answer->plants.seed_count; i++) {
        const HeatSeed *seed = &answer->plants.seeds[i];
        fprintf(out, "  %-18.18s above %.1f degC: ",
                answer->farm->ways[seed->way].id, seed->most_degc);
        if (seed->hot_months) {
            print_months(seed->hot_months, out);
            fputs(seed->noon_months & ~seed->hot_months ? "; " : "", out);
        }
        if (seed->noon_months & ~seed->hot_months) {
            fputs("by day in ", out);
            print_months(seed->noon_months & ~seed->hot_months, out);
        }
        fputc('\n', out);
    }
}

/* A mould in a tunnel: its weeks, then the ways with theirs. */
static bool print_mould(const HeatAnswer *answer, int tunnel, Mould mould,
                        Arena *arena, FILE *out)
{
    const PressureWeeks *pressure = &answer->plants.pressure;
    int first = answer->weeks, last = -1;
    const char *ways = "";
    for (int i = 0; i < pressure->run_count; i++) {
        const PressureRun *run = &pressure->runs[i];
        if (run->tunnel != tunnel || run->mould != mould) {
            continue;
        }
        first = run->first_week < first ? run->first_week : first;
        last = run->last_week > last ? run->last_week : last;
        ways = arena_text(arena, "%s%s%s %d", ways, *ways ? ", " : "",
                          answer->farm->ways[run->way].id, run->high_weeks);
    }
    if (last < 0) {
        return false;
    }
    char from[DATE_TEXT_SIZE], until[DATE_TEXT_SIZE];
    week_format(answer->first_week + 7 * first, from);
    week_format(answer->first_week + 7 * last, until);
    fprintf(out, "  %s: %s, between %s and %s\n",
            answer->farm->tunnels[tunnel].id, mould_name(mould), from, until);
    wrap_print(arena_text(arena, "weeks: %s", ways), &(Wrap){COLUMNS, 4, 6},
               out);
    return true;
}

static void print_pressure(const HeatAnswer *answer, Arena *arena, FILE *out)
{
    fputs(
        "\nMoulds: weeks of high pressure in the usual weather, as the tunnels "
        "are opened\n",
        out);
    bool has_mould[MOULD_COUNT] = {false}, has_any = false;
    for (int t = 0; t < answer->farm->tunnels_count; t++) {
        for (int m = 0; m < MOULD_COUNT; m++) {
            bool is_told = print_mould(answer, t, (Mould)m, arena, out);
            has_mould[m] = has_mould[m] || is_told;
            has_any = has_any || is_told;
        }
    }
    fputs(has_any
              ? "  By these rules; they tell a pressure, not an illness, and "
                "no remedy:\n"
              : "  None on what stands in the tunnels.\n",
          out);
    for (int m = 0; m < MOULD_COUNT; m++) {
        if (has_mould[m]) {
            wrap_print(arena_text(arena, "%s: %s.", mould_name((Mould)m),
                                  mould_rule((Mould)m)),
                       &(Wrap){COLUMNS, 4, 6}, out);
        }
    }
}

static void print_answer(const HeatAnswer *answer, Arena *arena, FILE *out)
{
    const FarmSite *site = &answer->farm->farm[0];
    char day[DATE_TEXT_SIZE];
    fprintf(out, "%s: heat, %d weeks from Monday %s\n",
            *site->name ? site->name : site->id, answer->weeks,
            day_text(answer->first_week, day));
    for (int i = 0; i < answer->notice_count; i++) {
        fprintf(out, "%s\n", answer->notices[i]);
    }
    print_floors(answer, out);
    print_batches(answer, out);
    print_shades(answer, out);
    print_seeds(answer, out);
    print_pressure(answer, arena, out);
    print_sides(answer, out);
}

Err cmd_heat(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    HeatQuestion question = heat_usual_question(arguments_word(arguments, 0));
    int64_t weeks = question.weeks;
    TRY(arguments_day(arguments, "today", &question.day));
    TRY(arguments_integer(arguments, "weeks", 4, 104, &weeks));
    question.weeks = (int)weeks;
    TRY(read_floors(arguments, &question));
    TRY(read_spell(arguments, &question));
    HeatAnswer answer;
    TRY(heat_answer(&question, arena, &answer));
    if (arguments_has(arguments, "json")) {
        HeatPage page = {answer.farm,    answer.first_week,  answer.weeks,
                         answer.floors,  answer.floor_count, &answer.plants,
                         answer.notices, answer.notice_count};
        fputs(heat_to_json(&page, arena), out);
    } else {
        print_answer(&answer, arena, out);
    }
    return ERR_NONE;
}
