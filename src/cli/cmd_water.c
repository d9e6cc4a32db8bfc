/* leat water DIR: what was read last, against what was foreseen and what suits
 * the fish, and what to do. */
#include <math.h>

#include "base/date.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/water.h"

enum { COLUMNS = 79, HOURS_A_DAY = 24 };

static const char *range_text(const WaterReading *reading, Arena *arena)
{
    bool has_low = !isnan(reading->low);
    bool has_high = !isnan(reading->high);
    return has_low && has_high
               ? arena_text(arena, "%.4g to %.4g", reading->low, reading->high)
           : has_low  ? arena_text(arena, "%.4g or more", reading->low)
           : has_high ? arena_text(arena, "up to %.3g", reading->high)
                      : "";
}

static const char *age_text(double age_h, Arena *arena)
{
    return age_h < 2.0 * HOURS_A_DAY
               ? arena_text(arena, "%.0f h ago", age_h)
               : arena_text(arena, "%.0f d ago", age_h / HOURS_A_DAY);
}

static void print_reading(const WaterReading *reading, Arena *arena, FILE *out)
{
    if (isnan(reading->value)) {
        return;
    }
    fprintf(out, "  %-16s %7.4g  %-9s %-9s %-14s",
            FARM_WORDS[WORDS_QUANTITIES].words[reading->quantity],
            reading->value, age_text(reading->age_h, arena),
            water_mark_word(reading->mark), range_text(reading, arena));
    if (!isnan(reading->foreseen)) {
        fprintf(out, " foreseen %.1f", reading->foreseen);
    }
    fputc('\n', out);
}

/* Whether the place told before it, of the same loop, said so too. */
static bool is_said(const WaterAnswer *answer, const WaterPlace *place,
                    const char *rule)
{
    const WaterDay *water = &answer->water;
    for (int32_t i = 0; i < water->count && &water->places[i] != place; i++) {
        if (water->places[i].loop == place->loop && place->loop >= 0 &&
            answer->only < 0 && judge_has(&water->places[i].judge, rule)) {
            return true;
        }
    }
    return false;
}

static void print_findings(const WaterAnswer *answer, const WaterPlace *place,
                           FILE *out)
{
    const Judge *judge = &place->judge;
    for (int i = 0; i < judge->finding_count; i++) {
        const JudgeFinding *finding = &judge->findings[i];
        bool is_cause = finding->rule->class > JUDGE_STOP;
        if (is_cause && is_said(answer, place, finding->rule->id)) {
            continue;
        }
        wrap_print(finding->means ? finding->means : "", &(Wrap){COLUMNS, 2, 4},
                   out);
        wrap_print(finding->act ? finding->act : "", &(Wrap){COLUMNS, 4, 4},
                   out);
    }
    if (judge->feed != FEED_AS_USUAL) {
        fprintf(out, "  Feed: %s\n", judge_feed_word(judge->feed));
    }
    if (place->wants_base) {
        fputs("  Base is due: leat dose tells how much, in portions\n", out);
    }
}

static void print_place(const WaterAnswer *answer, const WaterPlace *place,
                        FILE *out)
{
    const Farm *farm = answer->today.farm;
    bool is_read = false;
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        is_read |= !isnan(place->readings[q].value);
    }
    if (!is_read && answer->only < 0) {
        return;
    }
    fprintf(out, "\n%s\n",
            place->tank >= 0 ? farm->tanks[place->tank].id
                             : farm->loops[place->loop].id);
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        print_reading(&place->readings[q], answer->today.arena, out);
    }
    print_findings(answer, place, out);
}

Err cmd_water(const Arguments *arguments, FILE *out)
{
    WaterQuestion question = {.dir = arguments_word(arguments, 0),
                              .today = DATE_ALWAYS,
                              .at = arguments_fact(arguments, "at"),
                              .tank = arguments_fact(arguments, "tank")};
    TRY(arguments_day(arguments, "today", &question.today));
    WaterAnswer answer;
    TRY(water_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(water_answer_json(&answer, arguments->arena), out);
        return ERR_NONE;
    }
    fprintf(out, "Water, %s\n", answer.when);
    for (int i = 0; i < answer.today.notice_count; i++) {
        wrap_print(answer.today.notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    for (int32_t i = 0; i < answer.water.count; i++) {
        const WaterPlace *place = &answer.water.places[i];
        if (answer.only < 0 || answer.only == place->tank) {
            print_place(&answer, place, out);
        }
    }
    return ERR_NONE;
}
