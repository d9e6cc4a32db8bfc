/* leat working DIR: how a figure of the pages was made. */
#include <math.h>
#include <string.h>

#include "base/date.h"
#include "cli/commands.h"
#include "cli/wrap.h"
#include "desk/today.h"
#include "desk/working.h"
#include "farm/references.h"

enum { COLUMNS = 79 };

static const char *value_text(double value, const char *unit, Arena *arena)
{
    if (strcmp(unit, "date") == 0) {
        char date[DATE_TEXT_SIZE];
        date_format((int32_t)value, date);
        return arena_copy_text(arena, date);
    }
    return arena_text(arena, "%.5g%s%s", value, *unit ? " " : "", unit);
}

static const char *range_text(double value, double low, double high,
                              const char *unit, Arena *arena)
{
    const char *text = value_text(value, unit, arena);
    bool has_range = low < value || high > value;
    return has_range ? arena_text(arena, "%s (%s to %s)", text,
                                  value_text(low, unit, arena),
                                  value_text(high, unit, arena))
                     : text;
}

static void print_input(const WorkingInput *input, Arena *arena, FILE *out)
{
    const char *from = working_from_word(input->from);
    if (input->on) {
        char date[DATE_TEXT_SIZE];
        date_format(input->on, date);
        from = arena_text(arena, "%s %s", from, date);
    }
    bool has_source = input->source && *input->source;
    fprintf(
        out, "  %-8s %-34s %s, %s%s%s%s\n", input->symbol ? input->symbol : "",
        input->name,
        range_text(input->value, input->low, input->high, input->unit, arena),
        from, has_source ? " [" : "", has_source ? input->source : "",
        has_source ? "]" : "");
    if (input->opens.of) {
        fprintf(out, "  %8s it opens: of=%s id=%s figure=%s\n", "",
                input->opens.of, input->opens.id, input->opens.figure);
    }
}

/* A source in full, each key once. */
static void print_sources(const char *keys, const char **told, int *count,
                          Arena *arena, FILE *out)
{
    while (keys && *keys) {
        size_t length = strcspn(keys, " ");
        const char *key = arena_copy_bytes(arena, keys, length);
        const char *text = reference_of(key, arena);
        bool is_told = !text;
        for (int i = 0; i < *count; i++) {
            is_told |= strcmp(told[i], key) == 0;
        }
        if (!is_told) {
            told[(*count)++] = key;
            wrap_print(arena_text(arena, "[%s] %s", key, text),
                       &(Wrap){COLUMNS, 0, 4}, out);
        }
        keys += length + (keys[length] ? 1 : 0);
    }
}

static void print_one(const Working *working, Arena *arena, FILE *out)
{
    fprintf(out, "%s of %s %s: %s\n\n", working->name, working->key.of,
            working->key.id,
            range_text(working->value, working->low, working->high,
                       working->unit, arena));
    wrap_print(working->words, &(Wrap){COLUMNS, 2, 2}, out);
    wrap_print(working->symbols, &(Wrap){COLUMNS, 2, 4}, out);
    fputc('\n', out);
    for (int i = 0; i < working->input_count; i++) {
        print_input(&working->inputs[i], arena, out);
    }
    for (int i = 0; i < working->note_count; i++) {
        fputs(i ? "" : "\n", out);
        wrap_print(working->notes[i], &(Wrap){COLUMNS, 0, 0}, out);
    }
    const char **told =
        ARENA_ARRAY(arena, const char *,
                    8 * (working->input_count + working->source_count + 1));
    int count = 0;
    for (int i = 0; i < working->source_count; i++) {
        print_sources(working->sources[i], told, &count, arena, out);
    }
    for (int i = 0; i < working->input_count; i++) {
        if (working->inputs[i].from != WORKING_YOURS) {
            print_sources(working->inputs[i].source, told, &count, arena, out);
        }
    }
}

static void print_list(const WorkingAnswer *answer, Arena *arena, FILE *out)
{
    for (int32_t i = 0; i < answer->workings.count; i++) {
        const Working *working = answer->workings.items[i];
        fprintf(out, "of=%s id=%s figure=%-14s %s\n", working->key.of,
                working->key.id, working->key.figure,
                range_text(working->value, working->low, working->high,
                           working->unit, arena));
    }
}

Err cmd_working(const Arguments *arguments, FILE *out)
{
    WorkingQuestion question = {
        .dir = arguments_word(arguments, 0),
        .today = DATE_ALWAYS,
        .key = {.of = arguments_fact(arguments, "of"),
                .id = arguments_fact(arguments, "id"),
                .figure = arguments_fact(arguments, "figure")}};
    TRY(arguments_day(arguments, "today", &question.today));
    WorkingAnswer answer;
    TRY(working_answer(&question, arguments->arena, &answer));
    answer.is_full = arguments_has(arguments, "full");
    if (arguments_has(arguments, "json")) {
        fputs(working_answer_json(&answer, arguments->arena), out);
    } else if (answer.only) {
        print_one(answer.only, arguments->arena, out);
    } else {
        print_list(&answer, arguments->arena, out);
    }
    return ERR_NONE;
}
