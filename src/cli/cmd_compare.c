/* leat compare DIR: two plans side by side. */
#include "base/date.h"
#include "cli/alter_text.h"
#include "cli/commands.h"

Err cmd_compare(const Arguments *arguments, FILE *out)
{
    CompareAsk ask = {.dir = arguments_word(arguments, 0),
                      .today = DATE_ALWAYS,
                      .one = PLAN_BEFORE,
                      .two = PLAN_ACCEPTED};
    const char *one = arguments_fact(arguments, "one");
    const char *two = arguments_fact(arguments, "two");
    if (one) {
        TRY(plan_name_read(one, &ask.one));
    }
    if (two) {
        TRY(plan_name_read(two, &ask.two));
    }
    TRY(arguments_day(arguments, "today", &ask.today));
    CompareAnswer *answer = ARENA_NEW(arguments->arena, CompareAnswer);
    TRY(compare_plans(&ask, arguments->arena, answer));
    if (arguments_has(arguments, "json")) {
        fputs(compare_json(answer, arguments->arena), out);
    } else {
        compare_text_print(answer, arguments_has(arguments, "all"), out);
    }
    return ERR_NONE;
}
