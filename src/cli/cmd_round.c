/* leat round DIR: today's walk, first with the eyes, then with the hands. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/round.h"
#include "json/round.h"

enum { COLUMNS = 80, TICK = 6, HEAD = 4 };

static void print_line(const char *head, const char *text, FILE *out)
{
    fputs(head, out);
    int used = (int)strlen(head);
    wrap_print(text,
               &(Wrap){.columns = COLUMNS - used, .first = 0, .further = used},
               out);
}

/* "yesterday 374", "1 Mar 20.1": what was last. */
static const char *last_text(const RoundItem *item, int32_t day, Arena *arena)
{
    const RoundValue *value = &item->value;
    if (isnan(value->yesterday)) {
        return "";
    }
    CivilDate civil = date_to_civil(value->yesterday_on);
    const char *when = value->yesterday_on == day - 1
                           ? "yesterday"
                           : arena_text(arena, "%d %s", civil.day,
                                        date_month_name(civil.month));
    const char *how = value->is_yesterday_told ? "" : " by the plan";
    return arena_text(arena, "%s %.*f%s", when,
                      item->kind == ROUND_READ ? 1 : 0, value->yesterday, how);
}

static void print_feed(const RoundItem *item, int32_t day, Arena *arena,
                       FILE *out)
{
    const char *last = last_text(item, day, arena);
    print_line(item->told_count ? " [x] " : " [ ] ",
               arena_text(arena, "%s%s%s%s", item->text, *last ? "; " : "",
                          last, item->hold ? "" : ""),
               out);
    if (item->hold) {
        print_line("     ! ", item->hold, out);
        print_line("       ", item->detail, out);
    }
}

/* Readings of a stop on one line: "Read temp_degc, oxygen: A 20.1 C 20.0". */
static void print_readings(const RoundStop *stop, int32_t day, Arena *arena,
                           FILE *out)
{
    const char *text = "";
    for (int32_t i = 0; i < stop->item_count; i++) {
        const RoundItem *item = &stop->items[i];
        if (item->kind != ROUND_READ) {
            continue;
        }
        const char *last = last_text(item, day, arena);
        const char *about =
            isnan(item->value.expected)
                ? ""
                : arena_text(arena, "about %.1f", item->value.expected);
        bool has_both = *about && *last;
        text =
            arena_text(arena, "%s%s%s%s%s%s%s%s", text, *text ? "; " : "",
                       item->text, *about || *last ? " (" : "", about,
                       has_both ? ", " : "", last, *about || *last ? ")" : "");
    }
    if (*text) {
        print_line(" [ ] Read: ", text, out);
    }
}

static void print_item(const RoundItem *item, int32_t day, Arena *arena,
                       FILE *out)
{
    switch (item->kind) {
    case ROUND_READ:
        return;
    case ROUND_FEED:
        print_feed(item, day, arena, out);
        return;
    case ROUND_FAST:
        print_line(item->told_count ? " [x] " : " [ ] ",
                   arena_text(arena, "%s: %s", item->text, item->detail), out);
        return;
    case ROUND_LOOK:
    case ROUND_VENT:
    case ROUND_DO:
    case ROUND_PICK:
        break;
    }
    if (item->kind == ROUND_LOOK && item->value.key) {
        return; /* dead fish are told where there are any */
    }
    print_line(item->told_count ? " [x] " : " [ ] ", item->text, out);
    if (*item->warning) {
        print_line("     ! ", item->warning, out);
    }
}

/* Cautions once, under the part they belong to. */
static void print_cautions(const Round *round, bool is_hands, FILE *out)
{
    bool is_told[CAUTION_COUNT] = {false};
    for (int32_t s = 0; s < round->stop_count; s++) {
        const RoundStop *stop = &round->stops[s];
        for (int32_t i = 0; i < stop->item_count; i++) {
            const Job *job = stop->items[i].job;
            if (stop->is_hands != is_hands || !job ||
                job->caution == CAUTION_NONE || is_told[job->caution]) {
                continue;
            }
            is_told[job->caution] = true;
            print_line(" ! ", caution_short(job->caution), out);
        }
    }
}

static void print_part(const Round *round, bool is_hands, Arena *arena,
                       FILE *out)
{
    for (int32_t s = 0; s < round->stop_count; s++) {
        const RoundStop *stop = &round->stops[s];
        if (stop->is_hands != is_hands) {
            continue;
        }
        fprintf(out, "%s%s\n", stop->name,
                stop->is_as_usual ? " (told: as usual)" : "");
        for (int32_t i = 0; i < stop->item_count; i++) {
            print_item(&stop->items[i], round->day, arena, out);
        }
        print_readings(stop, round->day, arena, out);
    }
    print_cautions(round, is_hands, out);
}

static void print_text(const RoundAnswer *answer, Arena *arena, FILE *out)
{
    const Round *round = &answer->round;
    fprintf(out, "Round, %s", answer->today.title);
    if (round->told_count > 0) {
        fprintf(out, "; told today: %d", (int)round->told_count);
    }
    fputc('\n', out);
    for (int i = 0; i < answer->today.notice_count; i++) {
        wrap_print(answer->today.notices[i], &(Wrap){.columns = COLUMNS}, out);
    }
    for (int32_t i = 0; i < round->suspect_count; i++) {
        print_line("! ", round->suspects[i].text, out);
    }
    fprintf(out, "\nWith the eyes, %d stops, %.2f kg of feed:\n",
            (int)round_taps(round), round->feed_g / 1000.0);
    print_part(round, false, arena, out);
    fputs("\nWith the hands:\n", out);
    print_part(round, true, arena, out);
}

Err cmd_round(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    RoundQuestion question = {.dir = arguments_word(arguments, 0),
                              .today = DATE_ALWAYS};
    TRY(arguments_day(arguments, "today", &question.today));
    RoundAnswer answer;
    TRY(round_answer(&question, arena, &answer));
    if (arguments_has(arguments, "json")) {
        RoundJson page = {.round = &answer.round,
                          .title = answer.today.title,
                          .notices = answer.today.notices,
                          .notice_count = answer.today.notice_count};
        fputs(round_to_json(&page, arena), out);
    } else {
        print_text(&answer, arena, out);
    }
    return ERR_NONE;
}
