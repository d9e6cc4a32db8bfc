/* leat vent DIR: when to open the tunnels, and how wide. */
#include "base/date.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/vent.h"
#include "json/vent.h"

enum { COLUMNS = 79 };

static void print_hours(const VentDay *day, const VentTunnel *to, Arena *arena,
                        FILE *out)
{
    fputs("    clock  outside  inside  humidity  open  wet   shut: inside  "
          "humidity  wet\n",
          out);
    for (int hour = 0; hour < VENT_DAY_H; hour++) {
        const VentAir *is = &to->hours[VENT_OPENED][hour];
        const VentAir *shut = &to->hours[VENT_SHUT][hour];
        fprintf(out,
                "    %s %8.1f %7.1f %7.0f %% %3.0f %%  %-3s %14.1f %7.0f "
                "%%  %s\n",
                vent_clock(day, hour + 1.0, arena), is->outside_degc,
                is->air_degc, 100.0 * is->rh_frac, 100.0 * is->open_frac,
                is->is_wet ? "wet" : "", shut->air_degc, 100.0 * shut->rh_frac,
                shut->is_wet ? "wet" : "");
    }
}

static void print_tunnel(const VentDay *day, int tunnel, bool has_hours,
                         Arena *arena, FILE *out)
{
    fprintf(out, "\n%s: %s\n", day->farm->tunnels[tunnel].id,
            vent_brief(day, tunnel, arena));
    const char *const *lines = vent_lines(day, tunnel, arena);
    for (int i = 0; lines[i]; i++) {
        wrap_print(lines[i], &(Wrap){COLUMNS, 2, 4}, out);
    }
    const char *const *moulds =
        vent_pressure_lines(day, tunnel, PRESSURE_SOME, arena);
    fputs(moulds[0] ? "  Moulds, these seven days:\n"
                    : "  No mould presses on what stands there.\n",
          out);
    for (int i = 0; moulds[i]; i++) {
        wrap_print(moulds[i], &(Wrap){COLUMNS, 4, 6}, out);
    }
    if (has_hours) {
        print_hours(day, &day->tunnels[tunnel], arena, out);
    }
}

static void print_rules(const VentDay *day, Arena *arena, FILE *out)
{
    bool is_any = false;
    for (int m = 0; m < MOULD_COUNT; m++) {
        if (!vent_mould_presses(day, (Mould)m, PRESSURE_SOME)) {
            continue;
        }
        fputs(is_any ? ""
                     : "\nBy these rules; they tell a pressure, not an "
                       "illness, and no remedy:\n",
              out);
        is_any = true;
        wrap_print(arena_text(arena, "%s: %s.", mould_name((Mould)m),
                              mould_rule((Mould)m)),
                   &(Wrap){COLUMNS, 2, 4}, out);
    }
}

static void print_answer(const VentAnswer *answer, bool has_hours, Arena *arena,
                         FILE *out)
{
    const VentDay *day = &answer->day;
    char text[DATE_TEXT_SIZE];
    date_format(day->day, text);
    fprintf(out, "%s: vents on %s; outside %.1f to %.1f degC, wind %.1f m/s\n",
            answer->farm_name, text, day->outside_least_degc,
            day->outside_most_degc, day->wind_m_s);
    for (int i = 0; i < answer->notice_count; i++) {
        wrap_print(answer->notices[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    for (int t = 0; t < day->farm->tunnels_count; t++) {
        print_tunnel(day, t, has_hours, arena, out);
    }
    print_rules(day, arena, out);
}

Err cmd_vent(const Arguments *arguments, FILE *out)
{
    Arena *arena = arguments->arena;
    VentQuestion question = {.dir = arguments_word(arguments, 0),
                             .day = DATE_ALWAYS};
    TRY(arguments_day(arguments, "today", &question.day));
    VentAnswer answer;
    TRY(vent_answer(&question, arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(vent_to_json(&answer.day, answer.notices, answer.notice_count,
                           arena),
              out);
    } else {
        print_answer(&answer, arguments_has(arguments, "hours"), arena, out);
    }
    return ERR_NONE;
}
