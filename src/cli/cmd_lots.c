/* leat lots DIR: what is in the cold store, and where lots came from and went.
 */
#include "base/date.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/lots.h"
#include "work/job.h"

static const Wrap PARAGRAPH = {.columns = 79};
static const Wrap ITEM = {.columns = 79, .first = 2, .further = 4};

static const char *name_of(const Farm *farm, int32_t way)
{
    return *farm->ways[way].name ? farm->ways[way].name : farm->ways[way].id;
}

static const char *day_text(int32_t day, Arena *arena)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_text(arena, "%s", text);
}

static const char *units(const LotsAnswer *answer, int32_t way, double count)
{
    const char *unit = answer->today.opening->ways[way].unit;
    Arena *arena = answer->today.arena;
    return arena_text(arena, "%s %s", job_quantity(count, unit, arena),
                      job_unit(unit, count, arena));
}

static void print_left(const LotsAnswer *answer, FILE *out)
{
    const Farm *farm = answer->today.opening;
    fputs("\nLeft of what was told picked, less what was handed over\n", out);
    bool is_any = false;
    for (int32_t way = 0; way < farm->ways_count; way++) {
        double keeps = lots_left(&answer->lots, way, false);
        double past = lots_left(&answer->lots, way, true);
        if (!(keeps > 0.0) && !(past > 0.0)) {
            continue;
        }
        is_any = true;
        fprintf(out, "  %-20s %14s", name_of(farm, way),
                keeps > 0.0 ? units(answer, way, keeps) : "-");
        if (past > 0.0) {
            fprintf(out, "   kept too long: %s", units(answer, way, past));
        }
        fputc('\n', out);
    }
    if (!is_any) {
        fputs("  nothing\n", out);
    }
}

static const char *back_text(const Lot *lot, Arena *arena)
{
    const char *text = arena_text(
        arena, "picked %s%s%s%s%s, keeps until %s",
        day_text(lot->picked_on, arena), *lot->place ? " at " : "", lot->place,
        *lot->who ? " by " : "", lot->who, day_text(lot->keeps_until, arena));
    if (lot->sown_on != DATE_NEVER) {
        text = arena_text(arena, "%s; sown %s", text,
                          day_text(lot->sown_on, arena));
    }
    if (*lot->seed_lot) {
        text = arena_text(arena, "%s, seed lot %s%s%s", text, lot->seed_lot,
                          *lot->seed_from ? " of " : "", lot->seed_from);
    }
    return text;
}

static void print_lot(const LotsAnswer *answer, const Lot *lot, FILE *out)
{
    Arena *arena = answer->today.arena;
    const char *picked = units(answer, lot->way, lot->picked);
    const char *left = units(answer, lot->way, lot->left);
    fprintf(out, "\n%s: %s, %s left%s\n", lot->id, picked,
            lot->left > 0.0 ? left : "none",
            lot->is_past ? " and kept too long" : "");
    wrap_print(back_text(lot, arena), &ITEM, out);
    if (lot->hold) {
        wrap_print(arena_text(arena, "! its bed was %s", lot->hold), &ITEM,
                   out);
    }
    for (int32_t i = 0; i < lot->to_count; i++) {
        const LotTo *to = &lot->to[i];
        wrap_print(
            arena_text(arena, "%s to %s as %s: %s%s", day_text(to->on, arena),
                       to->buyer, to->product,
                       units(answer, lot->way, to->units),
                       to->is_assumed ? " (oldest first: no lot told)" : ""),
            &ITEM, out);
    }
}

static void print_lacks(const LotsAnswer *answer, FILE *out)
{
    const Lots *lots = &answer->lots;
    enum { MOST = 8 };
    if (lots->lack_count == 0) {
        return;
    }
    fputs("\nHanded over, but of no lot that was told\n", out);
    int32_t from = lots->lack_count > MOST ? lots->lack_count - MOST : 0;
    for (int32_t i = from; i < lots->lack_count; i++) {
        const LotLack *lack = &lots->lacks[i];
        fprintf(out, "  %s %s: %s, %s\n",
                day_text(lack->on, answer->today.arena), lack->buyer,
                name_of(answer->today.opening, lack->way),
                units(answer, lack->way, lack->units));
    }
    if (from > 0) {
        fprintf(out, "  and %d before (--json tells them)\n", (int)from);
    }
}

static Err read_question(const Arguments *arguments, LotsQuestion *out)
{
    LotsQuestion question = {.dir = arguments_word(arguments, 0),
                             .today = DATE_ALWAYS,
                             .lot = arguments_fact(arguments, "lot"),
                             .way = arguments_fact(arguments, "way"),
                             .place = arguments_fact(arguments, "place"),
                             .buyer = arguments_fact(arguments, "buyer"),
                             .from = DATE_ALWAYS,
                             .until = DATE_NEVER};
    TRY(arguments_day(arguments, "today", &question.today));
    TRY(arguments_fact_day(arguments, "from", &question.from));
    TRY(arguments_fact_day(arguments, "until", &question.until));
    *out = question;
    return ERR_NONE;
}

Err cmd_lots(const Arguments *arguments, FILE *out)
{
    LotsQuestion question;
    LotsAnswer answer;
    TRY(read_question(arguments, &question));
    TRY(lots_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(lots_answer_json(&answer, arguments->arena), out);
        return ERR_NONE;
    }
    fprintf(out, "%s\n", answer.today.title);
    for (int i = 0; i < answer.today.notice_count; i++) {
        wrap_print(answer.today.notices[i], &PARAGRAPH, out);
    }
    if (!answer.is_any_asked) {
        print_left(&answer, out);
    } else if (answer.shown_count == 0) {
        fputs("\nNo such lot.\n", out);
    }
    for (int32_t i = 0; i < answer.shown_count; i++) {
        print_lot(&answer, &answer.shown[i], out);
    }
    print_lacks(&answer, out);
    return ERR_NONE;
}
