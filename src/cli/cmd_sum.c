/* leat sum NAME key=value ...: one calculation, with its working. */
#include "cli/commands.h"

#include <math.h>
#include <string.h>

#include "base/date.h"
#include "json/json_sum.h"
#include "sums/table.h"

enum { LINE_COLUMNS = 78, INDENT = 2 };

/* Text in lines of at most LINE_COLUMNS, those after the first further in. */
static void print_wrapped(const char *text, FILE *out)
{
    int column = fprintf(out, "%*s", INDENT, "");
    bool is_first = true;
    while (*text) {
        size_t length = strcspn(text, " ");
        if (!is_first && column + 1 + (int)length > LINE_COLUMNS) {
            column = fprintf(out, "\n%*s", 2 * INDENT, "") - 1;
            is_first = true;
        }
        column +=
            fprintf(out, "%s%.*s", is_first ? "" : " ", (int)length, text);
        is_first = false;
        text += length;
        text += strspn(text, " ");
    }
    fputc('\n', out);
}

enum { NUMBER_TEXT_SIZE = 32 };

/* Four figures, whole numbers whole, days as dates. */
static void number_text(double value, const char *unit,
                        char out[NUMBER_TEXT_SIZE])
{
    double size = fabs(value);
    bool is_whole = !(value < floor(value)) && !(value > floor(value));
    if (strcmp(unit, "date") == 0) {
        date_format((int32_t)value, out);
    } else if (is_whole && size < 1e12) {
        snprintf(out, NUMBER_TEXT_SIZE, "%.0f", value);
    } else if (size >= 1000.0 && size < 1e12) {
        snprintf(out, NUMBER_TEXT_SIZE, "%.1f", value);
    } else {
        snprintf(out, NUMBER_TEXT_SIZE, "%.4g", value);
    }
}

static void print_value(const SumValue *value, FILE *out)
{
    char middle[NUMBER_TEXT_SIZE];
    char low[NUMBER_TEXT_SIZE];
    char high[NUMBER_TEXT_SIZE];
    number_text(value->value, value->unit, middle);
    number_text(value->low, value->unit, low);
    number_text(value->high, value->unit, high);
    fprintf(out, "%s: %s", value->name, middle);
    if (*value->unit && strcmp(value->unit, "date") != 0) {
        fprintf(out, " %s", value->unit);
    }
    if (strcmp(low, high) != 0) {
        fprintf(out, " (%s to %s)", low, high);
    }
    fputc('\n', out);
}

static void print_answer(const SumAnswer *answer, FILE *out)
{
    if (answer->caution_count > 0) {
        fputs("Caution\n", out);
        for (int i = 0; i < answer->caution_count; i++) {
            print_wrapped(answer->cautions[i], out);
        }
        fputc('\n', out);
    }
    print_value(&answer->main, out);
    for (int i = 0; i < answer->also_count; i++) {
        fprintf(out, "%*s", INDENT, "");
        print_value(&answer->also[i], out);
    }
    fputs("\nWorking\n", out);
    for (int i = 0; i < answer->working_count; i++) {
        print_wrapped(answer->working[i], out);
    }
    fputs("Source:", out);
    for (int i = 0; i < answer->source_count; i++) {
        fprintf(out, "%s %s", i > 0 ? "," : "", answer->source[i]);
    }
    fputs(answer->source_count > 0
              ? " (docs/sources.md)\n"
              : " arithmetic, or common practice of the trade\n",
          out);
}

static void print_keys_in_line(const Sum *sum, FILE *out)
{
    int column = fprintf(out, "%*s", 2 * INDENT - 1, "");
    for (const SumKey *k = sum->keys; k->name; k++) {
        int length = (int)strlen(k->name) + 3;
        if (column + length > LINE_COLUMNS) {
            column = fprintf(out, "\n%*s", 2 * INDENT - 1, "") - 1;
        }
        bool is_needed = k->need == SUM_REQUIRED;
        column += fprintf(out, is_needed ? " %s" : " [%s]", k->name);
    }
    fputc('\n', out);
}

static void print_list(FILE *out)
{
    fputs("leat sum NAME key=value ...   keys in [] may be left out\n", out);
    size_t count = 0;
    const SumSubject *subjects = sum_subjects(&count);
    for (size_t i = 0; i < count; i++) {
        fprintf(out, "\n%s\n", subjects[i].title);
        for (const Sum *s = subjects[i].sums; s->name; s++) {
            fprintf(out, "%*s%s: %s\n", INDENT, "", s->name, s->purpose);
            print_keys_in_line(s, out);
        }
    }
}

static void print_sum(const Sum *sum, Arena *arena, FILE *out)
{
    fprintf(out, "%s: %s\n\n", sum->name, sum->purpose);
    for (const SumKey *k = sum->keys; k->name; k++) {
        fprintf(out, "%*s%-22s %s", INDENT, "", k->name, k->meaning);
        fprintf(out, "; %s", sum_key_expects(k, arena));
        if (k->need == SUM_USUAL && k->kind == SUM_WORD) {
            fprintf(out, "; usually %s", k->unit);
        } else if (k->need == SUM_USUAL) {
            fprintf(out, "; usually %.10g", k->usual);
        } else if (k->need == SUM_MAY) {
            fputs("; may be left out", out);
        }
        fputc('\n', out);
    }
    fprintf(out, "\nFor example\n%*s%s\n", INDENT, "",
            sum_example_line(sum, arena));
}

static Err run_sum(const Arguments *arguments, const Sum *sum, FILE *out)
{
    size_t count = arguments->fact_count;
    SumFact *facts = ARENA_ARRAY(arguments->arena, SumFact, count);
    for (size_t i = 0; i < count; i++) {
        facts[i] =
            (SumFact){arguments->facts[i].key, arguments->facts[i].value};
    }
    SumAnswer answer;
    TRY(sum_answer(sum, facts, count, arguments->arena, &answer));
    if (arguments_has(arguments, "json")) {
        fputs(json_sum(&answer), out);
    } else {
        print_answer(&answer, out);
    }
    return ERR_NONE;
}

static Err find_and_run(const Arguments *arguments, FILE *out)
{
    const char *name = arguments_word(arguments, 0);
    bool is_json = arguments_has(arguments, "json");
    if (!name && (is_json || arguments->fact_count > 0)) {
        return err_make(ERR_USAGE, "NAME is missing: which sum?");
    }
    if (!name) {
        print_list(out);
        return ERR_NONE;
    }
    const Sum *sum = NULL;
    TRY(sum_find(name, &sum));
    if (arguments->fact_count == 0 && !is_json) {
        print_sum(sum, arguments->arena, out);
        return ERR_NONE;
    }
    return run_sum(arguments, sum, out);
}

Err cmd_sum(const Arguments *arguments, FILE *out)
{
    Err err = find_and_run(arguments, out);
    if (err.kind != ERR_OK && arguments_has(arguments, "json")) {
        fputs(json_sum_error(&err, arguments->arena), out);
    }
    return err;
}
