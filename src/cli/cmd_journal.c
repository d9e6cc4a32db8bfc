/* leat journal DIR: read the journal, filter it, and what is to settle. */
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "desk/journal.h"
#include "json/journal.h"

enum { PAGE_ENTRIES = 100, LIMIT_MAX = 1000000 };

/* ---- One entry as a line --------------------------------------------------
 */

/* Fields told after the day, kind and place, in their order; those that say
 * how and by whom it was told come last or not at all. */
static bool is_shown(ToldFieldId id)
{
    static const ToldFieldId ELSEWHERE[] = {
        TOLD_AT_number,      TOLD_AT_uid,         TOLD_AT_kind,
        TOLD_AT_happened_on, TOLD_AT_happened_at, TOLD_AT_told_at,
        TOLD_AT_told_on,     TOLD_AT_who,         TOLD_AT_device,
        TOLD_AT_job,         TOLD_AT_place,       TOLD_AT_to_place};
    for (size_t i = 0; i < sizeof ELSEWHERE / sizeof *ELSEWHERE; i++) {
        if (id == ELSEWHERE[i]) {
            return false;
        }
    }
    return true;
}

static void print_line(const Told *told, Arena *arena, FILE *out)
{
    fprintf(out, "%6lld  %s %5s  %-9s %s%s%s", (long long)told->number,
            told_text(told, TOLD_AT_happened_on, arena),
            told_text(told, TOLD_AT_happened_at, arena),
            told_kind_word(told->kind), text_escaped(told->place, arena),
            *told->to_place ? " to " : "", text_escaped(told->to_place, arena));
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        ToldFieldId id = (ToldFieldId)i;
        if (is_shown(id) && told_has(told, id)) {
            fprintf(out, "  %s=%s", TOLD_FIELD_TABLE[i].name,
                    text_escaped(told_text(told, id, arena), arena));
        }
    }
    if (*told->who) {
        fprintf(out, "  (%s)", text_escaped(told->who, arena));
    }
    if (told_is_late(told)) {
        fprintf(out, "  told late, %s",
                told_text(told, TOLD_AT_told_on, arena));
    }
    fputc('\n', out);
    if (told->struck_by > 0) {
        fprintf(out, "        struck through by entry %lld%s%s: %s\n",
                (long long)told->struck_by, *told->struck_who ? ", " : "",
                text_escaped(told->struck_who, arena),
                text_escaped(told->struck_why, arena));
    }
}

/* ---- Ways to show it ------------------------------------------------------
 */

static void print_csv(const Tolds *tolds, Arena *arena, FILE *out)
{
    CsvWriter writer;
    csv_writer_init(&writer, arena);
    for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
        csv_writer_cell(&writer, TOLD_FIELD_TABLE[i].name);
    }
    csv_writer_cell(&writer, "is_late");
    csv_writer_cell(&writer, "struck_by");
    csv_writer_cell(&writer, "struck_why");
    csv_writer_end_row(&writer);
    for (int32_t k = 0; k < tolds->count; k++) {
        const Told *told = &tolds->items[k];
        for (int i = 0; i < TOLD_FIELD_COUNT; i++) {
            csv_writer_cell(&writer, told_text(told, (ToldFieldId)i, arena));
        }
        bool is_struck = told->struck_by > 0;
        csv_writer_cell(&writer, told_is_late(told) ? "yes" : "");
        csv_writer_cell(
            &writer, is_struck
                         ? arena_text(arena, "%lld", (long long)told->struck_by)
                         : "");
        csv_writer_cell(&writer, is_struck ? told->struck_why : "");
        csv_writer_end_row(&writer);
    }
    fwrite(writer.bytes, 1, writer.length, out);
}

static void print_page(const JournalPage *page, Arena *arena, FILE *out)
{
    for (int32_t i = 0; i < page->tolds.count; i++) {
        print_line(&page->tolds.items[i], arena, out);
    }
    if (page->tolds.count == 0) {
        fputs(page->newest > 0 ? "No entry is of that kind, place and time.\n"
                               : "Nothing was told yet (leat note).\n",
              out);
    } else if (page->has_more) {
        fprintf(out, "... older ones: --limit N, or before=%lld\n",
                (long long)page->tolds.items[page->tolds.count - 1].number);
    }
}

