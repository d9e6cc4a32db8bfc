/* How a shown figure was made. */
#include "base/working.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/tongue.h"

static const char *const FROM_WORDS[] = {
    [WORKING_BOOK] = "book",         [WORKING_YOURS] = "yours",
    [WORKING_GUESS] = "guess",       [WORKING_TOLD] = "told",
    [WORKING_TABLE] = "table",       [WORKING_PLAN] = "plan",
    [WORKING_FORESEEN] = "foreseen", [WORKING_WORKED] = "worked"};

enum { NOTE_BYTES = 400 };

const char *working_from_word(WorkingFrom from)
{
    return FROM_WORDS[from];
}

static bool is_asked(const char *asked, const char *name)
{
    return !asked || strcmp(asked, name) == 0;
}

bool workings_want(const Workings *all, const char *of, const char *id,
                   const char *figure)
{
    return all && is_asked(all->only.of, of) && is_asked(all->only.id, id) &&
           is_asked(all->only.figure, figure);
}

Working *working_begin(Workings *all, const char *of, const char *id,
                       const char *figure)
{
    if (!workings_want(all, of, id, figure)) {
        return NULL;
    }
    Working *made = ARENA_NEW(all->arena, Working);
    *made = (Working){.key = {of, id, figure},
                      .name = figure,
                      .words = "",
                      .symbols = "",
                      .unit = "",
                      .arena = all->arena};
    /* Room doubles; a power of two is full. */
    if ((all->count & (all->count - 1)) == 0) {
        size_t room = all->count > 0 ? 2 * (size_t)all->count : 1;
        all->items = arena_grow(all->arena, all->items, (size_t)all->count,
                                room, sizeof(Working *));
    }
    all->items[all->count++] = made;
    return made;
}

void working_says(Working *working, const char *name, const char *words,
                  const char *symbols)
{
    if (working) {
        working->name = say(working->arena, name);
        working->words = say(working->arena, words);
        working->symbols = symbols;
    }
}

void working_joins(Working *working, const char *text)
{
    if (working) {
        working->symbols =
            arena_text(working->arena, "%s%s", working->symbols, text);
    }
}

void working_is(Working *working, double value, const char *unit)
{
    if (working) {
        working->value = value;
        working->low = value;
        working->high = value;
        working->unit = unit;
    }
}

void working_range(Working *working, double low, double high)
{
    if (working) {
        working->low = low;
        working->high = high;
    }
}

void working_put(Working *working, const WorkingInput *input)
{
    if (!working) {
        return;
    }
    working->inputs = arena_grow(
        working->arena, working->inputs, (size_t)working->input_count,
        (size_t)working->input_count + 1, sizeof *working->inputs);
    WorkingInput *put = &working->inputs[working->input_count++];
    *put = *input;
    put->name = say(working->arena, input->name);
    if (!(put->low < 0.0 || put->low > 0.0 || put->high < 0.0 ||
          put->high > 0.0)) {
        put->low = put->value;
        put->high = put->value;
    }
}

void working_figure(Working *working, const char *symbol, const char *name,
                    const Figure *figure, const char *unit)
{
    WorkingInput input = {.symbol = symbol,
                          .name = name,
                          .value = figure->value,
                          .low = figure->low,
                          .high = figure->high,
                          .unit = unit,
                          .from = (WorkingFrom)figure->origin,
                          .source = figure->source};
    working_put(working, &input);
}

void working_value(Working *working, const char *symbol, const char *name,
                   double value, WorkingInput rest)
{
    rest.symbol = symbol;
    rest.name = name;
    rest.value = value;
    working_put(working, &rest);
}

void working_date(Working *working, const char *symbol, const char *name,
                  int32_t day, WorkingFrom from)
{
    working_value(working, symbol, name, day,
                  (WorkingInput){.unit = "date", .from = from});
}

const char *working_symbol(Working *working, const char *letter, int number)
{
    return working ? arena_text(working->arena, "%s%d", letter, number) : "";
}

static const char **add_text(Working *working, const char **list, int count,
                             const char *text)
{
    list = arena_grow(working->arena, list, (size_t)count, (size_t)count + 1,
                      sizeof *list);
    list[count] = text;
    return list;
}

void working_note(Working *working, const char *format, ...)
{
    if (!working) {
        return;
    }
    char text[NOTE_BYTES];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, say(working->arena, format), arguments);
    va_end(arguments);
    working->notes = add_text(working, working->notes, working->note_count,
                              arena_copy_text(working->arena, text));
    working->note_count++;
}

void working_source(Working *working, const char *key)
{
    if (working) {
        working->sources =
            add_text(working, working->sources, working->source_count, key);
        working->source_count++;
    }
}

const Working *workings_find(const Workings *all, const WorkingKey *key)
{
    for (int32_t i = 0; i < all->count; i++) {
        const WorkingKey *made = &all->items[i]->key;
        if (strcmp(made->of, key->of) == 0 && strcmp(made->id, key->id) == 0 &&
            strcmp(made->figure, key->figure) == 0) {
            return all->items[i];
        }
    }
    return NULL;
}
