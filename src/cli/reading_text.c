/* What readings mean, as text. */
#include "cli/reading_text.h"

#include <math.h>
#include <string.h>

#include "cli/wrap.h"

enum { COLUMNS = 79, FISH_MAX = 12 };

static const Wrap PLAIN = {COLUMNS, 0, 0};
static const Wrap ITEM = {COLUMNS, 2, 4};

static void print_readings(const ReadingAnswer *answer, Arena *arena, FILE *out)
{
    const Judge *judge = &answer->judge;
    const WordList *words = &FARM_WORDS[WORDS_QUANTITIES];
    const char *told = "";
    for (int q = 0; q < WATER_QUANTITIES; q++) {
        if (!isnan(judge->ask.told[q])) {
            told = arena_text(arena, "%s%s%s %g", told, *told ? ", " : "",
                              words->words[q], judge->ask.told[q]);
        }
    }
    fprintf(out, "%s, %s\n", answer->where, answer->when);
    wrap_print(arena_text(arena, "Read now: %s.", told), &PLAIN, out);
    const char *taken = "";
    for (int i = 0; i < judge->taken_count; i++) {
        const JudgeTaken *at = &judge->taken[i];
        bool is_days = at->age_h > 48.0;
        taken = arena_text(arena, "%s%s%s %g (%.0f %s ago)", taken,
                           i > 0 ? ", " : "", words->words[at->quantity],
                           at->value, is_days ? at->age_h / 24.0 : at->age_h,
                           is_days ? "days" : "h");
    }
    if (*taken) {
        wrap_print(arena_text(arena, "From readings.csv: %s.", taken), &PLAIN,
                   out);
    }
    if (judge->is_temp_assumed && !isnan(judge->of[JUDGE_NH3])) {
        wrap_print("Temperature is not known: ammonia is worked out for the "
                   "warm end of the season.",
                   &PLAIN, out);
    }
}

/* All that must be so before feed is given again, each once. */
static const char *again_text(const Judge *judge, Arena *arena)
{
    const char *text = "";
    for (int i = 0; i < judge->finding_count; i++) {
        const JudgeFinding *finding = &judge->findings[i];
        if (finding->rule->feed == FEED_NONE && finding->again &&
            !strstr(text, finding->again)) {
            text = arena_text(arena, "%s%s%s", text, *text ? "; and " : "",
                              finding->again);
        }
    }
    return *text ? text : "when the cause is gone";
}

static void print_feed(const Judge *judge, Arena *arena, FILE *out)
{
    fputc('\n', out);
    if (judge->fish_count == 0) {
        fputs("Feed: no fish are told here.\n", out);
        return;
    }
    const char *again =
        judge->feed == FEED_NONE
            ? arena_text(arena, " Again %s.", again_text(judge, arena))
            : "";
    wrap_print(
        arena_text(arena, "Feed: %s.%s", judge_feed_word(judge->feed), again),
        &PLAIN, out);
}

static void print_class(const Judge *judge, JudgeClass class, FILE *out)
{
    static const char *const TITLES[] = {
        [JUDGE_CLASH] = "These cannot all be true",
        [JUDGE_DANGER] = "Danger",
        [JUDGE_STOP] = "Stop feeding",
        [JUDGE_WATCH] = "Watch",
        [JUDGE_CAUSE] = "Likely cause",
    };
    bool is_first = true;
    for (int i = 0; i < judge->finding_count; i++) {
        const JudgeFinding *finding = &judge->findings[i];
        if (finding->rule->class != class) {
            continue;
        }
        if (is_first) {
            fprintf(out, "\n%s\n", TITLES[class]);
            is_first = false;
        }
        wrap_print(finding->means, &ITEM, out);
        if (finding->act) {
            wrap_print(finding->act, &(Wrap){COLUMNS, 4, 4}, out);
        }
    }
}

static void print_fish(const Judge *judge, Arena *arena, FILE *out)
{
    if (judge->fish_count == 0) {
        return;
    }
    const double *of = judge->of;
    fputs("\nFor these fish\n", out);
    bool has_nh3 = !isnan(of[JUDGE_NH3]);
    fprintf(out, "  %-9s %-17s %-11s %-24s %s\n", "tank", "batch", "g each",
            has_nh3 ? "NH3-N mg/L, caution" : "NH3-N caution, mg/L",
            "of full feed");
    for (int i = 0; i < judge->fish_count && i < FISH_MAX; i++) {
        const JudgeFish *fish = &judge->fish[i];
        const char *ammonia =
            has_nh3 ? arena_text(arena, "%.3f, %.2f: %s", of[JUDGE_NH3],
                                 fish->ammonia_caution_mg_l,
                                 of[JUDGE_NH3] > fish->ammonia_half_mg_l
                                     ? "growth halved"
                                 : of[JUDGE_NH3] > fish->ammonia_caution_mg_l
                                     ? "over"
                                     : "harmless")
                    : arena_text(arena, "%.2f", fish->ammonia_caution_mg_l);
        fprintf(out, "  %-9.9s %-17.17s %-11s %-24s %.0f-%.0f %%\n", fish->tank,
                fish->batch,
                arena_text(arena, "%.0f-%.0f", fish->least_g, fish->most_g),
                ammonia, 100.0 * fish->eats_low_frac,
                100.0 * fish->eats_high_frac);
    }
    if (judge->fish_count > FISH_MAX) {
        fprintf(out, "  and %d more (--json)\n", judge->fish_count - FISH_MAX);
    }
}

