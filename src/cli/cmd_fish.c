/* leat fish DIR: tanks and batches, forecast to sale weight, what a grading
 * would leave and move. */
#include <math.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/fish.h"

enum { COLUMNS = 79, MOVES_MOST = 12 };

static const char *short_day(int32_t day, Arena *arena)
{
    CivilDate civil = date_to_civil(day);
    return day == DATE_NEVER
               ? "-"
               : arena_text(arena, "%d %s %d", civil.day,
                            date_month_name(civil.month), civil.year);
}

static void print_part(const char *head, const FishPart *part, FILE *out)
{
    fprintf(out, "  %-8s %5.0f fish of %4.0f g (spread %2.0f %%), %6.1f kg\n",
            head, part->count, part->mean_g, 100.0 * part->cv_frac, part->kg);
}

static void print_grading(const FishAnswer *answer, const FishGrading *grading,
                          FILE *out)
{
    const Farm *farm = answer->today.farm;
    fprintf(out, "Those over %.0f g%s%s:\n", grading->over_g,
            grading->to_tank >= 0 ? " into " : "",
            grading->to_tank >= 0 ? farm->tanks[grading->to_tank].id : "");
    print_part("before", &grading->before, out);
    print_part("moved", &grading->moved, out);
    print_part("left", &grading->left, out);
    fprintf(out, "  then %.1f kg/m3 here", grading->from_density_kg_m3);
    if (grading->to_tank >= 0) {
        fprintf(out, ", %.1f there\n", grading->to_density_kg_m3);
    } else {
        fputs("; no tank of the loop suits them\n", out);
    }
    if (*grading->doubt) {
        wrap_print(grading->doubt, &(Wrap){COLUMNS, 2, 2}, out);
    }
}

static void print_conversion(const Conversion *conversion, Arena *arena,
                             FILE *out)
{
    if (conversion->is_known) {
        fprintf(out,
                "  conversion %.2f: %.1f kg fed, %.1f kg gained, %s to "
                "%s\n",
                conversion->value, conversion->feed_kg, conversion->gain_kg,
                short_day(conversion->from, arena),
                short_day(conversion->until, arena));
    }
}

static void print_moves(const FishAnswer *answer, const FishTank *tank,
                        int most, FILE *out)
{
    const Farm *farm = answer->today.farm;
    for (int32_t i = 0; i < tank->move_count && i < most; i++) {
        const FishMove *move = &tank->moves[i];
        char week[DATE_TEXT_SIZE];
        week_format(move->on, week);
        fprintf(out, "  %s %s: %.0f of %s, %.0f g%s%s\n", week,
                move->kind == MOVE_SALE && move->product < 0
                    ? "no buyer or room"
                    : FARM_WORDS[WORDS_MOVE_KINDS].words[move->kind],
                move->count, move->batch, move->mean_g,
                move->to_tank >= 0 ? ", into " : "",
                move->to_tank >= 0 ? farm->tanks[move->to_tank].id : "");
    }
}

static void print_tank(const FishAnswer *answer, const FishTank *tank,
                       FILE *out)
{
    const Farm *farm = answer->today.farm;
    Arena *arena = answer->today.arena;
    const Tank *row = &farm->tanks[tank->tank];
    bool is_one = answer->only == tank->tank;
    if (tank->batch_count == 0 && !is_one) {
        fprintf(out, "%s, %.1f m3: empty\n", row->id, row->volume_m3);
        return;
    }
    fprintf(out,
            "%s, %.1f m3: %.0f fish, %.1f kg, %.1f of %.0f kg/m3; water %.1f "
            "degC; feed %.0f g\n",
            row->id, row->volume_m3, tank->count, tank->kg, tank->density_kg_m3,
            tank->ceiling_kg_m3, tank->degc, tank->feed_g);
    for (int b = 0; b < tank->batch_count; b++) {
        const FishInTank *in = &tank->batches[b];
        fprintf(out, "  %s: %.0f of %.0f g, spread %.0f %%\n",
                answer->foresight.fish.batches[in->batch].id, in->part.count,
                in->part.mean_g, 100.0 * in->part.cv_frac);
    }
    if (tank->crowded_on != DATE_NEVER) {
        fprintf(out, "  ! over the ceiling from %s\n",
                short_day(tank->crowded_on, arena));
    }
    print_conversion(&tank->conversion, arena, out);
    print_moves(answer, tank, is_one ? MOVES_MOST : 2, out);
    if (is_one && tank->grade_hold) {
        fprintf(out, "  ! no grading today: %s\n", tank->grade_hold);
    }
    for (int b = 0; is_one && b < tank->batch_count; b++) {
        for (int g = 0; g < tank->batches[b].grading_count; g++) {
            print_grading(answer, &tank->batches[b].gradings[g], out);
        }
    }
}

static void print_batches(const FishAnswer *answer, FILE *out)
{
    Arena *arena = answer->today.arena;
    fprintf(out,
            "\nTo %.0f g, on the mean of the batch (early, likely, late)\n",
            answer->page.sale_g);
    for (int32_t b = 0; b < answer->page.batch_count; b++) {
        const FishBatchDay *day = &answer->page.batches[b];
        const char *when = day->ready_on <= answer->today.day
                               ? "its mean is there"
                               : arena_text(arena, "%s, %s, %s",
                                            short_day(day->ready_early, arena),
                                            short_day(day->ready_on, arena),
                                            short_day(day->ready_late, arena));
        fprintf(out, "  %-22s %5.0f of it now; %s\n",
                answer->foresight.fish.batches[day->batch].id, day->over_count,
                when);
    }
}

static Err read_number(const Arguments *arguments, const char *key, double *out)
{
    const char *text = arguments_fact(arguments, key);
    *out = NAN;
    if (!text) {
        return ERR_NONE;
    }
    Err err = text_to_f64(text, out);
    bool is_weight = err.kind == ERR_OK && *out > 0.0 && *out <= 20000.0;
    return is_weight ? ERR_NONE
                     : err_make(ERR_USAGE,
                                "%s=%.40s: a weight in g, up to "
                                "20000",
                                key, text);
}

static void print_text(const FishAnswer *answer, FILE *out)
{
    fprintf(out, "Fish, %s; feed %.2f kg\n", answer->today.title,
            answer->page.feed_g / 1000.0);
    for (int i = 0; i < answer->today.notice_count; i++) {
        wrap_print(answer->today.notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    fputc('\n', out);
    if (answer->page.asked_batch >= 0) {
        print_grading(answer, &answer->page.asked, out);
        return;
    }
    for (int32_t t = 0; t < answer->page.tank_count; t++) {
        if (answer->only < 0 || answer->only == answer->page.tanks[t].tank) {
            print_tank(answer, &answer->page.tanks[t], out);
        }
    }
    print_batches(answer, out);
}

Err cmd_fish(const Arguments *arguments, FILE *out)
{
    FishQuestion question = {.dir = arguments_word(arguments, 0),
                             .today = DATE_ALWAYS,
                             .tank = arguments_fact(arguments, "tank"),
                             .to = arguments_fact(arguments, "to")};
    TRY(arguments_day(arguments, "today", &question.today));
    TRY(read_number(arguments, "sale_g", &question.sale_g));
    TRY(read_number(arguments, "cut_g", &question.cut_g));
    FishAnswer answer;
    TRY(fish_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(fish_answer_json(&answer, arguments->arena), out);
    } else {
        print_text(&answer, out);
    }
    return ERR_NONE;
}
