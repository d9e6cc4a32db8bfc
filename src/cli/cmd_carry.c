/* leat carry DIR: do the fish carry the beds? */
#include <math.h>

#include "base/date.h"
#include "base/text.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/carry.h"
#include "json/carry.h"

enum { COLUMNS = 79, EVERY_WEEKS = 4 };

static void print_table(const Carry *carry, const CarryLoop *loop, FILE *out)
{
    char week[DATE_TEXT_SIZE];
    fputs("  four weeks from   feed kg  wanted   grown %      N     P     K    "
          "Ca    Mg    Fe mg/L\n",
          out);
    for (int from = 0; from < carry->weeks; from += EVERY_WEEKS) {
        double offered = 0.0, wanted = 0.0, grown = 0.0;
        int count = 0;
        for (int w = from; w < from + EVERY_WEEKS && w < carry->weeks; w++) {
            offered += loop->offered_kg[w];
            wanted += loop->wanted_kg[w];
            grown += loop->growth_frac[w];
            count++;
        }
        int last = from + count - 1;
        week_format(carry->first_week + CARRY_WEEK_D * from, week);
        fprintf(out, "  %-16s %8.1f %7.1f %9.0f ", week, offered, wanted,
                100.0 * grown / count);
        for (int e = 0; e < HOUR_ELEMENTS; e++) {
            fprintf(out, " %5.*f", e == HOUR_FE ? 2 : 1,
                    loop->elements[e].store_g_m3[last]);
        }
        fputc('\n', out);
    }
}

static void print_answer(const CarryAnswer *answer, Arena *arena, FILE *out)
{
    const Carry *carry = &answer->carry;
    char day[DATE_TEXT_SIZE];
    date_format(carry->first_week, day);
    fprintf(out, "%s: do the fish carry the beds? From %s, %d weeks\n",
            answer->farm_name, day, carry->weeks);
    for (int i = 0; i < answer->notice_count; i++) {
        wrap_print(answer->notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    for (int l = 0; l < carry->farm->loops_count; l++) {
        if (answer->loop >= 0 && answer->loop != l) {
            continue;
        }
        fprintf(out, "\nLoop %s\n", carry->farm->loops[l].id);
        const char *const *lines = carry_words(carry, l, arena);
        for (int i = 0; lines[i]; i++) {
            wrap_print(lines[i], &(Wrap){COLUMNS, 2, 4}, out);
        }
        print_table(carry, &carry->loops[l], out);
    }
}

static Err read_spell(const Arguments *arguments, CarryQuestion *out)
{
    const char *k = arguments_fact(arguments, "spell_k");
    const char *days = arguments_fact(arguments, "spell_d");
    const char *from = arguments_fact(arguments, "spell_from");
    if (!k && (days || from)) {
        return err_make(ERR_USAGE, "spell_k=: how much warmer, below 0 colder");
    }
    double length = out->spell_days;
    TRY(arguments_fact_number(arguments, "spell_k", &out->spell_k));
    TRY(arguments_fact_number(arguments, "spell_d", &length));
    if (!(length >= 1.0 && length <= 60.0)) {
        return err_make(ERR_USAGE, "spell_d=%.60s: 1 to 60 days", days);
    }
    out->spell_days = (int)lround(length);
    return arguments_fact_day(arguments, "spell_from", &out->spell_from);
}

Err cmd_carry(const Arguments *arguments, FILE *out)
{
    CarryQuestion question = carry_usual_question(arguments_word(arguments, 0));
    question.loop = arguments_fact(arguments, "loop");
    question.has_iron = arguments_has(arguments, "iron");
    TRY(read_spell(arguments, &question));
    int64_t weeks = CARRY_WEEKS_USUAL;
    TRY(arguments_integer(arguments, "weeks", 1, CARRY_WEEKS_MOST, &weeks));
    question.weeks = (int)weeks;
    CarryAnswer answer;
    TRY(carry_answer(&question, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(carry_to_json(&answer.carry, answer.loop, answer.notices,
                            answer.notice_count, arguments->arena),
              out);
    } else {
        print_answer(&answer, arguments->arena, out);
    }
    return ERR_NONE;
}
