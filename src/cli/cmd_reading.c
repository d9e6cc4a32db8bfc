/* leat reading DIR quantity=value ...: what readings of the water mean. */
#include "cli/commands.h"
#include "cli/reading_text.h"
#include "cli/water_facts.h"
#include "json/reading.h"

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
        ReadingJson json = {
            .where = answer.where,
            .when = answer.when,
            .judge = &answer.judge,
            .doses = answer.doses,
            .dose_count = answer.dose_count,
            .dose_lacks = answer.dose_lacks,
            .notices = answer.notices,
            .notice_count = answer.notice_count,
        };
        fputs(reading_to_json(&json, arguments->arena), out);
    } else {
        reading_print(&answer, arguments->arena, out);
    }
    return ERR_NONE;
}