static void print_change(const ReadingAnswer *answer, Arena *arena, FILE *out)
{
    const Judge *judge = &answer->judge;
    if (!(judge->change_frac > 0.0)) {
        return;
    }
    const char *most =
        isnan(answer->change_most_m3)
            ? "Chlorine and cold of fresh water set the pace (leat sum "
              "top-up-limit)."
            : arena_text(arena,
                         "No more than %.2g m3 of fresh water an hour, by its "
                         "chlorine and cold.",
                         answer->change_most_m3);
    fputs("\nChange of water\n", out);
    wrap_print(arena_text(arena,
                          "%.0f %% of it would bring this to the caution; no "
                          "more than %.0f %% in a day. %s",
                          100.0 * judge->change_frac,
                          100.0 * judge->change_today_frac, most),
               &ITEM, out);
}

static void print_doses(const ReadingAnswer *answer, Arena *arena, FILE *out)
{
    if (answer->dose_lacks) {
        fputs("\nBase\n", out);
        wrap_print(arena_text(arena,
                              "No dose before these are tested: %s. Raising pH "
                              "turns harmless ammonium into poisonous ammonia.",
                              answer->dose_lacks),
                   &ITEM, out);
    }
    bool is_warned = false;
    bool has_gas = judge_has(&answer->judge, "co2-watch") ||
                   judge_has(&answer->judge, "co2-stop");
    for (int i = 0; i < answer->dose_count; i++) {
        const JudgeDose *dose = &answer->doses[i];
        if (i == 0) {
            fputs("\nBase, one step of a day\n", out);
        }
        if (i == 0 && has_gas) {
            wrap_print("Air first: shake a glass of this water in air; where "
                       "its pH rises by 0.3, air does what base would.",
                       &ITEM, out);
        }
        for (int c = 0; c < dose->caution_count && !is_warned; c++) {
            wrap_print(dose->cautions[c], &ITEM, out);
        }
        is_warned = is_warned || dose->caution_count > 0;
        wrap_print(
            dose->refused
                ? arena_text(arena, "%s: %s.", dose->base, dose->refused)
                : arena_text(arena,
                             "%s: %.3g g in portions of %.3g g, an hour or "
                             "more apart, in %.3g m3: pH to %.2f, NH3-N then "
                             "%.3f mg/L.",
                             dose->base, dose->today_g, dose->portion_g,
                             answer->volume_m3, dose->ph_after,
                             dose->nh3_after_mg_l),
            &ITEM, out);
    }
}

static void print_next(const Judge *judge, FILE *out)
{
    bool is_first = true;
    for (int i = 0; i < judge->finding_count + judge->need_count; i++) {
        const char *text = i < judge->finding_count
                               ? judge->findings[i].next
                               : judge->needs[i - judge->finding_count];
        if (!text) {
            continue;
        }
        fputs(is_first ? "\nTest next\n" : "", out);
        is_first = false;
        wrap_print(text, &ITEM, out);
    }
}

void reading_print(const ReadingAnswer *answer, Arena *arena, FILE *out)
{
    const Judge *judge = &answer->judge;
    print_readings(answer, arena, out);
    print_class(judge, JUDGE_DANGER, out);
    print_feed(judge, arena, out);
    for (int class = 0; class < JUDGE_CLASSES; class ++) {
        if (class != JUDGE_DANGER) {
            print_class(judge, (JudgeClass) class, out);
        }
    }
    if (judge->finding_count == 0) {
        fputs("\nNothing in these readings asks for anything.\n", out);
    }
    print_fish(judge, arena, out);
    print_change(answer, arena, out);
    print_doses(answer, arena, out);
    print_next(judge, out);
    fputc('\n', out);
    for (int i = 0; i < answer->notice_count; i++) {
        wrap_print(answer->notices[i], &PLAIN, out);
    }
    wrap_print("Fish that fail say more than a kit. Leat is no vet; local "
               "rules on water let out come first.",
               &PLAIN, out);
}
