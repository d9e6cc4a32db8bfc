/* leat alter DIR: change a planned batch by hand, and see at once what breaks.
 */
#include <math.h>
#include <stdio.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/alter_text.h"
#include "cli/commands.h"
#include "cli/plan_text.h"
#include "desk/alter.h"
#include "json/compare.h"

static Err read_count(const Arguments *arguments, const char *key, int least,
                      int *out)
{
    const char *text = arguments_fact(arguments, key);
    double number = 0.0;
    if (!text) {
        return ERR_NONE;
    }
    /* "+1" is how people write a week later. */
    Err err = text_to_f64(*text == '+' ? text + 1 : text, &number);
    if (err.kind != ERR_OK || !(number >= least) ||
        !(number <= ALTER_UNITS_MOST) || number > floor(number)) {
        return err_make(ERR_USAGE,
                        "%s=%.40s: expected a whole number from %d "
                        "to %d",
                        key, text, least, (int)ALTER_UNITS_MOST);
    }
    *out = (int)number;
    return ERR_NONE;
}

static Err read_change(const Arguments *arguments, PlanAlter *out)
{
    PlanAlter change = {.batch = arguments_fact(arguments, "batch"),
                        .step = arguments_fact(arguments, "step"),
                        .way = arguments_fact(arguments, "way"),
                        .clean = arguments_fact(arguments, "clean"),
                        .bed = arguments_fact(arguments, "bed"),
                        .tank = arguments_fact(arguments, "tank"),
                        .is_drop = arguments_has(arguments, "drop"),
                        .sow_on = DATE_ALWAYS,
                        .set_on = DATE_ALWAYS,
                        .clear_on = DATE_ALWAYS,
                        .on = DATE_ALWAYS};
    TRY(read_count(arguments, "weeks", -ALTER_UNITS_MOST, &change.weeks));
    TRY(read_count(arguments, "section", 1, &change.section));
    TRY(read_count(arguments, "sections", 1, &change.sections));
    TRY(read_count(arguments, "plants", 1, &change.plants));
    TRY(arguments_fact_day(arguments, "sow_on", &change.sow_on));
    TRY(arguments_fact_day(arguments, "set_on", &change.set_on));
    TRY(arguments_fact_day(arguments, "clear_on", &change.clear_on));
    TRY(arguments_fact_day(arguments, "on", &change.on));
    *out = change;
    return ERR_NONE;
}

static Err read_input(const Arguments *arguments, AlterAsk *ask)
{
    if (arguments->fact_count > 0) {
        return err_make(ERR_USAGE, "--stdin: the changes come from the input, "
                                   "not from facts");
    }
    char *text = ARENA_ARRAY(arguments->arena, char, ALTER_JSON_MAX_BYTES + 1);
    size_t length = fread(text, 1, ALTER_JSON_MAX_BYTES + 1, stdin);
    if (ferror(stdin) || length > ALTER_JSON_MAX_BYTES) {
        return err_make(ERR_INPUT,
                        "the input cannot be read, or is longer "
                        "than %d bytes",
                        (int)ALTER_JSON_MAX_BYTES);
    }
    AlterBody body;
    TRY(json_alter_read(text, length, arguments->arena, &body));
    ask->changes = body.changes;
    ask->count = body.count;
    ask->mark = body.mark;
    ask->is_kept = ask->is_kept || body.is_kept;
    ask->is_accepted = ask->is_accepted || body.is_accepted;
    ask->is_even_so = ask->is_even_so || body.is_even_so;
    return plan_name_read(body.plan, &ask->on);
}

static Err read_ask(const Arguments *arguments, AlterAsk *ask)
{
    const char *plan = arguments_option(arguments, "plan");
    *ask = (AlterAsk){.dir = arguments_word(arguments, 0),
                      .today = DATE_ALWAYS,
                      .is_kept = arguments_has(arguments, "keep"),
                      .is_accepted = arguments_has(arguments, "accept"),
                      .is_even_so = arguments_has(arguments, "even-so")};
    TRY(arguments_day(arguments, "today", &ask->today));
    if (arguments_has(arguments, "stdin")) {
        TRY(read_input(arguments, ask));
    } else if (arguments->fact_count > 0 || arguments_has(arguments, "drop")) {
        PlanAlter *change = ARENA_NEW(arguments->arena, PlanAlter);
        TRY(read_change(arguments, change));
        ask->changes = change;
        ask->count = 1;
    } else if (!plan) {
        return err_make(ERR_USAGE, "tell what to change: a batch, way, step "
                                   "or clean (leat help alter)");
    }
    return plan ? plan_name_read(plan, &ask->on) : ERR_NONE;
}

Err cmd_alter(const Arguments *arguments, FILE *out)
{
    AlterAsk ask;
    TRY(read_ask(arguments, &ask));
    AlterAnswer *answer = ARENA_NEW(arguments->arena, AlterAnswer);
    TRY(alter_plan(&ask, arguments->arena, answer));
    if (answer->is_accepted) {
        plan_text_accepted(&answer->year, stderr);
    }
    if (arguments_has(arguments, "json")) {
        fputs(alter_json(answer, arguments->arena), out);
    } else {
        alter_text_print(answer, ask.dir, out);
    }
    return ERR_NONE;
}
