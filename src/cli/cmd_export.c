/* leat export DIR, leat import DIR FROM: tables from the journal, and back. */
#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "desk/export.h"

Err cmd_export(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    int32_t today = DATE_ALWAYS;
    TRY(arguments_day(arguments, "today", &today));
    ExportAnswer answer;
    TRY(export_tables(arguments_word(arguments, 0), today, arena, &answer));
    char day[DATE_TEXT_SIZE];
    date_format(answer.day, day);
    fprintf(out, "As of %s:", day);
    for (int i = 0; i < answer.table_count; i++) {
        fprintf(out, "%s %s.csv", i > 0 ? "," : "",
                FARM_TABLES[answer.tables[i]].name);
    }
    fputs(".\n", out);
    if (answer.before) {
        fprintf(out, "What they told before is in %s.\n",
                text_escaped(answer.before, arena));
    }
    return ERR_NONE;
}

Err cmd_import(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    int32_t today = DATE_ALWAYS;
    TRY(arguments_day(arguments, "today", &today));
    ImportAnswer answer;
    TRY(import_tables(arguments_word(arguments, 0),
                      arguments_word(arguments, 1), today, arena, &answer));
    if (answer.count == 0) {
        fputs("Nothing differs; nothing was written.\n", out);
    }
    for (int i = 0; i < answer.count; i++) {
        const ImportTable *table = &answer.tables[i];
        fprintf(out, "%s.csv, entry %lld:\n", FARM_TABLES[table->table].name,
                (long long)table->number);
        for (const char *at = table->changes; *at;) {
            const char *end = at;
            while (*end && *end != '\n') {
                end++;
            }
            char *line = arena_copy_bytes(arena, at, (size_t)(end - at));
            fprintf(out, "  %s\n", text_escaped(line, arena));
            at = *end ? end + 1 : end;
        }
    }
    return ERR_NONE;
}
