/* The day's sheets for paper. */
#include "desk/sheets.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "json/sheets.h"

/* The kinds in the order asked for; all of them in their own. */
static Err read_kinds(const char *text, SheetKind *out, int32_t *out_count)
{
    const char *names[SHEET_KIND_COUNT];
    for (int k = 0; k < SHEET_KIND_COUNT; k++) {
        names[k] = sheet_kind_word((SheetKind)k);
        out[k] = (SheetKind)k;
    }
    *out_count = text ? 0 : SHEET_KIND_COUNT;
    while (text && *text) {
        size_t length = strcspn(text, ",");
        int found = -1;
        for (int k = 0; k < SHEET_KIND_COUNT; k++) {
            bool is_it = strlen(names[k]) == length &&
                         strncmp(names[k], text, length) == 0;
            found = is_it ? k : found;
        }
        if (found < 0 || *out_count == SHEET_KIND_COUNT) {
            return err_make(ERR_USAGE,
                            "--kind %.*s: round, feed, water, pick or sow, "
                            "each once",
                            (int)(length < 40 ? length : 40), text);
        }
        out[(*out_count)++] = (SheetKind)found;
        text += length + (text[length] == ',');
    }
    return ERR_NONE;
}

static Err save(const char *path, const char *page)
{
    FILE *file = fopen(path, "wb");
    if (!file) {
        return err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
    }
    bool is_written = fputs(page, file) >= 0;
    bool is_closed = fclose(file) == 0;
    return is_written && is_closed
               ? ERR_NONE
               : err_make(ERR_IO, "%.100s: %s", path, strerror(errno));
}

Err sheets_answer(const SheetsQuestion *question, Arena *arena,
                  SheetsAnswer *out)
{
    SheetsAnswer answer = {0};
    SheetKind kinds[SHEET_KIND_COUNT];
    TRY(read_kinds(question->kinds, kinds, &answer.count));
    RoundQuestion round = {.dir = question->dir, .today = question->today};
    TRY(round_answer(&round, arena, &answer.round));
    const Today *today = &answer.round.today;
    SheetsAsk ask = {today->farm, &answer.round.round};
    for (int32_t i = 0; i < answer.count; i++) {
        sheet_make(&ask, kinds[i], arena, &answer.sheets[i]);
    }
    const FarmSite *site = &today->farm->farm[0];
    SheetsPage page = {.farm_name = *site->name ? site->name : site->id,
                       .day = today->title,
                       .sheets = answer.sheets,
                       .count = answer.count,
                       .notices = today->notices,
                       .notice_count = today->notice_count};
    answer.page = sheets_page(&page, arena);
    if (question->file) {
        TRY(save(question->file, answer.page));
    }
    *out = answer;
    return ERR_NONE;
}

const char *sheets_answer_json(const SheetsAnswer *answer, Arena *arena)
{
    SheetsJson page = {.day = answer->round.today.day,
                       .title = answer->round.today.title,
                       .sheets = answer->sheets,
                       .count = answer->count};
    return sheets_to_json(&page, arena);
}
