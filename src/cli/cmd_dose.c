/* leat dose DIR target_ph=.. : base in days and portions, salts and iron. */
#include <math.h>

#include "cli/commands.h"
#include "cli/water_facts.h"
#include "cli/wrap.h"
#include "desk/dose.h"
#include "json/dose.h"

enum { COLUMNS = 79 };

static const Wrap PLAIN = {COLUMNS, 0, 0};
static const Wrap ITEM = {COLUMNS, 2, 4};

static void print_base(const DosePlan *plan, Arena *arena, FILE *out)
{
    if (isnan(plan->target_ph)) {
        return;
    }
    fputs("\nBase\n", out);
    if (plan->none) {
        wrap_print(plan->none, &ITEM, out);
        return;
    }
    for (int i = 0; i < plan->caution_count; i++) {
        wrap_print(plan->cautions[i], &ITEM, out);
    }
    fprintf(out, "\n  %-4s %-24s %9s %18s %8s %10s\n", "day", "base", "g",
            "portions of g, 1 h", "pH after", "NH3-N mg/L");
    for (int i = 0; i < plan->day_count; i++) {
        const DoseDay *day = &plan->days[i];
        fprintf(out, "  %-4d %-24.24s %9.4g %18.4g %8.2f %10.3f\n", i + 1,
                day->base, day->product_g, day->portion_g, day->ph,
                day->nh3_mg_l);
    }
    if (!isnan(plan->yours_g)) {
        wrap_print(arena_text(arena,
                              "By your own response, today: %.4g g of %s.",
                              plan->yours_g, plan->days[0].base),
                   &ITEM, out);
    }
    if (plan->stopped) {
        wrap_print(arena_text(arena, "Stops there: %s.", plan->stopped), &ITEM,
                   out);
    }
    wrap_print("Each day anew from that day's test: the later days only show "
               "the way. In closed water; air may lift pH by itself.",
               &ITEM, out);
}

static void print_salts(const DosePlan *plan, Arena *arena, FILE *out)
{
    if (plan->salt_count == 0) {
        return;
    }
    fputs("\nSalts and iron, without alkalinity\n", out);
    wrap_print(
        "Goggles and gloves. Dissolve in a plastic bucket, no galvanised "
        "or aluminium tools; slowly into the sump, never onto fish. One "
        "portion a day, iron not on a day with base; stop when fish gasp "
        "or turn from feed.",
        &ITEM, out);
    for (int i = 0; i < plan->salt_count; i++) {
        const DoseSalt *salt = &plan->salts[i];
        wrap_print(arena_text(arena,
                              "%s: %s up %.3g mg/L by %.4g g, in %d portion%s "
                              "of %.4g g, one a day.",
                              salt->id, salt->element, salt->rise_mg_l,
                              salt->product_g, salt->portions,
                              salt->portions == 1 ? "" : "s", salt->portion_g),
                   &ITEM, out);
    }
}

static void print_plan(const DosePlan *plan, Arena *arena, FILE *out)
{
    fprintf(out, "%s, %.4g m3, %s\n", plan->where, plan->volume_m3, plan->when);
    print_base(plan, arena, out);
    print_salts(plan, arena, out);
    fputc('\n', out);
    for (int i = 0; i < plan->notice_count; i++) {
        wrap_print(plan->notices[i], &PLAIN, out);
    }
    wrap_print("Caustic things only by people who may; the product's safety "
               "sheet and local rules come first.",
               &PLAIN, out);
}

Err cmd_dose(const Arguments *arguments, FILE *out)
{
    DoseQuestion question = {
        .reading = {.dir = arguments_word(arguments, 0),
                    .tank = arguments_fact(arguments, "tank"),
                    .loop = arguments_fact(arguments, "loop"),
                    .at = arguments_fact(arguments, "at"),
                    .today = DATE_ALWAYS}};
    TRY(arguments_day(arguments, "today", &question.reading.today));
    TRY(facts_readings(arguments, question.reading.told));
    TRY(facts_number(arguments, "target_ph", &question.target_ph));
    TRY(facts_number(arguments, "yours_g", &question.yours_g));
    TRY(facts_number(arguments, "yours_ph", &question.yours_ph));
    TRY(facts_number(arguments, "potassium_mg_l", &question.potassium_mg_l));
    TRY(facts_number(arguments, "calcium_mg_l", &question.calcium_mg_l));
    TRY(facts_number(arguments, "iron_rise_mg_l", &question.iron_mg_l));
    DosePlan plan;
    TRY(dose_answer(&question, arguments->arena, &plan));
    if (arguments_has(arguments, "json")) {
        fputs(dose_to_json(&plan, arguments->arena), out);
    } else {
        print_plan(&plan, arguments->arena, out);
    }
    return ERR_NONE;
}
