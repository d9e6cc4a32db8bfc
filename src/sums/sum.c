/* What the functions of sums read and write. */
#include "sums/sum.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "base/tongue.h"

const SumInput *sum_input(const SumInputs *in, const char *key)
{
    for (int i = 0; in->sum->keys[i].name; i++) {
        if (strcmp(in->sum->keys[i].name, key) == 0) {
            return &in->of[i];
        }
    }
    assert(false && "a key that the sum does not have");
    return NULL;
}

double sum_number(const SumInputs *in, const char *key)
{
    const SumInput *input = sum_input(in, key);
    assert(input->is_given);
    return input->number;
}

int32_t sum_count(const SumInputs *in, const char *key)
{
    return (int32_t)sum_number(in, key);
}

bool sum_is_given(const SumInputs *in, const char *key)
{
    return sum_input(in, key)->is_given;
}

int32_t sum_day(const SumInputs *in, const char *key)
{
    const SumInput *input = sum_input(in, key);
    assert(input->is_given);
    return input->day;
}

const char *sum_word(const SumInputs *in, const char *key)
{
    const SumInput *input = sum_input(in, key);
    assert(input->is_given);
    return input->text;
}

void sum_is(SumAnswer *out, const char *name, double value, const char *unit)
{
    out->main = (SumValue){name, value, value, value, unit};
}

void sum_is_figure(SumAnswer *out, const char *name, Figure figure,
                   const char *unit)
{
    out->main = (SumValue){name, figure.value, figure.low, figure.high, unit};
}

void sum_also_figure(SumAnswer *out, const char *name, Figure figure,
                     const char *unit)
{
    if (!isfinite(figure.value) || !isfinite(figure.low) ||
        !isfinite(figure.high)) {
        return;
    }
    assert(out->also_count < SUM_ALSO_MAX);
    out->also[out->also_count++] =
        (SumValue){name, figure.value, figure.low, figure.high, unit};
}

void sum_also(SumAnswer *out, const char *name, double value, const char *unit)
{
    sum_also_figure(out, name, figure_exact(value, FIGURE_BOOK, ""), unit);
}

/* 0: the arguments come as a list, which compilers do not check. */
PRINTF_LIKE(2, 0)
static const char *text_of(Arena *arena, const char *format, va_list args)
{
    char line[400];
    vsnprintf(line, sizeof line, format, args);
    return arena_copy_text(arena, line);
}

void sum_work(SumAnswer *out, const char *format, ...)
{
    assert(out->working_count < SUM_LINES_MAX);
    va_list args;
    va_start(args, format);
    out->working[out->working_count++] = text_of(out->arena, format, args);
    va_end(args);
}

void sum_caution(SumAnswer *out, const char *format, ...)
{
    assert(out->caution_count < SUM_LINES_MAX);
    va_list args;
    va_start(args, format);
    out->cautions[out->caution_count++] =
        text_of(out->arena, say(out->arena, format), args);
    va_end(args);
}

static bool has_source(const SumAnswer *answer, const char *key)
{
    for (int i = 0; i < answer->source_count; i++) {
        if (strcmp(answer->source[i], key) == 0) {
            return true;
        }
    }
    return false;
}

void sum_source(SumAnswer *out, const char *keys)
{
    while (*keys) {
        size_t length = strcspn(keys, " ");
        const char *key = arena_copy_bytes(out->arena, keys, length);
        if (length > 0 && !has_source(out, key)) {
            assert(out->source_count < SUM_LINES_MAX);
            out->source[out->source_count++] = key;
        }
        keys += length;
        keys += strspn(keys, " ");
    }
}

Figure sum_range(double value, double low, double high)
{
    return (Figure){value, low, high, FIGURE_BOOK, ""};
}

Figure sum_about(double value, double part)
{
    return sum_range(value, value * (1.0 - part), value * (1.0 + part));
}

Figure sum_scaled(Figure figure, double factor)
{
    double a = figure.low * factor;
    double b = figure.high * factor;
    figure.value *= factor;
    figure.low = fmin(a, b);
    figure.high = fmax(a, b);
    return figure;
}

const char *sum_date(SumAnswer *out, int32_t day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy_text(out->arena, text);
}