static void print_settle(const JournalSettle *settle, Arena *arena, FILE *out)
{
    char day[DATE_TEXT_SIZE];
    date_format(settle->today, day);
    fprintf(out, "On %s: %d planned %s nobody told of, %d %s.\n", day,
            (int)settle->unsettled_count,
            settle->unsettled_count == 1 ? "step" : "steps",
            (int)settle->doubt_count,
            settle->doubt_count == 1 ? "doubt" : "doubts");
    for (int32_t i = 0; i < settle->unsettled_count; i++) {
        date_format(settle->unsettled[i].day, day);
        fprintf(out, "  week of %s  %s\n", day,
                text_escaped(settle->unsettled[i].text, arena));
    }
    for (int32_t i = 0; i < settle->doubt_count; i++) {
        fprintf(out, "  doubt, entry %lld  %s\n",
                (long long)settle->doubts[i].number,
                text_escaped(settle->doubts[i].text, arena));
    }
    const FishAccount *fish = &settle->fish;
    fprintf(out,
            "Fish: %lld counted + %lld stocked + %lld found - %lld died - "
            "%lld sold - %lld lost = %lld.\n",
            (long long)fish->opened, (long long)fish->stocked,
            (long long)fish->found, (long long)fish->died,
            (long long)fish->sold, (long long)fish->lost,
            (long long)fish->standing);
}

static Err settle(const Arguments *arguments, FILE *out)
{
    int32_t today = DATE_ALWAYS;
    TRY(arguments_day(arguments, "today", &today));
    JournalSettle answer;
    TRY(journal_settle(arguments_word(arguments, 0), today, arguments->arena,
                       &answer));
    if (arguments_has(arguments, "json")) {
        JournalSettleJson json = {answer.today,           answer.unsettled,
                                  answer.unsettled_count, answer.doubts,
                                  answer.doubt_count,     &answer.fish};
        fputs(journal_settle_to_json(&json, arguments->arena), out);
    } else {
        print_settle(&answer, arguments->arena, out);
    }
    return ERR_NONE;
}

/* ---- The filter -----------------------------------------------------------
 */

static Err read_filter(const Arguments *arguments, StoreFilter *out)
{
    StoreFilter filter = store_all();
    TRY(arguments_fact_day(arguments, "from", &filter.from));
    TRY(arguments_fact_day(arguments, "until", &filter.until));
    const char *kind = arguments_fact(arguments, "kind");
    if (kind) {
        ToldKind found = TOLD_SEEN;
        TRY(told_kind_find(kind, &found));
        filter.kinds = UINT64_C(1) << found;
    }
    filter.place = arguments_fact(arguments, "place");
    filter.who = arguments_fact(arguments, "who");
    filter.batch = arguments_fact(arguments, "batch");
    filter.lot = arguments_fact(arguments, "lot");
    const char *before = arguments_fact(arguments, "before");
    double number = 0.0;
    if (before) {
        Err err = text_to_f64(before, &number);
        if (err.kind != ERR_OK || number < 1.0) {
            return err_make(ERR_USAGE,
                            "before=%.40s: expected a number of an "
                            "entry",
                            before);
        }
        filter.before = (int64_t)number;
    }
    bool is_whole =
        arguments_has(arguments, "csv") || arguments_has(arguments, "json");
    int64_t limit = is_whole ? 0 : PAGE_ENTRIES;
    TRY(arguments_integer(arguments, "limit", 1, LIMIT_MAX, &limit));
    filter.limit = (int32_t)limit;
    *out = filter;
    return ERR_NONE;
}

Err cmd_journal(const Arguments *arguments, FILE *out)
{
    if (arguments_has(arguments, "settle")) {
        return settle(arguments, out);
    }
    Arena *arena = arguments->arena;
    StoreFilter filter;
    TRY(read_filter(arguments, &filter));
    JournalPage page;
    TRY(journal_page(arguments_word(arguments, 0), &filter, arena, &page));
    if (arguments_has(arguments, "csv")) {
        print_csv(&page.tolds, arena, out);
    } else if (arguments_has(arguments, "json")) {
        fputs(journal_page_to_json(&page.tolds, page.newest, page.has_more,
                                   arena),
              out);
    } else {
        print_page(&page, arena, out);
    }
    return ERR_NONE;
}
