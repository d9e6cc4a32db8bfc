/* leat reading DIR quantity=value ...: what readings of the water mean. */
#include "cli/commands.h"
#include "cli/reading_text.h"
#include "cli/water_facts.h"

Err cmd_reading(const Arguments *arguments, FILE *out)
{
    ReadingQuestion question = {
        .dir = arguments_word(arguments, 0),
        .tank = arguments_fact(arguments, "tank"),
        .loop = arguments_fact(arguments, "loop"),
        .at = arguments_fact(arguments, "at"),
        .today = DATE_ALWAYS,
    };
    TRY(arguments_day(arguments, "today", &question.today));
    TRY(facts_readings(arguments, question.told));
    ReadingAnswer answer;
    TRY(reading_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(reading_answer_json(&answer, arguments->arena), out);
    } else {
        reading_print(&answer, arguments->arena, out);
    }
    return ERR_NONE;
}
