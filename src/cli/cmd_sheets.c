/* leat sheets DIR: the day's sheets for paper. */
#include "base/date.h"
#include "cli/commands.h"
#include "desk/sheets.h"

static int32_t rows_of(const Sheet *sheet)
{
    int32_t rows = 0;
    for (int32_t i = 0; i < sheet->count; i++) {
        rows += sheet->rows[i].number > 0;
    }
    return rows;
}

Err cmd_sheets(const Arguments *arguments, FILE *out)
{
    SheetsQuestion question = {.dir = arguments_word(arguments, 0),
                               .today = DATE_ALWAYS,
                               .kinds = arguments_option(arguments, "kind"),
                               .file = arguments_option(arguments, "out")};
    TRY(arguments_day(arguments, "today", &question.today));
    SheetsAnswer answer;
    TRY(sheets_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(sheets_answer_json(&answer, arguments->arena), out);
    } else if (question.file) {
        fprintf(out, "%s:", question.file);
        for (int32_t i = 0; i < answer.count; i++) {
            fprintf(out, "%s %s %d rows", i ? "," : "",
                    sheet_kind_word(answer.sheets[i].kind),
                    (int)rows_of(&answer.sheets[i]));
        }
        fputc('\n', out);
    } else {
        fputs(answer.page, out);
    }
    return ERR_NONE;
}
