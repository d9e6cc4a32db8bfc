/* leat round DIR: today's walk, first with the eyes, then with the hands. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/round.h"

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
    const char *when =
        value->yesterday_on == day - 1
            ? say(arena, "yesterday")
            : arena_text(arena, "%d %s", civil.day,
                         say(arena, date_month_name(civil.month)));
    const char *how =
        value->is_yesterday_told ? "" : say(arena, " by the plan");
    return arena_text(arena, "%s %.*f%s", when,
                      item->kind == ROUND_READ ? 1 : 0, value->yesterday, how);
}

static void print_feed(const RoundItem *item, int32_t day, Arena *arena,
                       FILE *out)
{
    const char *last = last_text(item, day, arena);
    print_line(item->told_count ? "     [x] " : "     [ ] ",
               arena_text(arena, "%s%s%s", item->text, *last ? "; " : "", last),
               out);
    if (item->hold) {
        print_line("         ! ", item->hold, out);
        print_line("           ", item->detail, out);
    }
}

/* "degC" for temp_degc, "O2" for oxygen_mg_l; else the name of the item, which
 * stands before its place. */
static const char *short_reading(const RoundItem *item, Arena *arena)
{
    return strcmp(item->value.key, "temp_degc") == 0 ? "degC"
           : strcmp(item->value.key, "oxygen_mg_l") == 0
               ? "O2"
               : arena_copy_bytes(arena, item->text, strcspn(item->text, ","));
}

/* Readings of a stop: "A degC about 20.7 (1 Mar 20.1), O2 (1 Mar 6.4); C ..".
 */
static void print_readings(const RoundStop *stop, int32_t day, Arena *arena,
                           FILE *out)
{
    const char *text = "";
    const char *place = "";
    for (int32_t i = 0; i < stop->item_count; i++) {
        const RoundItem *item = &stop->items[i];
        if (item->kind != ROUND_READ) {
            continue;
        }
        bool is_new = strcmp(place, item->place) != 0;
        const char *last = last_text(item, day, arena);
        place = item->place;
        text = arena_text(arena, "%s%s%s%s%s", text,
                          !*text   ? ""
                          : is_new ? "; "
                                   : ", ",
                          is_new ? place : "", is_new ? " " : "",
                          short_reading(item, arena));
        if (!isnan(item->value.expected)) {
            text =
                arena_say(arena, "%s about %.1f", text, item->value.expected);
        }
        if (*last) {
            text = arena_text(arena, "%s (%s)", text, last);
        }
    }
    if (*text) {
        print_line(arena_text(arena, "     [ ] %s ", say(arena, "Read")), text,
                   out);
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
        print_line(item->told_count ? "     [x] " : "     [ ] ",
                   arena_text(arena, "%s: %s", item->text, item->detail), out);
        return;
    case ROUND_LOOK:
    case ROUND_VENT:
    case ROUND_DO:
    case ROUND_PICK:
        break;
    }
    if (item->kind == ROUND_LOOK && (item->value.key || item->troubles)) {
        return; /* told with the stop; the dead where there are any */
    }
    print_line(item->told_count ? "     [x] " : "     [ ] ", item->text, out);
    if (item->hold) {
        print_line("         ! ", item->hold, out);
    }
    if (*item->warning) {
        print_line("         ! ", item->warning, out);
    }
}

/* Cautions once, under the part they belong to. */
static void print_cautions(const Round *round, bool is_hands,
                           const Arena *arena, FILE *out)
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
            print_line(" ! ", say(arena, caution_short(job->caution)), out);
        }
    }
}

/* The stop with what is looked at there, which one box ticks. */
static void print_stop(const RoundStop *stop, Arena *arena, FILE *out)
{
    const RoundItem *look = stop->items;
    if (stop->item_count == 0 || look->kind != ROUND_LOOK || !look->troubles) {
        print_line(" ", stop->name, out);
        return;
    }
    bool is_ticked = stop->is_as_usual || look->told_count > 0;
    print_line(is_ticked ? " [x] " : " [ ] ",
               arena_text(arena, "%s: %s", stop->name, look->text), out);
}

static void print_part(const Round *round, bool is_hands, Arena *arena,
                       FILE *out)
{
    for (int32_t s = 0; s < round->stop_count; s++) {
        const RoundStop *stop = &round->stops[s];
        if (stop->is_hands != is_hands) {
            continue;
        }
        print_stop(stop, arena, out);
        for (int32_t i = 0; i < stop->item_count; i++) {
            print_item(&stop->items[i], round->day, arena, out);
        }
        print_readings(stop, round->day, arena, out);
    }
    print_cautions(round, is_hands, arena, out);
}

static void print_text(const RoundAnswer *answer, Arena *arena, FILE *out)
{
    const Round *round = &answer->round;
    fprintf(out, say(arena, "Round, %s"), answer->today.title);
    if (round->told_count > 0) {
        fprintf(out, say(arena, "; told today: %d"), (int)round->told_count);
    }
    fputc('\n', out);
    for (int i = 0; i < answer->today.notice_count; i++) {
        wrap_print(answer->today.notices[i], &(Wrap){.columns = COLUMNS}, out);
    }
    for (int32_t i = 0; i < round->suspect_count; i++) {
        print_line("! ", round->suspects[i].text, out);
    }
    fprintf(out, "\n%s\n",
            arena_say(arena,
                      "Eyes first, touch nothing: %d stops, %.2f kg of feed",
                      (int)round_taps(round), round->feed_g / 1000.0));
    const char *feed = "";
    for (int32_t l = 0; l < answer->today.farm->loops_count; l++) {
        const RoundFeed *loop = &round->loops[l];
        if (loop->wanted_g > 0.0) {
            const char *text = arena_say(
                arena, "%s: %.2f kg, %.0f %% of what its beds want",
                answer->today.farm->loops[l].id, loop->given_g / 1000.0,
                100.0 * loop->given_g / loop->wanted_g);
            feed = arena_text(arena, "%s%s%s", feed, *feed ? "; " : "", text);
        }
    }
    if (*feed) {
        print_line(" ", feed, out);
    }
    print_part(round, false, arena, out);
    fprintf(out, "\n%s\n", say(arena, "Then the hands"));
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
        fputs(round_answer_json(&answer, arena), out);
    } else {
        print_text(&answer, arena, out);
    }
    return ERR_NONE;
}
