/* leat emergency DIR: the card of a stopped pump, blower or heater, or of a
 * power cut, on one page. */
#include "cli/commands.h"
#include "cli/water_facts.h"
#include "cli/wrap.h"
#include "desk/emergency.h"
#include "json/emergency.h"

enum { COLUMNS = 79 };

static void print_card(const EmergencyAnswer *answer, FILE *out)
{
    const Card *card = &answer->card;
    fprintf(out, "%s: %s, %s\n", answer->farm_name, card->title, card->when);
    wrap_print(card->what, &(Wrap){COLUMNS, 0, 0}, out);
    int number = 0;
    for (int part = 0; part < CARD_PARTS; part++) {
        const CardStep *step = &card->steps[part];
        if (step->count == 0) {
            continue;
        }
        fprintf(out, "%d  %s\n", ++number, step->title);
        for (int i = 0; i < step->count; i++) {
            if (step->lines[i].is_row) {
                fprintf(out, "   %s\n", step->lines[i].text);
            } else {
                wrap_print(step->lines[i].text, &(Wrap){COLUMNS, 3, 3}, out);
            }
        }
    }
    for (int i = 0; i < answer->emergency.notice_count; i++) {
        wrap_print(answer->emergency.notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    wrap_print(card->foot, &(Wrap){COLUMNS, 0, 0}, out);
}

Err cmd_emergency(const Arguments *arguments, FILE *out)
{
    EmergencyQuestion question = {
        .dir = arguments_word(arguments, 0),
        .pump = arguments_fact(arguments, "pump"),
        .heater = arguments_fact(arguments, "heater"),
        .aerator = arguments_fact(arguments, "aerator"),
        .power = arguments_fact(arguments, "power"),
        .at = arguments_fact(arguments, "at"),
        .today = DATE_ALWAYS,
        .tank = arguments_fact(arguments, "tank"),
    };
    TRY(arguments_day(arguments, "today", &question.today));
    TRY(facts_number(arguments, "temp_degc", &question.temp_degc));
    TRY(facts_number(arguments, "oxygen_mg_l", &question.oxygen_mg_l));
    TRY(facts_number(arguments, "fed_hours_ago", &question.fed_hours_ago));
    TRY(facts_number(arguments, "outside_degc", &question.outside_degc));
    EmergencyAnswer answer;
    TRY(emergency_answer(&question, arguments->arena, &answer));
    const char *page = arguments_option(arguments, "print");
    if (page) {
        TRY(emergency_save_page(&answer, page, arguments->arena));
    }
    if (arguments_has(arguments, "json")) {
        fputs(emergency_to_json(&answer.emergency, &answer.card,
                                arguments->arena),
              out);
    } else {
        print_card(&answer, out);
    }
    return ERR_NONE;
}
