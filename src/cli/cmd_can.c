/* leat can DIR: can this order be taken, and what gives way? */
#include <math.h>
#include <signal.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/can_take.h"
#include "json/can.h"

static volatile sig_atomic_t stop_asked;

static void ask_stop(int number)
{
    (void)number;
    stop_asked = 1;
}

static Err read_ask(const Arguments *arguments, CanAsk *out)
{
    double price = 0.0;
    CanAsk ask = {.plan = {.dir = arguments_word(arguments, 0),
                           .weeks = 52,
                           .seed = 1,
                           .today = DATE_ALWAYS,
                           .stop = &stop_asked},
                  .product = arguments_fact(arguments, "product"),
                  .buyer = arguments_fact(arguments, "buyer"),
                  .until = DATE_NEVER,
                  .wants_ceiling = !arguments_has(arguments, "no-ceiling")};
    TRY(arguments_fact_number(arguments, "quantity", &ask.quantity));
    TRY(arguments_fact_number(arguments, "price", &price));
    TRY(arguments_fact_day(arguments, "from", &ask.from));
    TRY(arguments_fact_day(arguments, "until", &ask.until));
    TRY(arguments_day(arguments, "today", &ask.plan.today));
    TRY(arguments_integer(arguments, "seed", 0, INT32_MAX, &ask.plan.seed));
    TRY(arguments_integer(arguments, "moves", 1, INT64_MAX, &ask.plan.moves));
    ask.price_e4 = (int64_t)llround(price * 10000.0);
    *out = ask;
    return ERR_NONE;
}

static void print_day(int32_t day, FILE *out)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    fputs(text, out);
}

static void print_batches(const WhatIf *found, FILE *out)
{
    if (found->batch_count == 0) {
        fputs("It comes from what is planned already.\n", out);
        return;
    }
    fputs("\nSow and set for it\n"
          "  sow        set        first pick way                    bed      "
          "plants seeds\n",
          out);
    for (int i = 0; i < found->batch_count; i++) {
        const WhatIfBatch *batch = &found->batches[i];
        fputs("  ", out);
        if (batch->trays) {
            fputs("from trays", out);
        } else {
            print_day(batch->sow_on, out);
        }
        fputc(' ', out);
        print_day(batch->set_on, out);
        fputc(' ', out);
        print_day(batch->pick_from, out);
        fprintf(out, " %-22.22s %-8.8s %6d %5d\n", batch->way, batch->bed,
                batch->plants, batch->seeds);
    }
}

static void print_verdict(const CanAnswer *answer, FILE *out)
{
    const char *unit = answer->after.farm->farm[0].currency;
    switch (answer->found.verdict) {
    case CAN_YES:
        fprintf(out,
                "Yes: all %.0f units can be kept and nothing else gives "
                "way.\n",
                answer->found.wanted);
        break;
    case CAN_YES_IF:
        fprintf(out,
                "Yes, if what is told below gives way: all %.0f units can be "
                "kept.\n",
                answer->found.wanted);
        break;
    case CAN_NO:
        fprintf(out, "No: of %.0f units %.0f can be kept; short first in ",
                answer->found.wanted, answer->found.kept);
        if (answer->found.short_week != PLAN_NONE) {
            print_day(answer->after.index.from + 7 * answer->found.short_week,
                      out);
        }
        fputs(".\n", out);
        break;
    }
    fprintf(out, "The plan's value changes by %+.0f %s.\n",
            answer->found.value_change, unit);
}

static void print_needs(const CanAnswer *answer, FILE *out)
{
    fprintf(
        out,
        "\nIn its worst week it wants %.2f kg more feed a day for the beds and "
        "%.1f hours more;\nover the plan the work changes by %+.0f hours.\n",
        answer->found.more_feed_kg_d, answer->found.more_hours_w,
        answer->found.more_hours);
    if (answer->found.loss_count > 0) {
        fputs("\nGives way\n", out);
    }
    for (int i = 0; i < answer->found.loss_count; i++) {
        fprintf(out, "  %-32.32s %8.1f units less, in %d %s\n",
                answer->found.losses[i].product, answer->found.losses[i].units,
                answer->found.losses[i].weeks,
                answer->found.losses[i].weeks == 1 ? "week" : "weeks");
    }
    if (answer->after.has_ceiling && answer->after.ceiling.scarce_count > 0) {
        const PlanScarce *line = &answer->after.ceiling.scarce[0];
        fprintf(out, "\nWhat binds most: %s, in %d %s.\n", line->what,
                line->weeks, line->weeks == 1 ? "week" : "weeks");
    }
    if (answer->found.refuse_by != DATE_NEVER) {
        fputs("\nRefusing is free until ", out);
        print_day(answer->found.refuse_by, out);
        bool is_fed = answer->found.batch_count > 0 &&
                      answer->found.batches[0].trays != NULL;
        fprintf(out, ", the day before the first %s for it.\n",
                is_fed ? "setting" : "sowing");
    }
}

Err cmd_can(const Arguments *arguments, FILE *out)
{
    CanAsk ask;
    TRY(read_ask(arguments, &ask));
    struct sigaction on_stop = {.sa_handler = ask_stop};
    sigaction(SIGINT, &on_stop, NULL);
    Arena *arena = arguments->arena;
    CanAnswer *answer = ARENA_NEW(arena, CanAnswer);
    TRY(can_take(&ask, arena, answer));
    if (stop_asked) {
        return err_make(ERR_STOPPED, "stopped: no answer");
    }
    if (arguments_has(arguments, "json")) {
        fputs(json_can(&answer->found, answer->after.index.from,
                       answer->before.age, arena),
              out);
        return ERR_NONE;
    }
    wrap_print(answer->before.age ? answer->before.age : "",
               &(Wrap){.columns = 80}, out);
    print_verdict(answer, out);
    print_batches(&answer->found, out);
    print_needs(answer, out);
    return ERR_NONE;
}
